// Package prompt is the terminal's face of a walk-through: a question, a line, an answer. It prints plain lines, reads through
// one buffered reader and moves no cursor, so that a script, a serial line and a person with cold hands are served alike. What
// others record, on a phone, is printed as it comes.
package prompt

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"hoistbook/cmd/internal/live"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/render/walk"
)

// A Desk is one terminal at a walk-through.
type Desk struct {
	Session *live.Session
	Out     io.Writer
	Style   terminal.Style
	Now     func() time.Time
	Done    <-chan struct{} // closed when the program is to end
	Stay    bool            // go on without a terminal: phones do the work
	Echo    bool            // print what is read: it comes from a file or a pipe, and nobody has seen it
	Notes   []string        // said at the start
	Page    func() []string // where the page stands and what lets phones in; nil when none is served

	who     string
	phase   string
	at      string          // key of the item that is asked
	gone    string          // key of the item that somebody has gone to
	skipped map[string]bool // left for later
	shown   int             // the latest entry that was printed
	word    walk.Verdict
	against map[walk.Reason]bool // what was not met when the verdict was last printed
}

// maxLine is the longest line that is read; a longer one is refused whole.
const maxLine = 4096

// Run walks until the record is closed, the input ends or somebody quits.
func (d *Desk) Run(in io.Reader) error {
	lines := make(chan line)
	stop := make(chan struct{})
	defer close(stop)
	go scan(in, lines, stop)
	d.skipped = map[string]bool{}
	v, _ := d.Session.View()
	d.shown, d.word, d.against = v.N, v.Verdict, map[walk.Reason]bool{}
	for _, r := range v.Reasons {
		d.against[r] = true
	}
	if !d.greet(lines) {
		return nil
	}
	for {
		v, changed := d.Session.View()
		d.tell(v)
		if v.Closed {
			d.say("The record is closed.")
			return nil
		}
		d.ask(v)
		for again := true; again; {
			select {
			case l, open := <-lines:
				if open {
					d.echo(l.text)
				}
				switch {
				case open && d.line(l, v):
					return nil
				case open:
					again = false
				case d.Stay:
					lines = nil
				default:
					fmt.Fprintln(d.Out)
					return nil
				}
			case <-changed:
				v, changed = d.Session.View()
				fmt.Fprintln(d.Out) // the prompt stands there
				if d.tell(v); v.Closed || d.next(v) != d.at {
					again = false
				} else {
					d.mark(v)
				}
			case <-d.Done:
				fmt.Fprintln(d.Out)
				return nil
			}
		}
	}
}

type line struct {
	text string
	err  error
}

// scan hands on the lines of the input. The last one counts without its line end.
func scan(in io.Reader, to chan<- line, stop <-chan struct{}) {
	defer close(to)
	r := bufio.NewReaderSize(in, maxLine)
	for {
		text, tooLong, err := readLine(r)
		l := line{text: text}
		if tooLong {
			l = line{err: fmt.Errorf("a line may have %d letters", maxLine)}
		}
		if err == nil || text != "" {
			select {
			case to <- l:
			case <-stop:
				return
			}
		}
		if err != nil {
			return
		}
	}
}

func readLine(r *bufio.Reader) (text string, tooLong bool, err error) {
	slice, err := r.ReadSlice('\n')
	text = strings.TrimSpace(string(slice))
	for errors.Is(err, bufio.ErrBufferFull) {
		tooLong = true
		_, err = r.ReadSlice('\n')
	}
	return text, tooLong, err
}

// greet asks who is at the terminal and who is in charge. It reports false when the input ends before it knows.
func (d *Desk) greet(lines <-chan line) bool {
	v, _ := d.Session.View()
	d.Style.WalkHead(d.Out, v.View)
	for _, n := range d.Notes {
		d.say("! " + n)
	}
	if v.Closed {
		return true
	}
	if v.N > 1 {
		d.Style.WalkVerdict(d.Out, v.View)
	}
	for d.who == "" {
		name, ok := d.question(lines, "Your name: ")
		if !ok {
			return d.Stay
		}
		lead := ""
		if v.Leader == "" {
			if lead, ok = d.question(lines, "Person in charge [Enter: you]: "); !ok {
				return d.Stay
			}
			lead = cmp.Or(lead, name)
		}
		if d.give(walk.Input{Do: walk.Join, Who: name, Name: name, Lead: lead == name && name != ""}) != nil {
			continue
		}
		d.who = name
		if lead != name && lead != "" {
			_ = d.give(walk.Input{Do: walk.Join, Name: lead, Lead: true})
		}
	}
	d.say("Answer with y, with n and the reason, or with a reading and its unit. ? lists what else there is.")
	return true
}

func (d *Desk) question(lines <-chan line, text string) (string, bool) {
	fmt.Fprint(d.Out, text)
	for {
		v, changed := d.Session.View()
		if v.Closed {
			fmt.Fprintln(d.Out)
			return "", false
		}
		select {
		case l, open := <-lines:
			if d.echo(l.text); !open && !d.Echo {
				fmt.Fprintln(d.Out)
			}
			return l.text, open && l.err == nil
		case <-changed: // a phone has recorded something; only the end concerns this question
		case <-d.Done:
			fmt.Fprintln(d.Out)
			return "", false
		}
	}
}

func (d *Desk) echo(text string) {
	if d.Echo {
		fmt.Fprintln(d.Out, text)
	}
}

// give gives an input and prints why it was not taken.
func (d *Desk) give(in walk.Input) error {
	if in.Who == "" {
		in.Who = d.who
	}
	_, err := d.Session.Do(in)
	if err != nil {
		d.say("! " + err.Error())
	}
	return err
}

func (d *Desk) say(text string) { d.Style.WalkSaid(d.Out, text) }

// tell prints what has been recorded since, and the verdict when its word has changed or something new stands against it.
func (d *Desk) tell(v live.Shown) {
	for _, l := range v.Journal {
		if l.N > d.shown {
			text := l.At.Format("15:04") + "  " + l.Text
			if l.Who != d.who && l.Who != "" && !strings.HasPrefix(l.Text, l.Who+" ") {
				text = l.At.Format("15:04") + "  [" + l.Who + "] " + l.Text
			}
			d.say(text)
		}
	}
	d.shown = v.N
	against, more := map[walk.Reason]bool{}, false
	for _, r := range v.Reasons {
		if r.Outcome == "not met" {
			against[r] = true
			more = more || !d.against[r]
		}
	}
	d.against = against
	if v.Verdict != d.word || more {
		d.word = v.Verdict
		fmt.Fprintln(d.Out)
		d.Style.WalkVerdict(d.Out, v.View)
	}
}

// next is the key of the item to be asked: the one somebody has gone to, or the first open one that was not skipped.
func (d *Desk) next(v live.Shown) string {
	var first, skipped string
	for _, p := range v.Phases {
		for _, it := range p.Items {
			if it.Key == d.gone {
				return d.gone
			}
			if it.State != "open" || it.Barred != "" {
				continue
			}
			if !d.skipped[it.Key] && first == "" {
				first = it.Key
			}
			if skipped == "" {
				skipped = it.Key
			}
		}
	}
	if first == "" && skipped != "" {
		clear(d.skipped)
		return skipped
	}
	return first
}

// ask prints the next question.
func (d *Desk) ask(v live.Shown) {
	key := d.next(v)
	if key == d.at && key != "" {
		d.mark(v)
		return
	}
	d.at = key
	for _, p := range v.Phases {
		for _, it := range p.Items {
			if it.Key != key {
				continue
			}
			if d.phase != p.Title {
				d.phase = p.Title
				d.Style.WalkPhase(d.Out, p)
			}
			d.Style.WalkItem(d.Out, it)
		}
	}
	if key == "" {
		d.stand(v)
	}
	d.mark(v)
}

// stand says what there is to do when no item is open.
func (d *Desk) stand(v live.Shown) {
	fmt.Fprintln(d.Out)
	d.Style.WalkVerdict(d.Out, v.View)
	switch {
	case v.May:
		d.say("Type up when the balloon leaves the ground.")
	case v.Aloft:
		d.Style.WalkNumbers(d.Out, v.View)
		d.say("On station. A number, a colon and a reading read again (6: 2.4 m/s). battery BAT1 2 12.4 V when a set is changed; down when the balloon is down.")
	case v.List == walk.Recovery:
		d.Style.WalkNumbers(d.Out, v.View)
		d.say("Type close to close the record; damage notes what is broken.")
	case len(v.Flight) > 0:
		d.Style.WalkNumbers(d.Out, v.View)
		d.say("The balloon is down. up when it goes up again; home for the way home.")
	}
}

// mark prints the prompt.
func (d *Desk) mark(v live.Shown) {
	text := "> "
	if it, ok := find(v, d.at); ok {
		text = fmt.Sprintf("%d> ", it.Number)
		if t, ok := uncounted(it); ok {
			d.say(fmt.Sprintf("%s, %s: %d out", t.Part, t.Name, t.Out))
			text = fmt.Sprintf("%s, back> ", t.Part)
		} else if it.Asks != nil {
			text = fmt.Sprintf("%d, %s> ", it.Number, it.Asks.Name)
		}
	}
	fmt.Fprint(d.Out, text)
}

func find(v live.Shown, key string) (walk.Item, bool) {
	for _, p := range v.Phases {
		for _, it := range p.Items {
			if it.Key == key && key != "" {
				return it, true
			}
		}
	}
	return walk.Item{}, false
}

func uncounted(it walk.Item) (walk.Tally, bool) {
	for _, t := range it.Tally {
		if t.Back == nil {
			return t, true
		}
	}
	return walk.Tally{}, false
}
