package page

import (
	"fmt"
	"io"
	"strings"
)

// Dump writes a document as text for people to review: one line per thing, in the order of painting, with lengths in
// millimetres to a tenth. It is stable: the same document gives the same text.
func Dump(d *Document, w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "document %q language %q\n", d.Title, d.Language)
	line := func(name, value string) {
		if value != "" {
			fmt.Fprintf(&b, "%s %q\n", name, value)
		}
	}
	line("subject", d.Subject)
	line("author", d.Author)
	line("keywords", strings.Join(d.Keywords, ", "))
	line("creator", d.Creator)
	if !d.Date.IsZero() {
		line("date", d.Date.UTC().Format("2006-01-02T15:04:05Z"))
	}
	for _, a := range d.Attachments {
		fmt.Fprintf(&b, "attachment %q %s, %d bytes: %q\n", a.Name, a.MediaType, len(a.Data), a.Description)
	}
	for i, p := range d.Pages {
		fmt.Fprintf(&b, "page %d %s %s × %s\n", i+1, p.Paper.Name, mm(p.Paper.Width), mm(p.Paper.Height))
		for it := range p.All() {
			fmt.Fprintf(&b, "  %s\n", describe(it))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func describe(it Item) string {
	switch it := it.(type) {
	case Text:
		var extra string
		if it.Align != Left {
			extra += [...]string{"", " right", " middle"}[it.Align]
		}
		if !it.Ink.None() && it.Ink != Black {
			extra += " " + it.Ink.String()
		}
		if it.Turn != 0 {
			extra += fmt.Sprintf(" turned %g°", it.Turn)
		}
		return fmt.Sprintf("text %s %s %s %.4g%s %q", mm(it.X), mm(it.Y), it.Face, it.Size, extra, it.Text)
	case Line:
		return fmt.Sprintf("line %s %s to %s %s%s", mm(it.X1), mm(it.Y1), mm(it.X2), mm(it.Y2), it.Stroke)
	case Rect:
		round := ""
		if it.Round > 0 {
			round = " round " + mm(it.Round)
		}
		return fmt.Sprintf("rect %s%s%s%s", it.Box, round, filled(it.Fill), it.Stroke)
	case Polygon:
		kind := "polygon"
		if it.Open {
			kind = "polyline"
		}
		return fmt.Sprintf("%s%s%s%s", kind, points(it.Points), filled(it.Fill), it.Stroke)
	case Path:
		return fmt.Sprintf("path%s%s%s", steps(it), filled(it.Fill), it.Stroke)
	case Circle:
		return fmt.Sprintf("circle %s %s radius %s%s%s", mm(it.X), mm(it.Y), mm(it.R), filled(it.Fill), it.Stroke)
	case Anchor:
		return fmt.Sprintf("anchor %s %s %q", mm(it.X), mm(it.Y), it.Name)
	case Outline:
		return fmt.Sprintf("outline %s level %d %q", mm(it.Y), it.Level, it.Title)
	case Link:
		return fmt.Sprintf("link %s %q", it.Box, it.To)
	case PageNumber:
		return fmt.Sprintf("page number of %q %s %s", it.Anchor, mm(it.Text.X), mm(it.Text.Y))
	case Modules:
		return fmt.Sprintf("modules %s %s %s, %d rows, %d runs", mm(it.X), mm(it.Y), mm(it.Size), len(it.Dark), len(it.Runs()))
	case TickBox:
		return fmt.Sprintf("tick %s %s %s %q %q", mm(it.X), mm(it.Y), mm(it.Size), it.Name, it.Label)
	case Field:
		kind := "field"
		if it.Lines {
			kind = "field of lines"
		}
		return fmt.Sprintf("%s %s %.4g %q %q", kind, it.Box, it.Size, it.Name, it.Label)
	}
	return fmt.Sprintf("%T", it)
}

func (s Stroke) String() string {
	if s.Width <= 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, " stroke %.2f", float64(s.Width))
	if !s.Ink.None() && s.Ink != Black {
		b.WriteString(" " + s.Ink.String())
	}
	for i, d := range s.Dash {
		b.WriteString([2]string{" dash ", "/"}[min(i, 1)] + fmt.Sprintf("%g", float64(d)))
	}
	if s.Round {
		b.WriteString(" round")
	}
	return b.String()
}

// String is "x y w × h".
func (b Box) String() string { return mm(b.X) + " " + mm(b.Y) + " " + mm(b.W) + " × " + mm(b.H) }

func filled(i Ink) string {
	if i.None() {
		return ""
	}
	return " fill " + i.String()
}

func points(ps []Point) string {
	var b strings.Builder
	for _, p := range ps {
		b.WriteString(" " + mm(p.X) + "," + mm(p.Y))
	}
	return b.String()
}

func steps(p Path) string {
	b := points([]Point{p.From})
	for _, s := range p.Steps {
		if s.Curve {
			b += " curve" + points([]Point{s.A, s.B, s.To})
		} else {
			b += points([]Point{s.To})
		}
	}
	if p.Closed {
		b += " closed"
	}
	return b
}

// mm prints a tenth of a millimetre, without the sign of a negative zero.
func mm(v MM) string {
	s := fmt.Sprintf("%.1f", float64(v))
	if s == "-0.0" {
		return "0.0"
	}
	return s
}
