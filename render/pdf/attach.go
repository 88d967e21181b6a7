package pdf

import (
	"fmt"
	"slices"
	"strings"

	"hoistbook/render/page"
)

// attachments embeds the document's files (ISO 32000-1, 7.11.4) and gives the name tree that lists them; empty if there are none.
func (f *file) attachments(doc *page.Document, p *press) string {
	if len(doc.Attachments) == 0 {
		return ""
	}
	sorted := slices.Clone(doc.Attachments)
	slices.SortFunc(sorted, func(a, b page.Attachment) int { return strings.Compare(key(a.Name), key(b.Name)) })
	var names strings.Builder
	for _, a := range sorted {
		dict := fmt.Sprintf("/Type/EmbeddedFile/Params<</Size %d", len(a.Data))
		if !doc.Date.IsZero() {
			dict += "/ModDate" + date(doc.Date)
		}
		dict += ">>"
		if a.MediaType != "" {
			dict += "/Subtype" + name(a.MediaType)
		}
		embedded := f.addStream(p.attachment(dict, a.Data))
		spec := fmt.Sprintf("<</Type/Filespec/F%s/UF%s/EF<</F %s/UF %s>>", text(a.Name), text(a.Name), ref(embedded), ref(embedded))
		if a.Description != "" {
			spec += "/Desc" + text(a.Description)
		}
		names.WriteString(text(a.Name) + " " + ref(f.add(spec+">>")) + " ")
	}
	return "<</Names[" + strings.TrimSpace(names.String()) + "]>>"
}

// key is what the tree is sorted by: the bytes of the name as the file holds them.
func key(name string) string {
	s := text(name)
	if s[0] == '<' {
		return "\xfe\xff" + s // UTF-16 sorts behind ASCII, and its hexadecimal form as its bytes
	}
	return name
}
