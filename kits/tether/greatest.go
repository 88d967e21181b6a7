package tether

import (
	"fmt"

	"hoistbook/kits/unit"
)

// A WindLimit is the greatest wind that a station bears, and the criterion that more wind would break first.
type WindLimit struct {
	Wind  unit.Speed // at the height of measurement
	Binds Criterion
}

// No wind beyond the strongest is searched for, and a limit is narrowed to within a tenth of a millimetre a second.
const (
	strongest   unit.Speed = 100
	speedWithin unit.Speed = 1e-4
)

// GreatestWind is the largest measured wind in which the lean and the height hold (mean wind, lift at the end), the line
// stays off the ground (gust, lift at the end) and the tension holds (gust, initial lift). More wind never raises the balloon, never slackens the line, so that there is one such
// wind; the search keeps a bracket of one wind that holds and one that does not, and answers with the one that holds. Only
// off the ground can a line come again in more wind: then the answer is the wind that first brings it down.
//
// The error is ErrNone when even calm fails or when no wind to 100 m/s breaks a criterion.
func (s Station) GreatestWind() (WindLimit, error) {
	if err := s.check(); err != nil {
		return WindLimit{}, err
	}
	tight, err := s.margin(0)
	if err != nil {
		return WindLimit{}, err
	}
	if tight.by < 0 {
		return WindLimit{}, none("even in calm the %s does not hold", tight.tight)
	}
	holds, fails := unit.Speed(0), unit.Speed(4)
	for ; ; holds, fails = fails, 2*fails {
		if tight, err = s.margin(fails); err != nil {
			return WindLimit{}, err
		}
		if tight.by < 0 {
			break
		}
		if fails > strongest {
			return WindLimit{}, none("no wind to %v breaks a criterion", strongest)
		}
	}
	limit, err := s.first(holds, fails)
	if err != nil {
		return WindLimit{}, err
	}
	grounded, err := s.grounds(limit.Wind)
	if err != nil || grounded == limit.Wind {
		return limit, err
	}
	return s.first(0, grounded)
}

// first narrows a bracket of a wind that holds and one that fails.
func (s Station) first(holds, fails unit.Speed) (WindLimit, error) {
	found, err := zero(func(wind float64) (float64, error) {
		m, err := s.margin(unit.Speed(wind))
		return m.by, err
	}, holds.SI(), fails.SI(), speedWithin.SI())
	if err != nil {
		return WindLimit{}, err
	}
	tight, err := s.margin(unit.Speed(found.best.x))
	return WindLimit{unit.Speed(found.notNegative()), tight.tight}, err
}

// margin is that of the demand in the mean wind and of the working load in the gust.
func (s Station) margin(measured unit.Speed) (margin, error) {
	tight, err := s.Demand.margin(s.Rig, measured)
	if err != nil || tight.by <= -1 {
		return tight, err
	}
	gust := s.gust(measured)
	if !s.Rig.staysUp(gust) {
		_, m, foot, err := s.settle(gust)
		if err != nil {
			return margin{}, err
		}
		tight = tight.with(m.clearance(foot), OffGround)
	}
	peak, _, _, err := s.fresh().settle(gust)
	if err != nil {
		return margin{}, err
	}
	return tight.with(1-peak.TensionTop.SI()/s.WorkingLoad.SI(), WithinLoad), nil
}

func (s Station) check() error {
	switch {
	case !(s.GustFactor >= 1) || infinite(s.GustFactor):
		return fmt.Errorf("%w: gust factor of %v; it must be finite and at least 1", ErrInput, s.GustFactor)
	case !(s.WorkingLoad > 0) || infinite(s.WorkingLoad):
		return fmt.Errorf("%w: working load of %v; it must be finite and above zero", ErrInput, s.WorkingLoad)
	case !(s.InitialLift >= s.Lift):
		return fmt.Errorf("%w: initial lift of %v; it must be at least the %v left at the end", ErrInput, s.InitialLift, s.Lift)
	}
	return s.Demand.check()
}
