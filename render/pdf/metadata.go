package pdf

import (
	"fmt"
	"strings"
	"time"

	"hoistbook/render/page"
)

// producer names what made the file, without a version: two builds of the same document shall not differ.
const producer = "Hoistbook"

// information is the old-style description of the file (ISO 32000-1, 14.3.3).
func information(doc *page.Document) string {
	var b strings.Builder
	b.WriteString("<<")
	for _, e := range []struct{ key, value string }{
		{"Title", doc.Title}, {"Subject", doc.Subject}, {"Author", doc.Author},
		{"Keywords", strings.Join(doc.Keywords, ", ")}, {"Creator", doc.Creator}, {"Producer", producer},
	} {
		if e.value != "" {
			b.WriteString("/" + e.key + text(e.value))
		}
	}
	if !doc.Date.IsZero() {
		b.WriteString("/CreationDate" + date(doc.Date) + "/ModDate" + date(doc.Date))
	}
	return b.String() + ">>"
}

func date(t time.Time) string { return t.UTC().Format("(D:20060102150405Z)") }

// metadata writes the same as XMP (ISO 16684-1), uncompressed, so that programs which know no PDF find it.
func (f *file) metadata(doc *page.Document) int {
	var b strings.Builder
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about=""` +
		` xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:xmp="http://ns.adobe.com/xap/1.0/">` + "\n")
	for _, e := range []struct{ open, value, shut string }{
		{`<dc:title><rdf:Alt><rdf:li xml:lang="x-default">`, doc.Title, `</rdf:li></rdf:Alt></dc:title>`},
		{`<dc:description><rdf:Alt><rdf:li xml:lang="x-default">`, doc.Subject, `</rdf:li></rdf:Alt></dc:description>`},
		{`<dc:creator><rdf:Seq><rdf:li>`, doc.Author, `</rdf:li></rdf:Seq></dc:creator>`},
		{`<dc:language><rdf:Bag><rdf:li>`, doc.Language, `</rdf:li></rdf:Bag></dc:language>`},
		{`<pdf:Keywords>`, strings.Join(doc.Keywords, ", "), `</pdf:Keywords>`},
		{`<pdf:Producer>`, producer, `</pdf:Producer>`},
		{`<xmp:CreatorTool>`, doc.Creator, `</xmp:CreatorTool>`},
	} {
		if e.value != "" {
			fmt.Fprintf(&b, "%s%s%s\n", e.open, escapeXML(e.value), e.shut)
		}
	}
	if len(doc.Keywords) > 0 {
		b.WriteString("<dc:subject><rdf:Bag>")
		for _, k := range doc.Keywords {
			b.WriteString("<rdf:li>" + escapeXML(k) + "</rdf:li>")
		}
		b.WriteString("</rdf:Bag></dc:subject>\n")
	}
	if !doc.Date.IsZero() {
		at := doc.Date.UTC().Format(time.RFC3339)
		fmt.Fprintf(&b, "<xmp:CreateDate>%s</xmp:CreateDate><xmp:ModifyDate>%s</xmp:ModifyDate>\n", at, at)
	}
	b.WriteString("</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>")
	return f.plain("/Type/Metadata/Subtype/XML", []byte(b.String()))
}

// escapeXML also drops the control characters that XML cannot hold.
func escapeXML(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, s)
	return entities.Replace(s)
}

var entities = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")
