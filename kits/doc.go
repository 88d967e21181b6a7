// Package kits says what a kit of a manifest really does: it gathers the physics of its sub-packages into facts, each with its unit,
// title, formula in words, inputs and source.
//
// Facts are conservative by construction. The stated range of the site's air is taken at the end that is worse for each: what a fill
// lifts too little for (height, lean, free lift, the neck lift needed) has the hottest day, the worst masses and the gas that is left at
// the end of the station time; what it lifts too much for (the pull on line and anchor, the working load's side of the greatest wind,
// the force at the neck) has the coldest day, the stated masses and the full first fill, as the same volume lifts more in cold air.
// Drag is that of cold air. A reading of the scale at the neck takes the place of both ends. What is not said, or cannot be computed, is
// not shown and never a number.
package kits
