package page

import "time"

// Document is everything that goes into one file.
type Document struct {
	Title, Subject string
	Author         string
	Language       string // BCP 47, such as "en"
	Keywords       []string
	Creator        string    // the program
	Date           time.Time // handed in; the zero time leaves dates out
	Fonts          *Fonts
	Pages          []Page
	Attachments    []Attachment
}

// Page is one sheet and what is on it. Items are painted in order, later ones over earlier ones.
type Page struct {
	Paper Paper
	Items []Item
}

// Attachment is a file that rides inside the document.
type Attachment struct {
	Name        string
	Description string
	MediaType   string // such as "application/json"
	Data        []byte
}
