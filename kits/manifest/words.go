package manifest

// The closed vocabularies of a manifest. What may be written is listed once, in the Words method of each type.
type (
	// Format is the format of a manifest file.
	Format string
	// Place is where a part is during the deployment.
	Place string
	// MassBasis is how a mass is known.
	MassBasis string
	// EnvelopeKind is how an envelope takes its gas.
	EnvelopeKind string
	// Gas is a lifting gas.
	Gas string
	// AnchorKind is how an anchor holds.
	AnchorKind string
	// Trigger is what sets a deflation device off.
	Trigger string
	// MarkerKind is what makes a line seen.
	MarkerKind string
	// Chemistry is that of a battery's cells.
	Chemistry string
	// ConverterKind is how a converter converts.
	ConverterKind string
	// State is what the relay is doing.
	State string
	// Terrain is the country that the wind blows over.
	Terrain string
	// FilterLine is the line in which a filter stands.
	FilterLine string
	// Arrangement is how two antennas stand to each other.
	Arrangement string
	// Environment is the country that the radio waves cross.
	Environment string
	// SignalWord is that of a caution, with the meanings of ANSI Z535.6.
	SignalWord string
	// List is one of the lists of steps.
	List string
)

// The words.
const (
	Format1 Format = "hoistbook-manifest/1"

	Aloft    Place = "aloft"
	OnGround Place = "ground"

	Estimated  MassBasis = "estimated"
	Calculated MassBasis = "calculated"
	Weighed    MassBasis = "weighed"

	Elastic EnvelopeKind = "elastic"
	Fixed   EnvelopeKind = "fixed"

	Helium   Gas = "helium"
	Hydrogen Gas = "hydrogen"

	DeadweightAnchor AnchorKind = "deadweight"
	FixedAnchor      AnchorKind = "fixed"

	OnEscape Trigger = "escape"
	OnRemote Trigger = "remote"
	OnTimer  Trigger = "timer"
	ByHand   Trigger = "hand"

	Pennant  MarkerKind = "pennant"
	Streamer MarkerKind = "streamer"
	Light    MarkerKind = "light"

	LiIon    Chemistry = "li-ion"
	LiPo     Chemistry = "lipo"
	LiFePO4  Chemistry = "lifepo4"
	NiMH     Chemistry = "nimh"
	LeadAcid Chemistry = "lead-acid"
	Alkaline Chemistry = "alkaline"

	Linear ConverterKind = "linear"
	Buck   ConverterKind = "buck"
	Boost  ConverterKind = "boost"

	Transmit State = "transmit"
	Receive  State = "receive"
	Standby  State = "standby"

	OverWater  Terrain = "water"
	OverOpen   Terrain = "open"
	OverRough  Terrain = "rough"
	OverWooded Terrain = "wooded"
	OverTown   Terrain = "town"
	OverCity   Terrain = "city"

	InReceiver    FilterLine = "receiver"
	InTransmitter FilterLine = "transmitter"

	Vertical   Arrangement = "vertical"
	Horizontal Arrangement = "horizontal"

	FreeSpace Environment = "free-space"
	Open      Environment = "open"
	Suburban  Environment = "suburban"
	Urban     Environment = "urban"

	DangerSignal  SignalWord = "danger"
	WarningSignal SignalWord = "warning"
	CautionSignal SignalWord = "caution"
	NoticeSignal  SignalWord = "notice"

	AssemblyList  List = "assembly"
	PreflightList List = "preflight"
	RecoveryList  List = "recovery"
)

// States lists what the relay can be doing, in the order of documents.
var States = []State{Transmit, Receive, Standby}

// Words lists what may be written, for the schema and for messages.
func (Format) Words() []string        { return words(Format1) }
func (Place) Words() []string         { return words(Aloft, OnGround) }
func (MassBasis) Words() []string     { return words(Estimated, Calculated, Weighed) }
func (EnvelopeKind) Words() []string  { return words(Elastic, Fixed) }
func (Gas) Words() []string           { return words(Helium, Hydrogen) }
func (AnchorKind) Words() []string    { return words(DeadweightAnchor, FixedAnchor) }
func (Trigger) Words() []string       { return words(OnEscape, OnRemote, OnTimer, ByHand) }
func (MarkerKind) Words() []string    { return words(Pennant, Streamer, Light) }
func (Chemistry) Words() []string     { return words(LiIon, LiPo, LiFePO4, NiMH, LeadAcid, Alkaline) }
func (ConverterKind) Words() []string { return words(Linear, Buck, Boost) }
func (State) Words() []string         { return words(States...) }
func (Terrain) Words() []string {
	return words(OverWater, OverOpen, OverRough, OverWooded, OverTown, OverCity)
}

// Meaning says what the country looks like.
func (t Terrain) Meaning() string {
	return map[Terrain]string{
		OverWater: "a lake or the sea", OverOpen: "short grass, level fields", OverRough: "high crops, hedges, single trees",
		OverWooded: "woods and orchards", OverTown: "low houses with gardens", OverCity: "high houses",
	}[t]
}

func (FilterLine) Words() []string  { return words(InReceiver, InTransmitter) }
func (Arrangement) Words() []string { return words(Vertical, Horizontal) }
func (Environment) Words() []string { return words(FreeSpace, Open, Suburban, Urban) }
func (SignalWord) Words() []string {
	return words(DangerSignal, WarningSignal, CautionSignal, NoticeSignal)
}
func (List) Words() []string { return words(AssemblyList, PreflightList, RecoveryList) }

func words[T ~string](list ...T) []string {
	texts := make([]string, len(list))
	for i, word := range list {
		texts[i] = string(word)
	}
	return texts
}
