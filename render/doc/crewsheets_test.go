package doc

import (
	"fmt"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// crewSheet is a document of a demonstration kit with a change, as text.
func crewSheet(t *testing.T, d Document, kit, change string) string {
	t.Helper()
	source, ok := kits.Demo(kit)
	if !ok {
		t.Fatalf("there is no demonstration kit %q", kit)
	}
	m, err := manifest.Load(source, manifest.Source{Name: "change", Data: []byte(change)})
	if err != nil {
		t.Fatal(err)
	}
	in := Gather(kits.Assess(m), builtIn(t), unit.SI, words(t, "en"))
	if !d.Applies(in) {
		return ""
	}
	list, err := d.Compose(in)
	return dumped(t, list, err)
}

// Every quarter of an hour the wind is read, and the last line of the log is the end of the station. There is a field for what
// somebody can read from below, and none for what nobody can.
func TestTheLogHasAFieldForEveryReading(t *testing.T) {
	heard := `{"parts": {"BAT1": {"battery": {"telemetry": true}}}}`
	needless := `{"station": {"identification_interval": null, "no_identification": "it has no call sign"}}`
	for _, tt := range []struct {
		kit, change, field string
		want               bool
	}{
		{"fen-relay", `{}`, "hour/0/wind/1", true}, {"fen-relay", `{}`, "hour/19/wind/4", true}, {"fen-relay", `{}`, "hour/19/wind/5", false},
		{"fen-relay", `{}`, "hour/7/gust", true}, {"fen-relay", `{}`, "hour/7/lean", true}, {"fen-relay", `{}`, "hour/end/wind/1", true}, {"fen-relay", `{}`, "hour/20/clock", false},
		{"fen-relay", `{}`, "hour/3/volts", false}, {"fen-relay", heard, "hour/3/volts", true},
		{"fen-relay", `{}`, "hour/3/identified/6", true}, {"fen-relay", needless, "hour/3/identified", false},
	} {
		if got := strings.Contains(crewSheet(t, stationLog, tt.kit, tt.change), fmt.Sprintf("%q", "station-log/"+tt.field)); got != tt.want {
			t.Errorf("%s with %s: a field %s is %v, want %v", tt.kit, tt.change, tt.field, got, tt.want)
		}
	}
}

// What comes home is counted once, an empty cylinder too; what is used up has no field for a number.
func TestThePackInCountsOnce(t *testing.T) {
	text := crewSheet(t, recovery, "fen-relay", `{}`)
	for field, want := range map[string]int{"in/GAS1/count": 1, "in/TX1/count": 1, "in/ENV1/count": 0, "in/ENV1": 1, "recovery.pack/relay box": 0, "number": 1} {
		if got := strings.Count(text, fmt.Sprintf("%q", "recovery/"+field)); got != want {
			t.Errorf("the field %s stands there %d times, want %d", field, got, want)
		}
	}
	known := crewSheet(t, recovery, "fen-relay", `{"recovery": {"contact": "duty desk, extension 41"}}`)
	if strings.Contains(known, `"recovery/number"`) {
		t.Error("there is a line for a number that is printed")
	}
}

// A kit whose plan brings the balloon down has the list for it, and one whose battery and gas last has none.
func TestWhoChangesABattery(t *testing.T) {
	if text := crewSheet(t, batteryChange, "fen-relay", `{}`); !strings.Contains(text, "change.fresh/BAT1") || !strings.Contains(text, "change.launch//hold") {
		t.Error("the list of a change lacks the battery or its hold point")
	}
	if text := crewSheet(t, batteryChange, "fen-relay", `{"station": {"duration": "10 h"}}`); text != "" {
		t.Error("a battery that lasts is changed")
	}
}

// The gear of the lists stands on one sheet, with the numbers of the kit; what only another kit needs does not.
func TestWhatIsPacked(t *testing.T) {
	fen, marsh := crewSheet(t, packing, "fen-relay", `{}`), crewSheet(t, packing, "marsh-data", `{}`)
	for _, tt := range []struct {
		text, what string
		want       bool
	}{
		{fen, "packing/gear/instrument bag/wind meter for mean and gust", true}, {fen, "packing/gear/worn/helmet", true}, {fen, "packing/box/winch case", true},
		{fen, "sender for test messages", false}, {marsh, "sender for test messages", true}, {marsh, "bucket to fill the anchor", true}, {fen, "bucket", false},
	} {
		if strings.Contains(tt.text, tt.what) != tt.want {
			t.Errorf("packed is %q: %v, want %v", tt.what, !tt.want, tt.want)
		}
	}
}
