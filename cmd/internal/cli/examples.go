package cli

// examples has one line for each command that a reader can copy.
var examples = map[string]string{
	"book":     "hoistbook book our-relay/kit.json --with our-relay/our-club.json -o our-book",
	"check":    "hoistbook check our-relay/kit.json --rules our-relay/our-rules.json",
	"compare":  "hoistbook compare their-book/book.pdf our-relay/kit.json -o change-sheet.pdf",
	"explain":  "hoistbook explain our-relay/kit.json lift.neck_needed_kg",
	"extract":  "hoistbook extract their-book/book.pdf -o kit.json",
	"licences": "hoistbook licences > licences.txt",
	"new":      "hoistbook new our-relay --name \"Our relay\" --maintainer \"Our club\"",
	"order":    "hoistbook order our-relay/kit.json --kits 12 --stock stock.csv -o order.pdf",
	"record":   "hoistbook record launch.jsonl -o record.pdf",
	"schema":   "hoistbook schema manifest > manifest.schema.json",
	"sign":     "hoistbook sign our-relay/kit.json --key ~/.ssh/id_ed25519",
	"size":     "hoistbook size our-relay/kit.json --units us",
	"verify":   "hoistbook verify their-book/book.pdf --signers signers",
	"walk":     "hoistbook walk preflight our-relay/kit.json --log launch.jsonl",
	"weigh":    "hoistbook weigh our-relay/kit.json --serial 0001 BAT1=302g -o as-built.json",
}
