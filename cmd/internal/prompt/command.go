package prompt

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"hoistbook/cmd/internal/live"
	"hoistbook/render/walk"
)

// help is what ? prints; the words are those of commands below.
const help = `y                     it is so              n REASON        it is not
12.4 V                a reading with its unit; 12.4 V set B names the batteries
6: 2.4 m/s, 6: y      answers item 6        go 6            goes to item 6
back 6                takes answer 6 back   skip            leaves it for later
v                     verdict and limits    list, list all  how all items stand
cautions              those of this phase   Enter           asks again
weigh                 what may be weighed   weigh TX1 31 g  one piece of a part
over 6 REASON         overrules item 6      over RULE REASON  overrules a rule
withdraw 6            takes that back       battery BAT1 B 12.4 V set B is in
up, up 14:05          it left the ground    down            it is on the ground
change                fresh battery or gas  home            starts the way home
count PEN1 2          pieces that are back  damage TX1 1 mend lid torn
                                            mend or replace; 0 takes it back
note TEXT             for the record        page            where the page is
who NAME, PART        who is typing now     lead NAME       hands over charge
close, close REASON   ends the record       quit            leaves it open`

// A command is a word and what it does with the rest of the line; it reports whether to quit.
type command func(d *Desk, v live.Shown, rest string) (quit bool)

var commands map[string]command

func init() { // commands print a list of commands
	commands = map[string]command{
		"?": showHelp, "help": showHelp, "v": verdict, "verdict": verdict, "l": list, "list": list, "cautions": cautions, "go": goTo, "back": back, "s": skip, "skip": skip,
		"weigh": weigh, "over": overrule, "overrule": overrule, "withdraw": withdraw, "battery": battery,
		"up": flight(walk.Up), "down": flight(walk.Down), "change": plain(walk.Swap), "home": plain(walk.Recover), "count": count, "damage": damage,
		"page": page, "note": text(walk.Note), "who": who, "lead": lead, "close": text(walk.Close), "quit": quit, "q": quit,
	}
}

// addressed is an answer to an item by its number or, in scripts, by its id with the subject behind a slash.
var addressed = regexp.MustCompile(`^([0-9]{1,4}|[a-z][a-z0-9-]*\.[^ :]+) ?: ?(.*)$`)

// line takes one line; it reports whether to quit.
func (d *Desk) line(l line, v live.Shown) bool {
	if l.err != nil {
		d.say("! " + l.err.Error())
		return false
	}
	if l.text == "" {
		d.at = "" // asked again
		return false
	}
	if m := addressed.FindStringSubmatch(l.text); m != nil {
		if it, ok := d.named(v, m[1]); ok {
			d.answer(it, m[2])
		}
		return false
	}
	word, rest, _ := strings.Cut(l.text, " ")
	if do, ok := commands[strings.ToLower(word)]; ok {
		return do(d, v, strings.TrimSpace(rest))
	}
	it, ok := find(v, d.at)
	if !ok {
		d.say("! nothing is asked now; ? lists what there is to do")
		return false
	}
	d.answer(it, l.text)
	return false
}

// unset is a voltage with the name of a set behind it.
var unset = regexp.MustCompile(`^([0-9.,]+ ?m?V) ([A-Za-z0-9]{1,3})$`)

// answer answers an item with y, n, a count or a reading.
func (d *Desk) answer(it walk.Item, text string) {
	word, rest, _ := strings.Cut(text, " ")
	in := walk.Input{Item: it.ID, Subject: it.Subject, Text: strings.TrimSpace(rest)}
	t, counting := uncounted(it)
	switch lower := strings.ToLower(word); {
	case counting:
		if lower == "y" || lower == "yes" {
			text = strconv.Itoa(t.Out)
		}
		d.tally(t.Part, text)
		d.left[it.Key] = it.State != "open"
		return
	case lower == "y" || lower == "yes" || lower == "done":
		in.Do = walk.Done
	case lower == "n" || lower == "no":
		in.Do = walk.Not
	case it.Asks != nil:
		in.Do, in.Text = walk.Read, text
		if reading, label, ok := strings.Cut(text, " set "); ok && it.Asks.Labels {
			in.Text, in.Label = reading, label
		}
	default:
		d.say("! answer y, or n and the reason; ? lists what else there is")
		return
	}
	if unset.MatchString(in.Text) && it.Asks != nil && it.Asks.Labels && in.Do == walk.Read {
		d.say("! write the set with its word: " + unset.ReplaceAllString(in.Text, "$1 set $2"))
		return
	}
	if d.give(in) == nil {
		d.gone = ""
		d.left[it.Key] = it.State != "open" && !it.Hold
	}
}

func (d *Desk) tally(part, text string) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		d.say("! write how many pieces are back, such as 1, or y for all of them")
		return
	}
	_ = d.give(walk.Input{Do: walk.Count, Part: part, Pieces: &n})
}

// named finds the item with a number, or with a key.
func (d *Desk) named(v live.Shown, name string) (walk.Item, bool) {
	for _, p := range v.Phases {
		for _, it := range p.Items {
			if it.Key == name || strconv.Itoa(it.Number) == name {
				return it, true
			}
		}
	}
	d.say("! there is no item " + name + "; list shows them all")
	return walk.Item{}, false
}

func showHelp(d *Desk, _ live.Shown, _ string) bool {
	fmt.Fprintln(d.Out, help)
	return false
}

func verdict(d *Desk, v live.Shown, _ string) bool {
	var text strings.Builder
	d.Style.WalkVerdict(&text, v.View, len(v.Reasons))
	d.Style.WalkNumbers(&text, v.View)
	if v.Check != "" {
		fmt.Fprintf(&text, "  %-22s %d lines, check %s\n", "Record", v.N, v.Check)
	}
	d.leaf(text.String())
	return false
}

func page(d *Desk, _ live.Shown, _ string) bool {
	if d.Page == nil {
		d.say("! no page is served; --serve does, and --listen for phones")
		return false
	}
	for _, l := range d.Page() {
		d.say(l)
	}
	return false
}

func list(d *Desk, v live.Shown, rest string) bool {
	var text strings.Builder
	d.Style.WalkList(&text, v.View, rest == "all")
	d.leaf(text.String())
	return false
}

func cautions(d *Desk, v live.Shown, _ string) bool {
	for _, p := range v.Phases {
		if p.Title == d.phase {
			d.warn(p)
		}
	}
	return false
}

func goTo(d *Desk, v live.Shown, rest string) bool {
	if it, ok := d.named(v, rest); ok {
		d.gone, d.at = it.Key, it.Key
		d.Style.WalkItem(d.Out, it)
	}
	return false
}

func skip(d *Desk, _ live.Shown, _ string) bool {
	d.gone = ""
	d.skipped[d.at], d.left[d.at] = true, true
	return false
}

func back(d *Desk, v live.Shown, rest string) bool {
	if it, ok := d.named(v, rest); ok {
		_ = d.give(walk.Input{Do: walk.Clear, Item: it.ID, Subject: it.Subject})
	}
	return false
}

func weigh(d *Desk, v live.Shown, rest string) bool {
	if rest == "" {
		var text strings.Builder
		d.Style.WalkScales(&text, v.View)
		d.leaf(text.String())
		return false
	}
	part, mass, _ := strings.Cut(rest, " ")
	_ = d.give(walk.Input{Do: walk.Weigh, Part: part, Text: mass})
	return false
}

// target turns an item's number, an item's id or a rule's id, with the subject behind a slash, into what an input is about.
func (d *Desk) target(v live.Shown, name string, in *walk.Input) bool {
	if _, err := strconv.Atoi(name); err == nil {
		it, ok := d.named(v, name)
		in.Item, in.Subject = it.ID, it.Subject
		return ok
	}
	id, subject, _ := strings.Cut(name, "/")
	in.Subject = subject
	if _, ok := find(v, name); ok {
		in.Item = id
	} else {
		in.Rule = id
	}
	return true
}

func overrule(d *Desk, v live.Shown, rest string) bool {
	name, reason, _ := strings.Cut(rest, " ")
	in := walk.Input{Do: walk.Overrule, Text: reason}
	if d.target(v, name, &in) {
		_ = d.give(in)
	}
	return false
}

func withdraw(d *Desk, v live.Shown, rest string) bool {
	in := walk.Input{Do: walk.Withdraw}
	if d.target(v, rest, &in) {
		_ = d.give(in)
	}
	return false
}

func battery(d *Desk, v live.Shown, rest string) bool {
	words := strings.SplitN(rest, " ", 3)
	if len(words) < 3 {
		d.say("! write the battery, the set and the voltage, such as battery BAT1 2 12.4 V")
		return false
	}
	for _, p := range v.Phases {
		for _, it := range p.Items {
			if it.Asks != nil && it.Asks.Labels && it.Subject == words[0] {
				_ = d.give(walk.Input{Do: walk.Read, Item: it.ID, Subject: it.Subject, Label: words[1], Text: words[2]})
				return false
			}
		}
	}
	d.say("! no item of this list reads the voltage of " + words[0])
	return false
}

// flight records up or down, now or at a time of this day that has passed; after midnight, of the day before.
func flight(do walk.Kind) command {
	return func(d *Desk, _ live.Shown, rest string) bool {
		in := walk.Input{Do: do}
		if rest != "" {
			now := d.Now()
			t, err := time.ParseInLocation("15:04", rest, now.Location())
			if err != nil {
				d.say("! write the time as 14:05")
				return false
			}
			at := time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), 0, 0, now.Location())
			if at.After(now) {
				at = at.AddDate(0, 0, -1)
			}
			in.Time = &at
		}
		_ = d.give(in)
		return false
	}
}

func plain(do walk.Kind) command {
	return func(d *Desk, _ live.Shown, _ string) bool {
		_ = d.give(walk.Input{Do: do})
		return false
	}
}

func text(do walk.Kind) command {
	return func(d *Desk, _ live.Shown, rest string) bool {
		_ = d.give(walk.Input{Do: do, Text: rest})
		return false
	}
}

func count(d *Desk, _ live.Shown, rest string) bool {
	part, pieces, _ := strings.Cut(rest, " ")
	d.tally(part, pieces)
	return false
}

func damage(d *Desk, _ live.Shown, rest string) bool {
	words := strings.SplitN(rest, " ", 4)
	n := -1
	if len(words) >= 3 {
		if parsed, err := strconv.Atoi(words[1]); err == nil {
			n = parsed
		}
	}
	if n < 0 {
		d.say("! write part, pieces, mend or replace, and what happened: damage TX1 1 mend lid torn")
		return false
	}
	in := walk.Input{Do: walk.Damage, Part: words[0], Pieces: &n, Fate: words[2]}
	if len(words) == 4 {
		in.Text = words[3]
	}
	_ = d.give(in)
	return false
}

func who(d *Desk, _ live.Shown, rest string) bool {
	name, part := nameAndPart(rest)
	if d.give(walk.Input{Do: walk.Join, Who: name, Name: name, Role: part}) == nil {
		d.who = name
	}
	return false
}

func lead(d *Desk, _ live.Shown, rest string) bool {
	name, part := nameAndPart(rest)
	_ = d.give(walk.Input{Do: walk.Join, Name: name, Role: part, Lead: true})
	return false
}

func quit(d *Desk, v live.Shown, _ string) bool {
	if v.Check != "" {
		d.say("The record stays open; the same command goes on with it.")
	}
	return true
}
