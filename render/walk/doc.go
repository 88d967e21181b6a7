// Package walk is the walk-through at the launch site as a state machine: a state and an input make the next state, and a
// state makes a view. A terminal, a page and a test drive the same machine; none of them decides anything.
//
// What is assumed: the crew says what it sees and instruments are read honestly; names are not proven. What is decided: each
// reading takes the place of what the manifest assumed, all facts are computed again from it and all rules are applied again.
// Silence is never a pass: an item nobody has answered, a limit that is not known and a rule that cannot be judged are "not
// shown yet". There is no clock here and no file: times are handed in, and lines of the record are handed out.
package walk
