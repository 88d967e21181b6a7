package source

// works is the bibliography, by topic.
var works = []Work{
	// The project's own decisions, and what the trade does.
	{ID: "policy", Citation: "kit engineering policy", Standing: Policy},
	{ID: "practice", Citation: "common practice", Standing: Practice},

	// Constants and units.
	{ID: "codata-2018", Citation: "CODATA 2018 recommended values of the fundamental constants", Standing: Published},
	{ID: "sp-811", Citation: "NIST SP 811 (2008), Guide for the Use of the SI", Standing: FromMemory},
	{ID: "ciaaw", Citation: "IUPAC CIAAW standard atomic weights", Standing: FromMemory},

	// Air, gas and lift.
	{ID: "cipm-2007", Citation: "Picard, Davis, Gläser, Fujii, Revised formula for the density of moist air (CIPM-2007), Metrologia 45 (2008) 149-155", Standing: Published},
	{ID: "iso-2533", Citation: "ISO 2533:1975 Standard Atmosphere; US Standard Atmosphere 1976", Standing: Published},
	{ID: "archimedes", Citation: "Archimedes' principle: lift equals the mass of the displaced air less the mass of the gas", Standing: Published},
	{ID: "ideal-gas", Citation: "ideal gas law with second virial coefficient", Standing: Published},
	{ID: "mass-growth", Citation: "mass growth allowances by maturity, after the practice of ANSI/AIAA S-120A", Standing: Policy},
	{ID: "wmo-8", Citation: "WMO-No. 8, Guide to Instruments and Methods of Observation", Standing: FromMemory},

	// Wind, tether and anchor.
	{ID: "patel", Citation: "Patel, Wind and Solar Power Systems, Table 4-3 (terrain exponents)", Standing: Published},
	{ID: "taylor-lee", Citation: "Taylor, Lee, Simple guidelines for estimating wind speed variations due to small scale topographic features, Climatological Bulletin 18 (1984) 3-32", Standing: FromMemory},
	{ID: "hoerner", Citation: "Hoerner, Fluid-Dynamic Drag", Standing: FromMemory},
	{ID: "berteaux", Citation: "Berteaux, Buoy Engineering (1976)", Standing: FromMemory},
	{ID: "govardhan", Citation: "Govardhan, Williamson, Vortex-induced vibrations of a sphere, J. Fluid Mech. 531 (2005) 11-47", Standing: FromMemory},
	{ID: "brent", Citation: "Brent, Algorithms for Minimization without Derivatives (1973), chapter 4", Standing: FromMemory},
	{ID: "dormand-prince", Citation: "Dormand, Prince, A family of embedded Runge-Kutta formulae, J. Comp. Appl. Math. 6 (1980) 19-26", Standing: FromMemory},
	{ID: "ci-1401", Citation: "Cordage Institute CI 1401, Recommended Safety Practices for Use of Fiber Rope", Standing: Published},
	{ID: "statics", Citation: "statics of a deadweight anchor with friction", Standing: Published},

	{ID: "free-fall", Citation: "energy of a fall without drag: mass × standard gravity × height", Standing: Published},
	{ID: "fibres", Citation: "Hearle (editor), High-performance Fibres (2001)", Standing: FromMemory},
	{ID: "wmo-1555", Citation: "Harper, Kepert, Ginger, Guidelines for Converting between Various Wind Averaging Periods, WMO/TD-No. 1555 (2010)", Standing: FromMemory},
	{ID: "beaufort", Citation: "Beaufort scale: light air to 1.5 m/s, light breeze from 1.6 m/s", Standing: Published},
	// Power.
	{ID: "astm-b258", Citation: "ASTM B258, Standard Nominal Diameters of Solid Round Wires (AWG)", Standing: FromMemory},
	{ID: "iacs", Citation: "International Annealed Copper Standard, IEC 60028: 1.7241e-8 ohm m at 20 °C", Standing: FromMemory},
	{ID: "ohm", Citation: "Ohm's and Kirchhoff's laws", Standing: Published},
	{ID: "cell-data", Citation: "cell makers' data: cutoff, nominal and full voltages by chemistry", Standing: Published},
	{ID: "specific-energy", Citation: "Linden, Reddy, Handbook of Batteries, specific energy of cells by chemistry", Standing: FromMemory},
	{ID: "ampacity", Citation: "Handbook of Electronic Tables and Formulas, wire table (single wire in free air), as quoted in Floyd, Principles of Electric Circuits", Standing: Published},
	{ID: "iec-61951", Citation: "IEC 61951-2, nickel-metal hydride cells (charge of 16 h at a tenth of the capacity)", Standing: FromMemory},
	{ID: "nfpa-70", Citation: "NFPA 70 (continuous loads: 125 % of the current)", Standing: FromMemory},
	{ID: "jesd8c", Citation: "JEDEC JESD8C.01, interface levels for 3.3 V logic", Standing: Published},

	// Radio.
	{ID: "p525", Citation: "Recommendation ITU-R P.525, Calculation of free-space attenuation", Standing: Published},
	{ID: "p310", Citation: "Recommendation ITU-R P.310, effective Earth radius k = 4/3", Standing: FromMemory},
	{ID: "hata-1980", Citation: "Hata, Empirical formula for propagation loss, IEEE Trans. Veh. Technol. VT-29 (1980) 317-325", Standing: Published},
	{ID: "weissberger", Citation: "Weissberger, ESD-TR-81-101 (1982), modified exponential decay", Standing: Published},
	{ID: "isolation", Citation: "Graham, Kirkman, Paul, Mobile Radio Network Design in the VHF and UHF Bands, p. 267", Standing: Published},
	{ID: "oet-65", Citation: "FCC OET Bulletin 65, edition 97-01", Standing: Published},
	{ID: "cfr-47-1.1310", Citation: "47 CFR 1.1310", Standing: Published, Verify: true},
	{ID: "icnirp-2020", Citation: "ICNIRP, Guidelines for limiting exposure to electromagnetic fields (100 kHz to 300 GHz), Health Physics 118 (2020) 483", Standing: Published},

	// Safety distances.
	{ID: "cfr-29-1926.1408", Citation: "29 CFR 1926.1408", Standing: Published, Verify: true},

	// Money.
	{ID: "iso-4217", Citation: "ISO 4217 currency codes and minor units", Standing: FromMemory},

	// Safety of people.
	{ID: "cfr-14-101", Citation: "14 CFR part 101 subpart B (moored balloons)", Standing: Published, Verify: true},
	{ID: "cfr-29-1926.1408", Citation: "29 CFR 1926.1408 (power lines)", Standing: Published, Verify: true},
	{ID: "cfr-29-1910.101", Citation: "29 CFR 1910.101 (compressed gases)", Standing: Published, Verify: true},
	{ID: "cfr-29-1910.146", Citation: "29 CFR 1910.146 (oxygen-deficient atmospheres)", Standing: Published, Verify: true},
	{ID: "cfr-14-107.120", Citation: "14 CFR 107.120(a)(1): injury from 11 foot-pounds, which is 15 J, of a rigid object", Standing: FromMemory, Verify: true},
	{ID: "hse-l23", Citation: "HSE L23, Manual handling: pushing and pulling, 20 kg to start a load (15 kg for women)", Standing: Published, Verify: true},
	{ID: "displacement", Citation: "oxygen left when gas pushes air out of a closed room, as the gas trade and universities assess it", Standing: Published},
	{ID: "eiga-44", Citation: "EIGA Doc 44, Hazards of oxygen-deficient atmospheres", Standing: Published},
	{ID: "nws-lightning", Citation: "US National Weather Service, lightning safety", Standing: Published},
	{ID: "lithium-by-air", Citation: "air transport rules for passengers with lithium batteries", Standing: Published, Verify: true},

	// Words.
	{ID: "ansi-z535", Citation: "ANSI Z535.4/Z535.6 signal words", Standing: Published},
	{ID: "rfc-2119", Citation: "RFC 2119, key words MUST and SHOULD", Standing: Published},
}
