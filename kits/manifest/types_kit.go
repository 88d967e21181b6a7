package manifest

// Kit says what kit this is.
type Kit struct {
	// The short name used in file names and reports.
	ID Ref `json:"id" jsonschema:"example=fen-relay"`
	// The name in running text.
	Name string `json:"name" jsonschema:"minLength=1,maxLength=120,example=Fen relay"`
	// The revision, by the rules of Semantic Versioning 2.0.0.
	Revision Revision `json:"revision" jsonschema:"example=1.2.0"`
	// The serial number of one built copy, in an overlay with its weighed masses.
	Serial string `json:"serial,omitempty" jsonschema:"maxLength=40,example=0007"`
	// What the kit is for, in a sentence or two.
	Summary string `json:"summary,omitempty" jsonschema:"example=A small relay under a gas balloon for the marsh patrols."`
	// Who answers for the manifest.
	Maintainer string `json:"maintainer,omitempty" jsonschema:"example=Alder Fen Radio Group"`
	// The licence of the manifest, by its SPDX identifier.
	Licence string `json:"licence,omitempty" jsonschema:"example=CC-BY-4.0"`
}
