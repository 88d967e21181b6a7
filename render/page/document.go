package page

import (
	"iter"
	"time"
)

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

// Page is one sheet and what is on it. Items are painted in order, later ones over earlier ones, and all of them over the running
// lines. Pages of documents that were bound of one [Part] hold the same Items; nobody changes them.
type Page struct {
	Paper   Paper
	Running []Item // what the page says of itself outside the text block: whose it is, and its number
	Items   []Item
}

// All are the things of the page in the order in which they are painted.
func (p Page) All() iter.Seq[Item] {
	return func(yield func(Item) bool) {
		for _, items := range [2][]Item{p.Running, p.Items} {
			for _, it := range items {
				if !yield(it) {
					return
				}
			}
		}
	}
}

// Attachment is a file that rides inside the document.
type Attachment struct {
	Name        string
	Description string
	MediaType   string // such as "application/json"
	Data        []byte
}
