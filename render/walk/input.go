package walk

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"hoistbook/kits/diag"
)

// The greatest lengths of texts, in bytes.
const (
	mostText = 500
	mostName = 60
)

// mostCrew bounds how many join.
const mostCrew = 100

// plain refuses texts that a record, a terminal or a page could be tricked by: what is too long, is no UTF-8, or has control
// characters or marks that turn the direction of writing.
func (in *Input) plain() error {
	for _, t := range []struct {
		name string
		text *string
		most int
	}{
		{"the text", &in.Text, mostText}, {"the name", &in.Name, mostName}, {"who does it", &in.Who, mostName}, {"the role", &in.Role, mostName},
		{"the label", &in.Label, mostName}, {"the key", &in.Key, mostName}, {"the part", &in.Part, mostName}, {"the item", &in.Item, 2 * mostName},
		{"the rule", &in.Rule, 2 * mostName}, {"the subject", &in.Subject, 2 * mostName}, {"the fate", &in.Fate, mostName},
	} {
		*t.text = strings.Join(strings.Fields(*t.text), " ")
		switch {
		case len(*t.text) > t.most:
			return refuse("write at most "+strconv.Itoa(t.most)+" letters", "%s is too long", t.name)
		case !utf8.ValidString(*t.text) || strings.ContainsFunc(*t.text, sly):
			return refuse("write plain text", "%s has characters that cannot be shown", t.name)
		}
	}
	return nil
}

// sly reports characters that show nothing and do something.
func sly(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == utf8.RuneError || unicode.Is(unicode.Co, r)
}

// knows refuses what comes from nobody: every line of a record has a name.
func (s *State) knows(in Input) error {
	switch {
	case in.Do == Join || in.Do == Resume || in.Do == Swap || in.Do == Recover:
		return nil
	case in.Who == "":
		return refuse("say your name first", "nobody is named who does this")
	case !slices.ContainsFunc(s.Crew, func(m Member) bool { return m.Name == in.Who }):
		return refuse("join the crew first", "%q is not in the crew", in.Who)
	}
	return nil
}

// leads reports whether somebody is the person in charge.
func (s *State) leads(name string) bool {
	return slices.ContainsFunc(s.Crew, func(m Member) bool { return m.Name == name && m.Lead })
}

// deeds are what can be done.
var deeds = map[Kind]func(*State, *Entry) error{
	Resume: func(s *State, e *Entry) error { return nil },
	Join:   join, Done: tick, Not: tick, Read: read, Clear: takeBack, Weigh: weigh, Overrule: overrule, Withdraw: withdraw,
	Up: up, Down: down, Swap: goOver, Recover: goHome, Count: count, Damage: harm, Note: note, Close: finish,
}

// answers are words that somebody types who takes the question for a name for another one. A record says who did what, and nobody is
// called "y".
var answers = []string{
	"y", "yes", "n", "no", "ok", "okay", "go", "no-go", "nogo", "stop", "done", "skip", "quit", "q", "exit", "help", "list", "up", "down", "home", "close", "me", "none", "nobody",
}

// CheckName refuses a name that is none: an answer, a number, a reading.
func CheckName(name string) error {
	first, _ := utf8.DecodeRuneInString(name)
	if slices.Contains(answers, strings.ToLower(strings.TrimRight(name, ".!?"))) || unicode.IsDigit(first) || !strings.ContainsFunc(name, unicode.IsLetter) {
		return refuse("write the name that the record is to have, such as Ada", "%q is no name of a person", name)
	}
	return nil
}

// join adds somebody to the crew, or changes what they do. Only the person in charge can hand the charge to another.
func join(s *State, e *Entry) error {
	if e.Name == "" {
		return refuse("write a name", "nobody is named who joins")
	}
	if err := CheckName(e.Name); err != nil {
		return err
	}
	if e.Who == "" {
		e.Who = e.Name
	}
	if leader := s.Leader(); e.Lead && leader != "" && leader != e.Name && e.Who != leader {
		return refuse(leader+" can hand it over", "%s is in charge already", leader)
	}
	if len(s.Crew) >= mostCrew {
		return refuse("", "a crew of more than %d is not taken", mostCrew)
	}
	return nil
}

func note(_ *State, e *Entry) error {
	if e.Text == "" {
		return refuse("write what there is to note", "the note is empty")
	}
	return nil
}

// goOver begins the list of a change: what was answered at the last one is asked anew.
func goOver(s *State, e *Entry) error {
	switch {
	case s.List == Recovery:
		return refuse("", "the balloon is on its way home")
	case len(s.now.lists[Change]) == 0:
		return refuse("", "%s", errNoChange)
	}
	for _, st := range s.now.lists[Change] {
		delete(s.answers, st.key)
		delete(s.overruled, itemKey(st.key))
	}
	e.List = Change
	var err error
	s.now, err = s.judge()
	return err
}

func goHome(s *State, e *Entry) error {
	if s.List == Recovery {
		return refuse("", "the recovery list is open already")
	}
	e.List = Recovery
	return nil
}

// finish closes the record. What is not finished can be closed too, with a reason: the last verdict stands in the record.
func finish(s *State, e *Entry) error {
	if s.aloft() {
		return refuse("record when it came down first", "the balloon is up")
	}
	if v := s.decide(e.At); v.Word != Complete && e.Text == "" {
		return refuse("say why it is closed all the same", "the verdict is %s", v.Word)
	}
	s.closed = true
	return nil
}

// nearPart helps with a part that is not there.
func (s *State) nearPart(ref string) string {
	var refs []string
	for known := range s.Manifest.Parts {
		refs = append(refs, string(known))
	}
	slices.Sort(refs)
	return diag.DidYouMean(ref, refs, "write a reference of the parts list")
}

func quote(text string) string { return strconv.Quote(text) }
