package page

import (
	"fmt"
	"slices"
	"strconv"
)

// numberPages replaces every [PageNumber] by the number of the page on which its anchor stands, in items of the page's own: the same
// part has other numbers in another document.
func numberPages(pages []Page) error {
	at := map[string]int{}
	for i, p := range pages {
		for _, it := range p.Items {
			if a, ok := it.(Anchor); ok {
				if before, twice := at[a.Name]; twice {
					return fmt.Errorf("anchor %q stands on page %d and again on page %d; each name may stand once", a.Name, before, i+1)
				}
				at[a.Name] = i + 1
			}
		}
	}
	for i, p := range pages {
		own := false
		for k, it := range p.Items {
			n, ok := it.(PageNumber)
			if !ok {
				continue
			}
			number, found := at[n.Anchor]
			if !found {
				return fmt.Errorf("page %d: the number of the page with anchor %q is asked for, but nothing has that name", i+1, n.Anchor)
			}
			n.Text.Text = strconv.Itoa(number)
			if !own {
				pages[i].Items, own = slices.Clone(p.Items), true
			}
			pages[i].Items[k] = n.Text
		}
	}
	return nil
}
