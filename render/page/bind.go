package page

// Part is what a [Flow] has set, while nobody knows yet which numbers its pages will have: it can be bound by itself and, with others,
// into a book.
type Part struct {
	pages  []Page
	places []Place
}

// Bind makes one document of parts, with the particulars of doc: it puts the running lines on all pages and resolves page numbers. The
// parts stay as they are and may be bound again.
func Bind(doc Document, running func(Place) []Item, parts ...*Part) (*Document, error) {
	var places []Place
	for _, p := range parts {
		doc.Pages, places = append(doc.Pages, p.pages...), append(places, p.places...)
	}
	for i := range doc.Pages {
		place := places[i]
		place.Number, place.Count = i+1, len(doc.Pages)
		if running != nil {
			doc.Pages[i].Running = running(place)
		}
	}
	if err := numberPages(doc.Pages); err != nil {
		return nil, err
	}
	return &doc, nil
}
