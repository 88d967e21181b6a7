package kits

import (
	"strings"

	"hoistbook/kits/unit"
)

// stationFacts restate what the manifest asks for, so that rules can compare with it and pages can print it.
var stationFacts = []*Entry{
	stationDuration.Entry, stationOut.Entry, stationLowest.Entry, stationLean.Entry, stationWind.Entry, stationWindAt.Entry, stationGust.Entry,
	stationHot.Entry, stationCold.Entry, stationAirfield.Entry, stationPowerLine.Entry, stationIdentify.Entry, stationNoIdentify, stationNight, stationRegions,
}

var stationDuration = quantity("station.duration_h", "h", "Time on station", asSaid, policy,
	func(c *frame) unit.Duration { return given(c, "/station/duration", station(c).Duration) })

var stationOut = quantity("station.tether_out_m", "m", "Tether paid out", asSaid, policy,
	func(c *frame) unit.Length { return given(c, "/station/tether_out", station(c).TetherOut) })

var stationLowest = quantity("station.lowest_height_m", "m", "Lowest height allowed in the design wind", asSaid, policy,
	func(c *frame) unit.Length { return given(c, "/station/lowest_height", station(c).LowestHeight) })

var stationLean = quantity("station.greatest_lean_deg", "deg", "Greatest lean allowed in the design wind", asSaid, policy,
	func(c *frame) unit.Angle { return given(c, "/station/greatest_lean", station(c).GreatestLean) })

var stationWind = quantity("station.wind_m_s", "m/s", "Design wind, as measured", asSaid, policy,
	func(c *frame) unit.Speed { return given(c, "/station/wind/speed", wind(c).Speed) })

var stationWindAt = quantity("station.wind_measured_at_m", "m", "Height at which the wind is measured", asSaid, policy,
	func(c *frame) unit.Length { return given(c, "/station/wind/measured_at", wind(c).MeasuredAt) })

var stationGust = quantity("station.gust_m_s", "m/s", "Gust in the design wind, as measured", "design wind × gust factor", policy,
	func(c *frame) unit.Speed { return unit.Speed(stationWind.of(c).SI() * gustFactor(c)) })

var stationHot = quantity("station.hottest_k", "K", "Hottest air in which the kit is to work", asSaid, policy, hot)

var stationCold = quantity("station.coldest_k", "K", "Coldest air in which the kit is to work", asSaid, policy, cold)

var stationAirfield = quantity("station.nearest_airfield_m", "m", "Distance to the nearest airfield", asSaid, policy,
	func(c *frame) unit.Length {
		return ofThisSite(c, "/station/site/nearest_airfield", site(c).NearestAirfield)
	})

var stationPowerLine = quantity("station.nearest_power_line_m", "m", "Distance from the anchor to the nearest overhead power line", asSaid, policy,
	func(c *frame) unit.Length {
		return ofThisSite(c, "/station/site/nearest_power_line", site(c).NearestPowerLine)
	})

var stationIdentify = quantity("station.identification_interval_min", "min", "Interval at which the relay identifies itself", asSaid, policy,
	func(c *frame) unit.Duration {
		return given(c, "/station/identification_interval", station(c).IdentificationInterval)
	})

var stationNoIdentify = word(nil, "station.no_identification", "Why the relay need not identify itself", asSaid, nil, policy,
	func(c *frame, _ string) string {
		return text(c, "/station/no_identification", station(c).NoIdentification)
	})

var stationNight = yesNo(nil, "station.night", "Whether the station time reaches into the night", asSaid, policy,
	func(c *frame, _ string) bool { return truth(c, "/station/night", station(c).Night) })

var stationRegions = word(nil, "station.regions", "Regions whose rules are in force", "the regional packs that the manifest names", nil, policy,
	func(c *frame, _ string) string {
		names := station(c).Rules
		if len(names) == 0 {
			c.missing("the manifest names no region in /station/rules")
			return ""
		}
		c.cite("/station/rules")
		list := make([]string, len(names))
		for i, n := range names {
			list[i] = string(n)
		}
		return strings.Join(list, ", ")
	})

const asSaid = "as the manifest says"
