package tether

import (
	"fmt"
	"math"

	"hoistbook/kits/unit"
)

// A Solution is how a rig stands in a wind.
type Solution struct {
	Height unit.Length // of the balloon over the anchor
	Drift  unit.Length // downwind of the anchor
	Lean   unit.Angle  // of the straight line from anchor to balloon, from the vertical

	WindAtBalloon unit.Speed
	BalloonDrag   unit.Force
	TensionTop    unit.Force // the greatest anywhere on the line
	TensionGround unit.Force // the least anywhere on the line
	PullAcross    unit.Force // T_x on the anchor, downwind
	PullUp        unit.Force // T_z on the anchor
}

// closeEnough is by how much a line may miss the ground, in line lengths.
const closeEnough = 1e-6

// In is how the rig stands when the wind at the height of measurement is this. The height of the balloon is the unknown: it
// decides the balloon's wind and so its drag, and a march down the line from the right height just reaches the ground.
//
// The height is sought by Brent's method in [0, line length], which always holds it: from the ground there is no wind and
// the line hangs below the ground; from the full length the line is at best just long enough. And it holds only one. With
// the drop ζ from the balloon as the coordinate, T = T_top − wζ and dT_x/dζ = q (1 − T_x²/T²), dT_z²/dζ = −2wT − 2q T_x T_z²/T².
// A balloon put higher has more D, a larger T_top and at every ζ a q that grows at least in proportion to D, because
// U(h − ζ)/U(h) grows with h; by comparison of these equations T is then larger and T_z smaller at every ζ, the line leans
// more everywhere, and drops less in its length. So what the line misses the ground by grows steadily with the height.
//
// In calm the line is vertical: height = length, T_ground = T_top − w length. The result is good to 1e-5 of the line's
// length. Where T_z would reach zero the error is ErrOnGround.
//
// Source: berteaux (statics of a line in a stream); hoerner (cross-flow principle).
func (r Rig) In(measured unit.Speed) (Solution, error) {
	s, _, err := r.stand(measured)
	return s, err
}

// stand also returns the march that reached the ground, for the line's shape.
func (r Rig) stand(measured unit.Speed) (Solution, march, error) {
	s, m, foot, err := r.settle(measured)
	if err == nil && foot.flat {
		err = fmt.Errorf("%w: %v of its %v in a wind of %v", ErrOnGround, unit.Length(m.length-foot.along), r.Line.Length, measured)
	}
	if err != nil {
		return Solution{}, march{}, err
	}
	return s, m, nil
}

// settle finds the height and hands out also the state whose lower end lies on the ground: searches need to know how far it
// is from standing.
func (r Rig) settle(measured unit.Speed) (Solution, march, footing, error) {
	if err := r.check(measured); err != nil {
		return Solution{}, march{}, footing{}, err
	}
	length := r.Line.Length.SI()
	var m march
	var foot footing
	miss := func(height float64) (float64, error) {
		m = r.from(height, measured)
		var ok bool
		if foot, ok = m.descend(math.Inf(1), nil); !ok {
			return 0, fmt.Errorf("%w: march from %v in a wind of %v", ErrNotConverge, unit.Length(height), measured)
		}
		miss := height - foot.drop
		if math.Abs(miss) < 1e-9*length {
			miss = 0 // rounding, in calm
		}
		return miss, nil
	}
	found, err := zero(miss, 0, length, 1e-7*length)
	if err != nil {
		return Solution{}, march{}, footing{}, err
	}
	missed, err := miss(found.best.x)
	if err != nil {
		return Solution{}, march{}, footing{}, err
	}
	if !(math.Abs(missed) <= closeEnough*length) {
		return Solution{}, march{}, footing{}, fmt.Errorf("%w: the line misses the ground by %v", ErrNotConverge, unit.Length(missed))
	}
	return r.solution(measured, &m, foot), m, foot, nil
}

// from sets out from an assumed height: at the top T_x is the balloon's drag and T_z its lift.
func (r Rig) from(height float64, measured unit.Speed) march {
	lift := r.Lift.Weight().SI()
	drag := r.Balloon.Drag(r.Air, r.Profile.At(unit.Length(height), measured)).SI()
	return march{
		height: height, length: r.Line.Length.SI(),
		tension: math.Hypot(drag, lift), angle: math.Atan2(drag, lift),
		weight: unit.Mass(r.Line.LinearMass.SI()).Weight().SI(),
		drag:   0.5 * r.Air.SI() * r.Line.DragCoefficient * r.Line.Diameter.SI() * measured.SI() * measured.SI(),
		metre:  r.Profile.MeasuredAt.SI(), twice: 2 * r.Profile.Exponent,
	}
}

func (r Rig) solution(measured unit.Speed, m *march, foot footing) Solution {
	wind := r.Profile.At(unit.Length(m.height), measured)
	ground := m.tension - m.weight*foot.drop
	sin, cos := math.Sincos(foot.angle)
	return Solution{
		Height: unit.Length(m.height), Drift: unit.Length(foot.drift), Lean: unit.Angle(math.Atan2(foot.drift, m.height)),
		WindAtBalloon: wind, BalloonDrag: r.Balloon.Drag(r.Air, wind),
		TensionTop: unit.Force(m.tension), TensionGround: unit.Force(ground),
		PullAcross: unit.Force(ground * sin), PullUp: unit.Force(ground * cos),
	}
}
