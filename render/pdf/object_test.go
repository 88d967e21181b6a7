package pdf

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Numbers are those that strconv writes, without the zeros behind them.
func TestNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		decimals := rapid.IntRange(0, 5).Draw(t, "decimals")
		got := string(number(nil, v, decimals))
		back, err := strconv.ParseFloat(got, 64)
		if err != nil || math.Abs(back-v) > 0.5000001*math.Pow10(-decimals) {
			t.Fatalf("%v with %d decimals is %s, %v", v, decimals, got, err)
		}
		if strings.Contains(got, ".") && strings.HasSuffix(got, "0") || strings.HasSuffix(got, ".") || got == "-0" {
			t.Fatalf("%v is written %s", v, got)
		}
	})
}

// Strings come back from our reader as they were, whatever is in them; qpdf reads the same ones in the tests of titles and names.
func TestStringsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		p := parser{b: []byte(text(s))}
		got, err := p.object(0)
		if want := strings.ToValidUTF8(s, "\ufffd"); err != nil || got != want {
			t.Fatalf("%q is written %s and read %q, %v", s, p.b, got, err)
		}
	})
	for in, want := range map[string]string{`(a\(b\)\\\101\n(c))`: "a(b)\\A\n(c)", "<4142 4>": "AB@", "(one\\\ntwo)": "onetwo", "<FEFF03A9>": "Ω"} {
		p := parser{b: []byte(in)}
		if got, err := p.object(0); err != nil || got != want {
			t.Errorf("%s is read %q, %v; want %q", in, got, err, want)
		}
	}
	if got := name("application/json; a#b"); got != "/application#2fjson#3b#20a#23b" {
		t.Errorf("got %s", got)
	}
}
