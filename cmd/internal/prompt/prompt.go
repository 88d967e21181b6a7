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
	Rows    int             // lines of the screen, after which the reader is waited for; 0 waits for nobody
	Notes   []string        // said at the start
	Page    func() []string // where the page stands and what lets phones in; nil when none is served

	lines   <-chan line
	early   *line // was typed where only Enter was waited for
	who     string
	phase   string
	warned  map[string]bool // phases whose cautions have been printed
	at      string          // key of the item that is asked
	gone    string          // key of the item that somebody has gone to
	skipped map[string]bool // left for later
	left    map[string]bool // asked again, and still against it
	shown   int             // the latest entry that was printed
	word    walk.Verdict
	against map[walk.Reason]bool // what was not met when the verdict was last printed
	limits  []walk.Pair          // the numbers when they were last printed
	aloft   bool
	clock   string
	stood   string // what was last said to be done while no item is open
}

// maxLine is the longest line that is read; a longer one is refused whole.
const maxLine = 4096

// Run walks until the record is closed, the input ends or somebody quits.
func (d *Desk) Run(in io.Reader) error {
	lines := make(chan line)
	stop := make(chan struct{})
	defer close(stop)
	go scan(in, lines, stop)
	d.lines, d.skipped, d.left, d.warned = lines, map[string]bool{}, map[string]bool{}, map[string]bool{}
	v, _ := d.Session.View()
	d.shown, d.word, d.limits, d.aloft = v.N, v.Verdict, v.Limits, v.Aloft
	d.against, _ = d.standing(v)
	if !d.greet() {
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
		if l := d.early; l != nil {
			d.early = nil
			if d.line(*l, v) {
				return nil
			}
			continue
		}
		for again := true; again; {
			select {
			case l, open := <-d.lines:
				if open {
					d.echo(l.text)
				}
				switch {
				case open && d.line(l, v):
					return nil
				case open:
					again = false
				case d.Stay:
					d.lines = nil
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
func (d *Desk) greet() bool {
	v, _ := d.Session.View()
	d.Style.WalkHead(d.Out, v.View)
	for _, n := range d.Notes {
		d.say("! " + n)
	}
	if v.Closed {
		return true
	}
	if v.N > 1 {
		d.Style.WalkVerdict(d.Out, v.View, terminal.Brief)
	}
	for d.who == "" {
		said, ok := d.question("Your name, and your part if you like, as in Ada, winch hand: ")
		if !ok {
			return d.Stay
		}
		name, role := nameAndPart(said)
		if err := walk.CheckName(name); err != nil {
			d.say("! " + err.Error())
			continue
		}
		lead, part := "", ""
		for v.Leader == "" && lead == "" {
			if lead, ok = d.question("Who is in charge [Enter: you]: "); !ok {
				return d.Stay
			}
			if lead, part = nameAndPart(cmp.Or(lead, name)); walk.CheckName(lead) != nil {
				d.say("! " + walk.CheckName(lead).Error() + "; Enter is for " + name)
				lead = ""
			}
		}
		if d.give(walk.Input{Do: walk.Join, Who: name, Name: name, Role: role, Lead: lead == name && name != ""}) != nil {
			continue
		}
		d.who = name
		if lead != name && lead != "" {
			_ = d.give(walk.Input{Do: walk.Join, Name: lead, Role: part, Lead: true})
		}
	}
	d.say("Answer with y, with n and the reason, or with a reading and its unit. ? lists what else there is; weigh lists the parts that may be weighed.")
	return true
}

// nameAndPart parts what somebody is called from what they do.
func nameAndPart(text string) (name, part string) {
	name, part, _ = strings.Cut(text, ",")
	return strings.TrimSpace(name), strings.TrimSpace(part)
}

func (d *Desk) question(text string) (string, bool) {
	fmt.Fprint(d.Out, text)
	for {
		v, changed := d.Session.View()
		if v.Closed {
			fmt.Fprintln(d.Out)
			return "", false
		}
		select {
		case l, open := <-d.lines:
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

// leaf prints a text screen by screen. A line that is typed between two of them counts as the next one. When a phone records
// something meanwhile the rest is printed at once, as what is told next may be a NO-GO.
func (d *Desk) leaf(text string) {
	lines := strings.SplitAfter(strings.TrimSuffix(text, "\n"), "\n")
	room := d.Rows - 3 // for the prompt, and for what stands above
	for wait := d.Rows > 0 && d.lines != nil; wait && len(lines) > room; {
		n := room
		for i := n; i > room/2; i-- { // what belongs together stays together
			if lines[i] != "" && lines[i][0] != ' ' {
				n = i
				break
			}
		}
		fmt.Fprint(d.Out, strings.Join(lines[:n], ""))
		lines = lines[n:]
		fmt.Fprint(d.Out, "-- Enter: read on -- ")
		_, changed := d.Session.View()
		select {
		case l, open := <-d.lines:
			if l.text != "" || l.err != nil {
				d.early = &l
			}
			wait = open && d.early == nil
		case <-changed:
			fmt.Fprintln(d.Out)
			wait = false
		case <-d.Done:
			return
		}
	}
	fmt.Fprintln(d.Out, strings.Join(lines, ""))
}

// warn prints the cautions of a phase.
func (d *Desk) warn(p walk.Phase) {
	if len(p.Cautions) == 0 {
		return
	}
	var text strings.Builder
	d.Style.WalkCautions(&text, p)
	d.leaf(text.String())
}

// standing is what is not met, and whether something of it is new.
func (d *Desk) standing(v live.Shown) (against map[walk.Reason]bool, more bool) {
	against = map[walk.Reason]bool{}
	for _, r := range v.Reasons {
		if r.Outcome == "not met" {
			against[r] = true
			more = more || !d.against[r]
		}
	}
	return against, more
}

// tell prints what has been recorded since, the numbers that it has moved, and the verdict when its word has changed or
// something new stands against it.
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
	if v.Clock != d.clock && v.Clock != "" {
		d.say("! " + v.Clock)
	}
	d.clock = v.Clock
	if v.List == walk.Preflight {
		var moved []walk.Pair
		for i, p := range v.Limits {
			if i >= len(d.limits) || d.limits[i] != p {
				moved = append(moved, p)
			}
		}
		if d.limits = v.Limits; len(moved) > 0 {
			d.say("now: " + terminal.Pairs(moved))
		}
	}
	var more bool
	d.against, more = d.standing(v)
	if v.Verdict != d.word || more {
		d.word = v.Verdict
		fmt.Fprintln(d.Out)
		d.Style.WalkVerdict(d.Out, v.View, terminal.Brief)
	}
	if d.aloft && !v.Aloft && v.List == walk.Preflight {
		d.say("The balloon is down. What is asked now is for another flight; home goes on with the way home.")
	}
	d.aloft = v.Aloft
}

// next is the key of the item to be asked: the one somebody has gone to; what is open, what was skipped last; what is against
// it, once more; and then the hold point.
func (d *Desk) next(v live.Shown) string {
	if _, ok := find(v, d.gone); ok {
		return d.gone
	}
	var skipped, against, hold string
	for _, key := range v.Turn {
		it, _ := find(v, key)
		switch {
		case it.Hold:
			hold = key
		case it.State == "open" && !d.skipped[key]:
			return key
		case it.State == "open":
			skipped = cmp.Or(skipped, key)
		case !d.left[key]:
			against = cmp.Or(against, key)
		}
	}
	if skipped != "" {
		clear(d.skipped)
	}
	return cmp.Or(skipped, against, hold)
}

// ask prints the next question.
func (d *Desk) ask(v live.Shown) {
	key := d.next(v)
	if key == d.at && key != "" {
		d.mark(v)
		return
	}
	for _, p := range v.Phases {
		for _, it := range p.Items {
			if it.Key != key {
				continue
			}
			if d.phase != p.Title {
				d.phase = p.Title
				d.Style.WalkPhase(d.Out, p)
				if !d.warned[p.Title] {
					d.warned[p.Title] = true
					d.warn(p)
				}
			}
			d.Style.WalkItem(d.Out, it)
		}
	}
	if key == "" {
		d.stand(v)
	} else {
		d.stood = ""
	}
	d.at = key
	d.mark(v)
}

// stand says what there is to do when no item is open, once.
func (d *Desk) stand(v live.Shown) {
	text := ""
	switch {
	case v.May:
		text = "Type up when the balloon leaves the ground."
	case v.Aloft && v.List == walk.Recovery:
		text = "Type down when the balloon is on the ground; the list goes on then."
	case v.Aloft:
		text = "On station. " + again(v) + change(v) + "home begins to bring it down; down alone when it comes down for another flight."
	case v.List == walk.Recovery:
		text = "Type close to close the record; damage notes what is broken."
	case len(v.Flight) > 0:
		text = "The balloon is down. up when it goes up again; home for the way home."
	}
	if text == d.stood {
		return
	}
	d.stood = text
	if v.Aloft || v.List == walk.Recovery {
		fmt.Fprintln(d.Out)
		d.Style.WalkNumbers(d.Out, v.View)
	}
	d.say(text)
}

// change says how a fresh battery is put in, where the plan of the station has it.
func change(v live.Shown) string {
	if !v.Changes {
		return ""
	}
	return "change begins the list for a fresh battery or gas. "
}

// again says how the instruments are read again on station.
func again(v live.Shown) string {
	var items []string
	example, battery := "", ""
	for _, p := range v.Phases {
		for _, it := range p.Items {
			switch {
			case it.Asks == nil || it.Barred != "" || !it.Asks.Again:
			case it.Asks.Labels:
				battery += fmt.Sprintf("battery %s B 12.4 V when set B is put in. ", it.Subject)
			default:
				example = cmp.Or(example, fmt.Sprintf("%d: 2.4 %s", it.Number, it.Asks.Units[0]))
				items = append(items, fmt.Sprintf("%d %s", it.Number, it.Asks.Name))
			}
		}
	}
	if len(items) == 0 {
		return battery
	}
	return fmt.Sprintf("Read again by number, as in %s: %s. %s", example, strings.Join(items, ", "), battery)
}

// mark prints the prompt, with a verdict that decides.
func (d *Desk) mark(v live.Shown) {
	text := "> "
	if it, ok := find(v, d.at); ok {
		text = fmt.Sprintf("%d> ", it.Number)
		if t, ok := uncounted(it); ok {
			d.say(fmt.Sprintf("%s, %s: %d out", t.Part, t.Name, t.Out))
			text = fmt.Sprintf("%s, back> ", t.Part)
		} else if it.Asks != nil {
			text = fmt.Sprintf("%d, %s> ", it.Number, it.Asks.Name)
			if len(it.Asks.Units[0]) > 0 {
				text = fmt.Sprintf("%d, %s in %s> ", it.Number, it.Asks.Name, it.Asks.Units[0])
			}
		}
	}
	if v.Verdict == walk.GO || v.Verdict == walk.NoGo { // the others are no news
		text = d.Style.VerdictWord(v.Verdict) + "  " + text
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

// uncounted is the part that is counted next: one that nobody has counted, or else one that is short.
func uncounted(it walk.Item) (walk.Tally, bool) {
	for _, t := range it.Tally {
		if t.Back == nil {
			return t, true
		}
	}
	for _, t := range it.Tally {
		if *t.Back < t.Out {
			return t, true
		}
	}
	return walk.Tally{}, false
}
