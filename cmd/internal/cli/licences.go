package cli

import (
	"io"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/licences"
)

func licencesCommand(o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "licences",
		Short: "Print the licences of what is inside this program",
		Long: `Licences prints the licences of the Go modules and of the font that are linked into this program. They go wherever it
goes.`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			_, err := io.WriteString(o.streams.Out, licences.Notices)
			return err
		},
	}
}
