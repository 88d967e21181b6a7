package pdf

import (
	"bytes"
	"reflect"
	"testing"

	"hoistbook/render/page"
)

// Documents that are written together look as each does alone, whatever they share: a page in two of them, the fonts, an attachment.
func TestTogetherLooksAsAlone(t *testing.T) {
	long := sampleOn(t, page.A4)
	short := &page.Document{Title: "one sheet", Fonts: long.Fonts, Attachments: long.Attachments, Pages: []page.Page{long.Pages[1]}}
	short.Pages[0].Running = []page.Item{page.Text{X: 20, Y: 10, Size: 9, Ink: page.Grey(0.4), Text: "sheet 1 of 1"}, page.Line{X1: 20, Y1: 12, X2: 60, Y2: 12, Stroke: page.Stroke{Width: 2}}}
	docs := []*page.Document{short, long}
	files, err := Together(docs...)
	if err != nil {
		t.Fatal(err)
	}
	for i, doc := range docs {
		alone, err := Bytes(doc)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := seen(t, files[i]), seen(t, alone); !reflect.DeepEqual(got, want) {
			t.Errorf("%q looks otherwise when it is written with others", doc.Title)
		}
		for _, a := range doc.Attachments {
			if got, err := Attachment(files[i], a.Name); err != nil || !bytes.Equal(got, a.Data) {
				t.Errorf("%q: attachment %q comes back as %q, %v", doc.Title, a.Name, got, err)
			}
		}
	}
	if again, err := Together(docs...); err != nil || !reflect.DeepEqual(again, files) {
		t.Errorf("the same documents gave other bytes, %v", err)
	}
}

func TestTogetherRefusesOtherFonts(t *testing.T) {
	other := sampleOn(t, page.A4)
	other.Fonts = &page.Fonts{}
	if _, err := Together(sampleOn(t, page.A4), other); err == nil {
		t.Error("documents in two sets of fonts were written together")
	}
	if _, err := Together(); err == nil {
		t.Error("nothing was written without a word")
	}
}
