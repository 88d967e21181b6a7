package sheet

import (
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
)

// kit has what is hard: ties in rounding (0.125 and 11.50 × 1.19 = 13.685), names that look like formulas, a supplier whose
// name a sheet may not have in full, a part that nobody offers.
const kit = `{
  "format": "hoistbook-manifest/1",
  "kit": { "id": "fen", "name": "Fen & marsh", "revision": "1.0.0" },
  "station": { "duration": "8 h", "tether_out": "40 m", "lowest_height": "30 m", "deployments": 3 },
  "parts": {
    "GAS1": { "name": "gas", "place": "ground", "consumable": true, "packed_in": "trolley", "offers": [ { "supplier": "S1", "order_code": "=1+1", "price": "11.50", "lead_time": "3 d" } ] },
    "PIN1": { "name": "@pin, 2 mm, \"short\"", "place": "aloft", "spares": "50 %", "offers": [ { "supplier": "a-supplier-with-a-long-id-000001", "order_code": "-7", "pack": 10, "price": "0.125", "lead_time": "36 h" } ] }
  },
  "budget": { "currency": "EUR", "per_kit": "40.00", "tax": "19 %" },
  "suppliers": { "S1": { "name": "Yard", "postage": "0.00" }, "a-supplier-with-a-long-id-000001": { "name": "+Pins <by post>", "postage": "2.00", "least_order": "3.00" } }
}`

func orderOf(t testing.TB, change string, plan kits.OrderPlan) *kits.Order {
	t.Helper()
	m, err := manifest.Load(manifest.Source{Name: "kit.json", Data: []byte(kit)}, manifest.Source{Name: "change.json", Data: []byte(change)})
	if err != nil {
		t.Fatal(err)
	}
	o, err := kits.OrderFor(m, plan)
	if err != nil {
		t.Fatal(err)
	}
	return o
}
