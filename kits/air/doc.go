// Package air has the air that carries a balloon and the gas that fills it: density of moist air, pressure at a height,
// density of helium and hydrogen, and the Beaufort scale.
//
// Assumed: still, well mixed air with 400 ppm of carbon dioxide; the gas has the pressure and temperature of the air
// around it (a slack envelope; sunshine on the envelope warms the gas and adds lift, which is not counted). The model
// stops being true where water freezes out (fog of ice), in the stratosphere, and for an envelope under pressure.
package air
