package cli

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/kits"
	"hoistbook/kits/diag"
)

func explainCommand(o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "explain [MANIFEST] FACT|RULE",
		Short: "Show where a number or a finding comes from, and its source",
		Long: `Explain prints how a fact was computed for this manifest: the formula in words, the inputs with their values and
places, and the published source. Of a rule it prints what it compares, what it found, and on whose authority.`,
		Args: cobra.RangeArgs(1, 2),
		RunE: func(_ *cobra.Command, args []string) error {
			topic := args[len(args)-1]
			a, err := o.kit(manifestOf(args[:len(args)-1]))
			if err != nil {
				return err
			}
			return o.explain(a, topic)
		},
	}
}

func (o *options) explain(a *assess.Assessment, topic string) error {
	var out bytes.Buffer
	style := terminal.Style{Colour: o.streams.Colour, System: o.system.value}
	if f, ok := a.Facts.Find(topic); ok {
		terminal.Fact(&out, a, f, style)
	} else if rule, ok := a.Packs.Rule(topic); ok {
		terminal.Rule(&out, a, rule, style)
	} else {
		return unknownTopic(a, topic)
	}
	_, err := o.streams.Out.Write(out.Bytes())
	return err
}

func unknownTopic(a *assess.Assessment, topic string) error {
	var known []string
	for _, f := range a.Facts.All {
		known = append(known, f.ID)
	}
	for _, p := range a.Packs {
		for _, r := range p.Rules {
			known = append(known, r.ID)
		}
	}
	if d, ok := (kits.Catalogue{}).Describe(topic); ok {
		return fmt.Errorf("this manifest has nothing that %s (%s) is about", topic, d.Title)
	}
	return fmt.Errorf("there is no fact or rule %q; %s", topic, nearTopic(topic, known))
}

// nearTopic finds what somebody may have meant who wrote the beginning of an id, or one with a slip in it.
func nearTopic(topic string, known []string) string {
	for _, id := range known {
		if strings.HasPrefix(id, topic) {
			return fmt.Sprintf("did you mean %q?", id)
		}
	}
	return diag.DidYouMean(topic, known, "check -v lists the rules and check --json the facts")
}
