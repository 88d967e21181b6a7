//go:build !unix

package whole

// hold trusts people not to run the same command twice within a thousandth of a second where the standard library has no lock
// to offer.
func hold(string) (release func(), err error) { return func() {}, nil }
