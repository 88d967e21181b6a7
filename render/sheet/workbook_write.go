package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strings"
)

// bytes writes the file. The same workbook gives the same bytes: nothing in it is dated.
func (b *workbook) bytes() ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	var failed error
	part := func(name string, write func(io.Writer)) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate})
		if err != nil {
			failed = err
			return
		}
		_, _ = io.WriteString(w, xml.Header) // into a bytes.Buffer
		write(w)
	}
	part("[Content_Types].xml", b.contentTypes)
	part("_rels/.rels", func(w io.Writer) {
		fmt.Fprintf(w, `<Relationships xmlns="%s"><Relationship Id="rId1" Type="%s/officeDocument" Target="xl/workbook.xml"/></Relationships>`, relationships, documents)
	})
	part("xl/workbook.xml", b.contents)
	part("xl/_rels/workbook.xml.rels", b.relations)
	part("xl/styles.xml", b.styles)
	for i, s := range b.sheets {
		part(fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), func(w io.Writer) { s.write(w, b.paper) })
	}
	if err := z.Close(); err != nil || failed != nil {
		return nil, fmt.Errorf("workbook: %w", firstOf(failed, err))
	}
	return out.Bytes(), nil
}

func firstOf(a, b error) error {
	if a != nil {
		return a
	}
	return b
}

const (
	main          = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	documents     = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	relationships = "http://schemas.openxmlformats.org/package/2006/relationships"
	mediaType     = "application/vnd.openxmlformats-officedocument.spreadsheetml."
)

func (b *workbook) contentTypes(w io.Writer) {
	fmt.Fprintf(w, `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">`+
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>`+
		`<Override PartName="/xl/workbook.xml" ContentType="%ssheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="%sstyles+xml"/>`, mediaType, mediaType)
	for i := range b.sheets {
		fmt.Fprintf(w, `<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="%sworksheet+xml"/>`, i+1, mediaType)
	}
	io.WriteString(w, `</Types>`)
}

func (b *workbook) contents(w io.Writer) {
	fmt.Fprintf(w, `<workbook xmlns="%s" xmlns:r="%s"><sheets>`, main, documents)
	for i, s := range b.sheets {
		fmt.Fprintf(w, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, escaped(s.name), i+1, i+1)
	}
	io.WriteString(w, `</sheets><definedNames>`)
	for i, s := range b.sheets {
		if s.heads > 0 {
			fmt.Fprintf(w, `<definedName name="_xlnm.Print_Titles" localSheetId="%d">%s$%d:$%d</definedName>`, i, escaped(s.quoted()), s.heads, s.heads)
		}
	}
	io.WriteString(w, `</definedNames></workbook>`)
}

func (b *workbook) relations(w io.Writer) {
	fmt.Fprintf(w, `<Relationships xmlns="%s">`, relationships)
	for i := range b.sheets {
		fmt.Fprintf(w, `<Relationship Id="rId%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1, documents, i+1)
	}
	fmt.Fprintf(w, `<Relationship Id="rId%d" Type="%s/styles" Target="styles.xml"/></Relationships>`, len(b.sheets)+1, documents)
}

// styles writes the fonts, borders and formats that the styles are put together from.
func (b *workbook) styles(w io.Writer) {
	const ownFormats = 164 // the numbers below are those of the standard
	fmt.Fprintf(w, `<styleSheet xmlns="%s"><numFmts count="%d">`, main, len(b.formats))
	for i, format := range b.formats {
		if format == "" {
			format = "General"
		}
		fmt.Fprintf(w, `<numFmt numFmtId="%d" formatCode="%s"/>`, ownFormats+i, escaped(format))
	}
	io.WriteString(w, `</numFmts><fonts count="3"><font><sz val="10"/><name val="Arial"/></font><font><b/><sz val="10"/><name val="Arial"/></font><font><b/><sz val="14"/><name val="Arial"/></font></fonts>`+
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>`+
		`<borders count="3"><border/><border><left/><right/><top/><bottom style="thin"/></border><border><left/><right/><top style="thin"/><bottom/></border></borders>`+
		`<cellStyleXfs count="1"><xf/></cellStyleXfs>`)
	fmt.Fprintf(w, `<cellXfs count="%d">`, int(styles))
	for i := range styles {
		look := map[style]struct{ font, border int }{title: {2, 0}, head: {1, 1}, headRight: {1, 1}, strong: {1, 0}, sum: {1, 2}}[i]
		align := map[style]string{head: `wrapText="1"`, headRight: `wrapText="1" horizontal="right"`, wrapped: `wrapText="1"`, item: `horizontal="center"`}[i]
		fmt.Fprintf(w, `<xf numFmtId="%d" fontId="%d" borderId="%d" xfId="0" applyNumberFormat="1" applyFont="1" applyBorder="1" applyAlignment="1"><alignment vertical="top" %s/></xf>`,
			ownFormats+int(i), look.font, look.border, align)
	}
	io.WriteString(w, `</cellXfs></styleSheet>`)
}

func (s *worksheet) write(w io.Writer, paper int) {
	fmt.Fprintf(w, `<worksheet xmlns="%s"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>`, main)
	if s.heads > 0 {
		fmt.Fprintf(w, `<sheetViews><sheetView workbookViewId="0"><pane ySplit="%d" topLeftCell="A%d" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>`, s.heads, s.heads+1)
	}
	io.WriteString(w, `<cols>`)
	for i, width := range s.widths {
		fmt.Fprintf(w, `<col min="%d" max="%d" width="%g" customWidth="1"/>`, i+1, i+1, width)
	}
	io.WriteString(w, `</cols><sheetData>`)
	for i, cells := range s.rows {
		fmt.Fprintf(w, `<row r="%d" ht="%g" customHeight="1">`, i+1, s.height(cells))
		for k, c := range cells {
			c.write(w, at(k, i+1))
		}
		io.WriteString(w, `</row>`)
	}
	way := "landscape"
	if s.upright {
		way = "portrait"
	}
	fmt.Fprintf(w, `</sheetData><pageMargins left="0.6" right="0.6" top="0.6" bottom="0.7" header="0.3" footer="0.3"/>`+
		`<pageSetup paperSize="%d" orientation="%s" fitToWidth="1" fitToHeight="0"/>`, paper, way)
	fmt.Fprintf(w, `<headerFooter><oddFooter>&amp;L%s&amp;R&amp;A, &amp;P / &amp;N</oddFooter></headerFooter></worksheet>`, escaped(strings.ReplaceAll(s.footer, "&", "&&")))
}

// height of a row in points, for text of 10 points.
func (s *worksheet) height(cells []cell) float64 {
	most, line := 1, 13.0
	for k, c := range cells {
		if c.style == title {
			line = 20
		}
		if k < len(s.widths) {
			most = max(most, c.lines(s.widths[k]))
		}
	}
	return line * float64(most)
}

func (c cell) write(w io.Writer, name string) {
	switch {
	case c.formula != "":
		fmt.Fprintf(w, `<c r="%s" s="%d"><f>%s</f><v>%s</v></c>`, name, c.style, escaped(c.formula), c.number)
	case c.number != "":
		fmt.Fprintf(w, `<c r="%s" s="%d"><v>%s</v></c>`, name, c.style, c.number)
	case c.text != "":
		fmt.Fprintf(w, `<c r="%s" s="%d" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, name, c.style, escaped(written(c.text)))
	case c.style != plain:
		fmt.Fprintf(w, `<c r="%s" s="%d"/>`, name, c.style)
	}
}

var looksEscaped = regexp.MustCompile(`_(x[0-9A-Fa-f]{4}_)`)

// written keeps a text from being read as an escape of ECMA-376 part 1, 22.9.2.19 (ST_Xstring).
func written(text string) string { return looksEscaped.ReplaceAllString(text, "_x005F_$1") }

func escaped(text string) string {
	var out strings.Builder
	_ = xml.EscapeText(&out, []byte(text)) // a strings.Builder takes everything
	return out.String()
}
