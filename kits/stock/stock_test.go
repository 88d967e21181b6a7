package stock

import (
	"maps"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var known = []string{"ENV1", "GAS1", "PEN1", "WIR-1"}

func TestReadsWhatSpreadsheetsSave(t *testing.T) {
	want := map[string]int{"ENV1": 2, "PEN1": 30}
	for name, text := range map[string]string{
		"commas":                     "reference,quantity\nENV1,2\nPEN1,30\n",
		"semicolons":                 "reference;quantity\nENV1;2\nPEN1;30\n",
		"tabs":                       "reference\tquantity\nENV1\t2\nPEN1\t30\n",
		"byte order mark":            "\ufeffreference;quantity\r\nENV1;2\r\nPEN1;30\r\n",
		"a line that says so":        "sep=;\r\nreference;quantity\r\nENV1;2\r\nPEN1;30\r\n",
		"quoted cells":               "\"reference\",\"quantity\"\n\"ENV1\",\"2\"\n\"PEN1\",\"30\"\n",
		"other columns, other order": "qty,where,Ref\n2,\"box 1, left\",ENV1\n30,,PEN1\n",
		"commas inside quotes":       "where;reference;quantity\n\"a, b, c, d\";ENV1;2\n;PEN1;30\n",
		"decimals that say nothing":  "reference;quantity\nENV1;2,0\nPEN1;30,00\n",
		"spaces":                     "reference, quantity\n ENV1 , 2\nPEN1 ,30 \n",
		"notes and blank lines":      "reference,quantity\n\nx-GEN9,many\nENV1,2\n,\nPEN1,30\n\n\n",
		"ragged lines":               "reference,quantity,where\nENV1,2\nPEN1,30,box,2\n",
		"no last end of line":        "reference,quantity\nENV1,2\nPEN1,30",
		"a cell of two lines":        "reference,where,quantity\nENV1,\"box\none\",2\nPEN1,,30\n",
	} {
		s, err := Read("stock.csv", []byte(text), known)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := s.Pieces(); !maps.Equal(got, want) {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
	}
}

func TestTellsWhatIsWrongAndWhere(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"unknown parts, each with its line", "reference;quantity\nENV2;1\nGAS1;2\nNIX9;3\n",
			"stock.csv:2:1: the kit has no part \"ENV2\"; did you mean \"ENV1\"?\n" +
				"stock.csv:4:1: the kit has no part \"NIX9\"; take the line out, or write \"x-\" before the reference of what is not for this kit"},
		{"lines are those of the file", "sep=;\nwhere;reference;quantity\n\"two\nlines\";ENV2;1\n",
			"stock.csv:4:8: the kit has no part \"ENV2\"; did you mean \"ENV1\"?"},
		{"a part twice", "reference,quantity\nENV1,1\nENV1,2\n", "stock.csv:3:1: \"ENV1\" stands in line 2 already; write one line with all its pieces"},
		{"a thousand or one", "reference;quantity\nENV1;1.200\n", "stock.csv:2:6: the quantity \"1.200\" is no whole number of pieces; write a whole number, such as 12, and 0 for none"},
		{"the other way round", "reference,quantity\nENV1,\"1,200\"\n", "stock.csv:2:6: the quantity \"1,200\" is no whole number"},
		{"half a piece", "reference;quantity\nENV1;2,5\n", "stock.csv:2:6: the quantity \"2,5\" is no whole number"},
		{"below zero", "reference,quantity\nENV1,-3\n", "stock.csv:2:6: the quantity \"-3\" is below zero"},
		{"small letters", "reference,quantity\nenv1,2\n", "stock.csv:2:1: the kit has no part \"env1\"; did you mean \"ENV1\"?"},
		{"nothing said", "reference,quantity\nENV1,\n", "stock.csv:2:6: the quantity is empty"},
		{"too short a line", "where,reference,quantity\nbox,ENV1\n", "stock.csv:2:5: the quantity is empty"},
		{"a formula", "reference,quantity\nENV1,=2+2\n", "stock.csv:2:6: the quantity \"=2+2\" is no whole number"},
		{"pieces of nothing", "reference,quantity\n,7\n", "stock.csv:2:1: \"7\" pieces of no part"},
		{"too many", "reference,quantity\nENV1,1000001\n", "more than a million"},
		{"no reference", "part no,quantity\nENV1,2\n", "stock.csv:1:1: no column is called \"reference\"; the first line names the columns, among them \"reference\" and \"quantity\""},
		{"two quantities", "reference,qty,quantity\nENV1,2,3\n", "stock.csv:1:15: the columns \"qty\" and \"quantity\" are both the quantity"},
		{"nothing at all", "", "stock.csv: the list is empty"},
		{"a quote too few", "reference,quantity\n\"ENV1,2\nGAS1,3\n", "a quoted cell does not end"},
		{"a quote too many", "reference,quantity,note\nENV1,2,12\" long\n", "stock.csv:2:10: a quote stands inside a cell that is not quoted"},
		{"another encoding", "reference,quantity,note\nENV1,2,K\xe4fig\n", "stock.csv:2:9: this byte is no UTF-8; save the list as \"CSV UTF-8\""},
		{"a wide encoding", "\xff\xfer\x00e\x00", "stock.csv: the list is written in UTF-16"},
	} {
		s, err := Read("stock.csv", []byte(c.text), known)
		if err == nil || s != nil || !strings.HasPrefix(err.Error(), c.want) && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %s", c.name, err, c.want)
		}
	}
}

// A delivery changes the lines that it is about and leaves every other byte alone.
func TestReceived(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"as it was", "\ufeffsep=;\r\nwhere;reference;quantity\r\n\"box \"\"1\"\"; left\";ENV1;1\r\n;PEN1;\"30\"\r\nx;x-OLD;many\r\n",
			"\ufeffsep=;\r\nwhere;reference;quantity\r\n\"box \"\"1\"\"; left\";ENV1;3\r\n;PEN1;\"30\"\r\nx;x-OLD;many\r\n;GAS1;4\r\n"},
		{"no last end of line", "reference,quantity\nPEN1,30", "reference,quantity\nPEN1,30\nENV1,2\nGAS1,4\n"},
		{"a short line", "quantity,where,reference\n1,,ENV1\n0,a,GAS1\n", "quantity,where,reference\n3,,ENV1\n4,a,GAS1\n"},
	} {
		s, err := Read("stock.csv", []byte(c.text), known)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := string(s.Received(map[string]int{"ENV1": 2, "GAS1": 4})); got != c.want {
			t.Errorf("%s: got\n%q\nwant\n%q", c.name, got, c.want)
		}
	}
	if got, want := string(Empty().Received(map[string]int{"GAS1": 4})), "reference,quantity\r\nGAS1,4\r\n"; got != want {
		t.Errorf("an empty list: got %q, want %q", got, want)
	}
}

// What is written is read again, with the delivery on top.
func TestReceivedIsReadAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		comma := rapid.SampledFrom([]string{",", ";", "\t"}).Draw(t, "comma")
		end := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "end")
		text := rapid.SampledFrom([]string{"", byteOrderMark}).Draw(t, "mark") + strings.Join([]string{"where", "reference", "quantity"}, comma) + end
		want := map[string]int{}
		for _, ref := range known {
			if !rapid.Bool().Draw(t, ref) {
				continue
			}
			n := rapid.IntRange(0, 99).Draw(t, "pieces")
			where := rapid.SampledFrom([]string{"", "box", `"a` + comma + `b"`, "\"two" + end + "lines\"", `"say ""so"""`}).Draw(t, "where")
			text += where + comma + ref + comma + strings.Repeat("0", n%2) + strconv.Itoa(n) + end
			want[ref] = n
		}
		s, err := Read("stock.csv", []byte(text), known)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if !maps.Equal(s.Pieces(), want) {
			t.Fatalf("%q: got %v, want %v", text, s.Pieces(), want)
		}
		come := rapid.MapOf(rapid.SampledFrom(known), rapid.IntRange(0, 50)).Draw(t, "come")
		out := s.Received(come)
		for ref, n := range come {
			if n > 0 {
				want[ref] += n
			}
		}
		again, err := Read("stock.csv", out, known)
		if err != nil || !maps.Equal(again.Pieces(), want) {
			t.Fatalf("%q: got %v, %v, want %v", out, again.Pieces(), err, want)
		}
	})
}

// No file makes the reader fail otherwise than by saying so, and a list that is read is written without loss.
func TestAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := "reference,quantity\n" + rapid.StringOf(rapid.SampledFrom([]rune("ENV1GAS,;\t\"\r\n 0x-\ufeff"))).Draw(t, "text")
		s, err := Read("stock.csv", []byte(text), known)
		if err != nil {
			return
		}
		if got := strings.TrimSuffix(string(s.Received(nil)), "\n"); got != strings.TrimSuffix(text, "\n") && got != strings.TrimSuffix(text, "\r\n") {
			t.Fatalf("got %q, want %q", got, text)
		}
	})
}
