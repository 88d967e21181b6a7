package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/terminal"
	"hoistbook/cmd/internal/version"
	"hoistbook/kits"
	"hoistbook/render/doc"
)

// Tree is the command tree, for those who write manuals of it.
func Tree() *cobra.Command { return command(Streams{}) }

// helpColumns is how wide help is, with a column in hand for terminals that break early.
const helpColumns = terminal.Columns - 1

// finish gives the tree its version, and shells what may stand where.
func finish(root *cobra.Command) {
	root.Version = version.String()
	root.SetVersionTemplate("hoistbook {{.Version}}\n")
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", fmt.Sprintf(".FlagUsagesWrapped %d", helpColumns)))
	root.Long = terminal.Reflow(root.Long, helpColumns)
	for flag, words := range map[string][]string{"units": {"si", "us"}, "paper": {"a4", "letter"}, "lang": doc.Languages()} {
		completeFlag(root, flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
	}
	completeFlag(root, "region", completeRegion)
	for _, flag := range []string{"with", "rules", "words"} {
		completeFlag(root, flag, cobra.FixedCompletions([]string{"json"}, cobra.ShellCompDirectiveFilterFileExt))
	}
	completeFlag(root, "readings", cobra.FixedCompletions([]string{"csv"}, cobra.ShellCompDirectiveFilterFileExt))
	for _, flag := range []string{"from", "base"} {
		completeFlag(root, flag, completeKit)
	}
	root.SetFlagErrorFunc(flagError)
	for _, c := range root.Commands() {
		wordArguments(c)
		if line, there := examples[c.Name()]; there {
			c.Example = "  " + line
		}
		c.Long = terminal.Reflow(c.Long, helpColumns)
		if c.ValidArgsFunction == nil && c.ValidArgs == nil && strings.Contains(c.Use, "MANIFEST") {
			c.ValidArgsFunction = completeKit
		}
		switch c.Name() {
		case "compare":
			c.ValidArgsFunction = completeKit
		case "explain":
			c.ValidArgsFunction = completeTopic
		case "verify", "extract":
			c.ValidArgsFunction = cobra.FixedCompletions([]string{"pdf", "json"}, cobra.ShellCompDirectiveFilterFileExt)
		}
	}
}

// completeFlag completes a flag in every command that has it.
func completeFlag(root *cobra.Command, flag string, with cobra.CompletionFunc) {
	for _, c := range append(root.Commands(), root) {
		if c.Flags().Lookup(flag) == nil && c.PersistentFlags().Lookup(flag) == nil {
			continue
		}
		if err := c.RegisterFlagCompletionFunc(flag, with); err != nil {
			panic(err) // the flag is there, and has no other completion
		}
	}
}

// completeKit offers the demonstration kits to whoever begins to write demo:, and files to everybody else.
func completeKit(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
	if begun == "" || !strings.HasPrefix(begun, demoPrefix) && !strings.HasPrefix(demoPrefix, begun) {
		return []string{"json", "pdf"}, cobra.ShellCompDirectiveFilterFileExt
	}
	names := make([]string, len(kits.Demos()))
	for i, id := range kits.Demos() {
		names[i] = demoPrefix + id
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// completeRegion offers the regions that packs have rules for.
func completeRegion(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	ready, err := (&options{}).rulePacks()
	if err != nil {
		return nil, cobra.ShellCompDirectiveError
	}
	return ready.Regions(), cobra.ShellCompDirectiveNoFileComp
}

// completeTopic offers the ids of facts and rules, and kits where the first argument may be one.
func completeTopic(c *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	var topics []string
	for _, id := range (kits.Catalogue{}).IDs() {
		if strings.HasPrefix(id, begun) {
			topics = append(topics, id)
		}
	}
	if ready, err := (&options{}).rulePacks(); err == nil {
		for _, p := range ready {
			for _, r := range p.Rules {
				if strings.HasPrefix(r.ID, begun) {
					topics = append(topics, r.ID)
				}
			}
		}
	}
	slices.Sort(topics)
	if len(args) == 0 && len(topics) == 0 {
		return completeKit(c, args, begun)
	}
	return topics, cobra.ShellCompDirectiveNoFileComp
}
