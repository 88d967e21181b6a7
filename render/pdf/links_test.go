package pdf

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"hoistbook/render/page"
)

// Links lead to the page of their anchor, also from portrait to landscape, or to their address, as qpdf reads them.
func TestLinks(t *testing.T) {
	doc := sampleOn(t, page.A4)
	file, _ := written(t, doc)
	var j struct {
		Pages []struct {
			Object string `json:"object"`
		} `json:"pages"`
		QPDF [2]json.RawMessage `json:"qpdf"`
	}
	out := tool(t, "qpdf", "--json", "--json-key=pages", "--json-key=qpdf", file)
	if err := json.Unmarshal(out, &j); err != nil {
		t.Fatal(err)
	}
	var objects map[string]struct{ Value json.RawMessage }
	if err := json.Unmarshal(j.QPDF[1], &objects); err != nil {
		t.Fatal(err)
	}
	pageOf := map[string]int{}
	for i, p := range j.Pages {
		pageOf[p.Object] = i
	}
	var got, want []string
	for _, p := range j.Pages {
		var body struct {
			Annots []string `json:"/Annots"`
		}
		if err := json.Unmarshal(objects["obj:"+p.Object].Value, &body); err != nil {
			t.Fatal(err)
		}
		for _, note := range body.Annots {
			var link struct {
				Kind string            `json:"/Subtype"`
				Dest []any             `json:"/Dest"`
				Act  map[string]string `json:"/A"`
			}
			if err := json.Unmarshal(objects["obj:"+note].Value, &link); err != nil {
				t.Fatal(err)
			}
			switch {
			case link.Kind != "/Link":
			case link.Act != nil:
				got = append(got, fmt.Sprintf("page %d to %s", pageOf[p.Object]+1, link.Act["/URI"]))
			default:
				got = append(got, fmt.Sprintf("page %d to page %d at %.0f", pageOf[p.Object]+1, pageOf[fmt.Sprint(link.Dest[0])]+1, link.Dest[3]))
			}
		}
	}
	anchors := map[string]string{}
	for i, p := range doc.Pages {
		for it := range p.All() {
			if a, ok := it.(page.Anchor); ok {
				above := min(float64((p.Paper.Height-a.Y+4)*72/25.4), float64(p.Paper.Height*72/25.4))
				anchors[a.Name] = fmt.Sprintf("page %d at %.0f", i+1, above)
			}
		}
	}
	for i, p := range doc.Pages {
		for it := range p.All() {
			if l, ok := it.(page.Link); ok {
				to := "u:https://example.org/iso-32000?q=%C3%84"
				if !page.Outward(l.To) {
					to = anchors[l.To]
				}
				want = append(want, fmt.Sprintf("page %d to %s", i+1, to))
			}
		}
	}
	if !slices.Equal(got, want) || len(want) < 6 {
		t.Errorf("got %q, want %q", got, want)
	}
}
