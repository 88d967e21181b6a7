package pdf

import (
	"fmt"
	"strings"
	"unicode/utf16"

	"hoistbook/render/page"
)

// text is a text string (ISO 32000-1, 7.9.2.2): plain if it is ASCII, else UTF-16 with its mark, in hexadecimal.
func text(s string) string {
	ascii := true
	for _, r := range s {
		if r < ' ' || r > '~' {
			ascii = false
		}
	}
	if ascii {
		return literal(s)
	}
	var b strings.Builder
	b.WriteString("<feff")
	for _, u := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04x", u)
	}
	b.WriteString(">")
	return b.String()
}

var escapes = strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`)

// literal is a string of bytes that are ASCII.
func literal(s string) string {
	return "(" + escapes.Replace(s) + ")"
}

// name is a name object: everything but letters, digits and a few signs is escaped (7.3.5).
func name(s string) string {
	var b strings.Builder
	b.WriteByte('/')
	for _, c := range []byte(s) {
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("+-._", c) >= 0 {
			b.WriteByte(c)
		} else {
			fmt.Fprintf(&b, "#%02x", c)
		}
	}
	return b.String()
}

// ref is a reference to an object.
func ref(n int) string { return fmt.Sprintf("%d 0 R", n) }

// rect is an area of a page, whose y runs upwards in a file.
func rect(b page.Box, height page.MM) string {
	return "[" + join(b.X.Pt(), (height-b.Bottom()).Pt(), b.Right().Pt(), (height-b.Y).Pt()) + "]"
}

// join writes lengths in points.
func join(values ...page.Pt) string {
	var b []byte
	for i, v := range values {
		if i > 0 {
			b = append(b, ' ')
		}
		b = number(b, float64(v), 3)
	}
	return string(b)
}
