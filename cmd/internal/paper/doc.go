// Package paper has tests alone: they print the demonstration kits by the command line, as a user does, and read the PDF files back
// with programs that are not ours (poppler, qpdf, zbar). What they find is held against the program's own report.
package paper
