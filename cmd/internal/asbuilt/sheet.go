package asbuilt

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"

	"hoistbook/kits/diag"
	"hoistbook/kits/manifest"
)

// ReadSheet reads a table of readings, as spreadsheets write it (RFC 4180; a semicolon may part the fields): in the first row
// "ref" and the serial numbers, then a row for each part. An empty field is a part that was not weighed. The error is
// diag.Problems: everything that is wrong in the file.
func ReadSheet(m *manifest.Manifest, name string, data []byte, sure bool) ([]Copy, error) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	in := csv.NewReader(bytes.NewReader(data))
	first, _, _ := bytes.Cut(data, []byte("\n"))
	if bytes.IndexByte(first, ';') >= 0 && bytes.IndexByte(first, ',') < 0 {
		in.Comma = ';'
	}
	in.TrimLeadingSpace = true
	var problems diag.Problems
	head, err := in.Read()
	if err != nil || len(head) < 2 || !strings.EqualFold(strings.TrimSpace(head[0]), "ref") {
		problems.Add(diag.Place{File: name, Line: 1, Col: 1}, "this is no table of readings", `write "ref" and the serial numbers into the first row, then a row for each part`)
		return nil, problems.Err()
	}
	copies := make([]Copy, len(head)-1)
	seen := map[string]bool{}
	for i, serial := range head[1:] {
		line, col := in.FieldPos(i + 1)
		copies[i].Serial = strings.TrimSpace(serial)
		if err := CheckSerial(copies[i].Serial); err != nil {
			problems.Add(diag.Place{File: name, Line: line, Col: col}, err.Error(), "")
		}
		if seen[copies[i].Serial] {
			problems.Add(diag.Place{File: name, Line: line, Col: col}, fmt.Sprintf("the serial number %q stands here again", copies[i].Serial), "give each copy one of its own")
		}
		seen[copies[i].Serial] = true
	}
	told := map[string]bool{}
	for {
		row, err := in.Read()
		if errors.Is(err, io.EOF) {
			return copies, problems.Err()
		}
		if err != nil {
			problems.Add(diag.Place{File: name}, err.Error(), "")
			return nil, problems.Err()
		}
		ref := strings.TrimSpace(row[0])
		line, col := in.FieldPos(0)
		if told[ref] {
			problems.Add(diag.Place{File: name, Line: line, Col: col}, fmt.Sprintf("the part %q stands here again", ref), "keep one of the two rows")
		}
		told[ref] = true
		for i, text := range row[1:] {
			if strings.TrimSpace(text) == "" {
				continue
			}
			line, col := in.FieldPos(i + 1)
			r, err := Read(m, ref, text, diag.Place{File: name, Line: line, Col: col}, sure)
			problems.Join(err)
			if err == nil {
				copies[i].Readings = append(copies[i].Readings, r)
			}
		}
	}
}
