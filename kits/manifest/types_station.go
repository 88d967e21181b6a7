package manifest

import "hoistbook/kits/unit"

// Station is the deployment that the kit is designed for.
type Station struct {
	// The time to be covered, battery changes included.
	Duration *unit.Duration `json:"duration,omitempty" jsonschema:"example=12 h" above:"0 h"`
	// The length of tether paid out.
	TetherOut *unit.Length `json:"tether_out,omitempty" jsonschema:"example=45 m" above:"0 m"`
	// The height below which the payload may not sink in the design wind.
	LowestHeight *unit.Length `json:"lowest_height,omitempty" jsonschema:"example=32 m"`
	// The greatest angle from the vertical of the straight line from anchor to balloon.
	GreatestLean *unit.Angle `json:"greatest_lean,omitempty" jsonschema:"example=40 deg" above:"0 deg" most:"90 deg"`
	// The least free lift, as a share of the worst mass aloft, in still air at the end of the station time; 20 % when nobody says.
	LeastFreeLift *unit.Ratio `json:"least_free_lift,omitempty" jsonschema:"example=20 %"`
	// The place and its air.
	Site *Site `json:"site,omitempty"`
	// The design wind.
	Wind *Wind `json:"wind,omitempty"`
	// The share of the station time that the relay spends in each state; together 100 %.
	Duty Duty `json:"duty,omitempty" most:"100 %"`
	// Whether the station time reaches into the hours between sunset and sunrise.
	Night *bool `json:"night,omitempty" jsonschema:"example=false"`
	// How often the relay must identify itself.
	IdentificationInterval *unit.Duration `json:"identification_interval,omitempty" jsonschema:"example=10 min" above:"0 min"`
	// Why the relay need not identify itself, where it need not: silence would be taken for an interval that is missing.
	NoIdentification string `json:"no_identification,omitempty" jsonschema:"example=a licence-exempt device has no call sign"`
	// How many deployments the consumable parts of an order are for; one when nobody says.
	Deployments *int `json:"deployments,omitempty" jsonschema:"minimum=1,maximum=1000,example=4"`
	// How the station is kept going.
	Upkeep *Upkeep `json:"upkeep,omitempty"`
	// The regional rule packs in force.
	Rules []PackID `json:"rules,omitempty" jsonschema:"uniqueItems=true,maxItems=16"`
}

// Site is the place of the deployment and its air.
type Site struct {
	// What the crew calls the place.
	Name string `json:"name,omitempty" jsonschema:"example=the landing stage"`
	// Whom the crew calls, by what the lists call them: "landowner", "air traffic control", "emergency", "operator of the power network".
	Contacts Contacts `json:"contacts,omitempty" jsonschema:"maxProperties=20"`
	// The height of the ground above mean sea level.
	Elevation *unit.Length `json:"elevation,omitempty" jsonschema:"example=20 m" most:"9 km"`
	// The air pressure at the ground; that of the standard atmosphere at the elevation when nobody says.
	Pressure *unit.Pressure `json:"pressure,omitempty" jsonschema:"example=1005 hPa" above:"0 hPa"`
	// The relative humidity; 50 % when nobody says.
	Humidity *unit.Ratio `json:"humidity,omitempty" jsonschema:"example=80 %" most:"100 %"`
	// The coldest air in which the kit is to work.
	Coldest *unit.Temperature `json:"coldest,omitempty" jsonschema:"example=-5 degC"`
	// The hottest air in which the kit is to work.
	Hottest *unit.Temperature `json:"hottest,omitempty" jsonschema:"example=28 degC"`
	// The distance to the boundary of the nearest airfield.
	NearestAirfield *unit.Length `json:"nearest_airfield,omitempty" jsonschema:"example=14 km" most:"1000 km"`
	// The distance from the anchor to the nearest overhead power line.
	NearestPowerLine *unit.Length `json:"nearest_power_line,omitempty" jsonschema:"example=400 m" most:"100 km"`
}

// Wind is the design wind.
type Wind struct {
	// The mean wind speed.
	Speed *unit.Speed `json:"speed,omitempty" jsonschema:"example=5 m/s"`
	// The height above ground at which the speed is measured.
	MeasuredAt *unit.Length `json:"measured_at,omitempty" jsonschema:"example=2 m" above:"0 m" most:"200 m"`
	// The country that the wind blows over: water (a lake or the sea), open (short grass, level fields), rough (high crops, hedges, single trees), wooded (woods and orchards), town (low houses with gardens) or city (high houses).
	Terrain Terrain `json:"terrain,omitempty" jsonschema:"example=open"`
	// How many times the mean wind a gust reaches; 1.5 when nobody says.
	GustFactor *float64 `json:"gust_factor,omitempty" jsonschema:"minimum=1,maximum=5,example=1.5"`
}

// Duty is the share of time in each state.
type Duty map[State]unit.Ratio

// Upkeep is how the station is kept going over its time.
type Upkeep struct {
	// The share of a battery's endurance that is left when it comes off; 10 % when nobody says.
	BatteryReserve *unit.Ratio `json:"battery_reserve,omitempty" jsonschema:"example=10 %" most:"100 %"`
	// The time off the air for a change of battery, winding in and out included; 20 min when nobody says.
	ChangeTime *unit.Duration `json:"change_time,omitempty" jsonschema:"example=20 min"`
	// The share of the first fill at which gas is topped up; when its lift is down to what the design wind needs when nobody says.
	TopUpAt *unit.Ratio `json:"top_up_at,omitempty" jsonschema:"example=90 %" most:"100 %"`
	// The time off the air for topping up gas; 30 min when nobody says.
	TopUpTime *unit.Duration `json:"top_up_time,omitempty" jsonschema:"example=30 min"`
}
