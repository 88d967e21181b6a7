package kits

// Restates reports whether the fact merely says again what the manifest says.
func (e *Entry) Restates() bool { return e.Formula == asSaid }
