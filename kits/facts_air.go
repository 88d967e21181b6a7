package kits

import (
	"hoistbook/kits/air"
	"hoistbook/kits/manifest"
	"hoistbook/kits/source"
	"hoistbook/kits/unit"
)

var airFacts = []*Entry{airPressure.Entry, airStandard.Entry, airHot.Entry, airCold.Entry, gasHot.Entry, gasCold.Entry, gasKind}

var cipm = []source.Ref{source.At("cipm-2007", "eq. (1)")}

var airPressure = quantity("air.pressure_pa", "Pa", "Air pressure at the site",
	"as the manifest says, or the standard atmosphere at the site's elevation",
	[]source.Ref{source.At("iso-2533", "troposphere")},
	func(c *frame) unit.Pressure {
		if p := site(c).Pressure; p != nil {
			return must(c, "/station/site/pressure", *p)
		}
		standard := airStandard.of(c)
		c.run.assume(Assumption{Pointer: "/station/site/pressure", Text: standard.String() + ": standard atmosphere at the elevation"})
		return standard
	})

var airStandard = quantity("air.pressure_standard_pa", "Pa", "Pressure of the standard atmosphere at the site",
	"101325 Pa × (1 − 0.0065 H ÷ 288.15)^5.256, H the elevation in metres of geopotential",
	[]source.Ref{source.At("iso-2533", "troposphere")},
	func(c *frame) unit.Pressure {
		return try(air.StandardPressure(given(c, "/station/site/elevation", site(c).Elevation))).in(c)
	})

var airHot = quantity("air.density_hot_kg_m3", "kg/m3", "Air density on the hottest day",
	"moist-air density at the pressure, the humidity and the hottest temperature", cipm,
	func(c *frame) unit.Density { return density(c, hot(c)) })

var airCold = quantity("air.density_cold_kg_m3", "kg/m3", "Air density on the coldest day",
	"moist-air density at the pressure, the humidity and the coldest temperature", cipm,
	func(c *frame) unit.Density { return density(c, cold(c)) })

var gasHot = quantity("gas.density_hot_kg_m3", "kg/m3", "Density of the gas on the hottest day",
	"purity × p M / (R T) + (1 − purity) × air density, at the hottest temperature",
	[]source.Ref{source.At("codata-2018", "molar gas constant"), source.At("ciaaw", "He, H"), source.At("ideal-gas", "")},
	func(c *frame) unit.Density { return gasDensity(c, hot(c)) })

var gasCold = quantity("gas.density_cold_kg_m3", "kg/m3", "Density of the gas on the coldest day",
	"purity × p M / (R T) + (1 − purity) × air density, at the coldest temperature",
	[]source.Ref{source.At("codata-2018", "molar gas constant"), source.At("ciaaw", "He, H"), source.At("ideal-gas", "")},
	func(c *frame) unit.Density { return gasDensity(c, cold(c)) })

var gasKind = word(nil, "gas.kind", "Lifting gas", "as the manifest says", []string{string(manifest.Helium), string(manifest.Hydrogen)}, policy,
	func(c *frame, _ string) string {
		e := envelope(c)
		return text(c, e.pointer+"/gas", string(e.f.Gas))
	})

func hot(c *frame) unit.Temperature {
	return given(c, "/station/site/hottest", site(c).Hottest)
}

func cold(c *frame) unit.Temperature {
	return given(c, "/station/site/coldest", site(c).Coldest)
}

// airState is the air at the site at one temperature.
func airState(c *frame, at unit.Temperature) air.State {
	humidity := otherwise(c, "/station/site/humidity", site(c).Humidity, unit.Ratio(0.5), "relative humidity when nobody says")
	return air.State{Pressure: airPressure.of(c), Temperature: at, Humidity: humidity}
}

// gasDensity is that of the impure gas in the air at the site at one temperature.
func gasDensity(c *frame, at unit.Temperature) unit.Density {
	e := envelope(c)
	kind := air.Gas(text(c, e.pointer+"/gas", e.f.Gas))
	purity := otherwise(c, e.pointer+"/purity", e.f.Purity, unit.Ratio(0.99), "purity of the gas when nobody says")
	return try(kind.Density(airState(c, at), purity)).in(c)
}

func density(c *frame, at unit.Temperature) unit.Density {
	state := airState(c, at)
	rho := try(state.Density()).in(c)
	if caveat := state.Caveat(); caveat != "" && c.known() {
		c.note(caveat)
	}
	return rho
}
