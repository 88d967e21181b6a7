// Package tether has the statics of a balloon on a line in the wind: how high it stands and how far it drifts, how hard it
// pulls, what the anchor must weigh, in how much wind it may fly, and how full it must be.
//
// Assumed: a steady horizontal wind from one side that follows a power law of height; a perfectly flexible line that does
// not stretch, of constant weight and diameter, dragged by the part of the wind across it (cross-flow principle; drag along
// the line is left out); a balloon that pulls with its lift and with the drag of a sphere; level ground, the anchor at
// height zero. Gusts are a factor on the steady wind: nothing swings, nothing jerks.
//
// The model stops being true in thermals and downdraughts, where the line touches anything, and in wind so strong that the
// line's foot would lie on the ground: the last is found and said, as an error, never passed off as a number.
package tether
