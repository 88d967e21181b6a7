// Package lift has the arithmetic of buoyancy: what a volume of gas lifts, what hangs on it, what is left over, what a
// spring scale at the filled balloon's neck must read, and how many cylinders the fill takes.
//
// Lift is given as the mass it holds up, because that is what a scale reads. Assumed: Archimedes' principle in still air, gas
// at the temperature and pressure of the air, loss at a constant share of the lift remaining. The model says nothing about
// rain or ice on the envelope, or about a vertical wind.
package lift
