package tether

import "math"

// A point of the line on the way down from the balloon.
type point struct {
	angle float64 // of the line from the vertical, rad
	drop  float64 // below the balloon, m
	drift float64 // upwind of the balloon, m
}

// A march is one way down the line from an assumed height of the balloon. With f = q cos²θ the drag across the line and
// q = ½ ρ C_n D U(z)², the balance of forces on a piece of line going down is
//
//	dT_x/ds = f cos θ,  dT_z/ds = −(w + f sin θ).
//
// Resolved along and across the line, with tan θ = T_x/T_z and T² = T_x² + T_z², the same two equations read
//
//	dT/ds = −w cos θ, so that T = T_top − w · drop,  and  dθ/ds = (f + w sin θ)/T.
//
// The tension is greatest at the balloon and θ only grows on the way down; T_z ≤ 0 shows first at the lower end.
type march struct {
	height  float64 // assumed, m
	length  float64
	tension float64 // at the top, N
	angle   float64 // at the top, rad
	weight  float64 // of the line, N/m
	drag    float64 // q at the measured wind, N/m
	metre   float64 // height of measurement
	twice   float64 // 2α
}

// slope is the derivative along the line; false where the line would have to push.
func (m *march) slope(p point) (point, bool) {
	tension := m.tension - m.weight*p.drop
	if !(tension > 0) {
		return point{}, false
	}
	sin, cos := math.Sincos(p.angle)
	var q float64
	if z := m.height - p.drop; z > 0 {
		q = m.drag * math.Exp(m.twice*math.Log(z/m.metre))
	}
	return point{(q*cos*cos + m.weight*sin) / tension, cos, sin}, true
}

const (
	marchTolerance = 1e-7 // of each step, in radians and in line lengths
	mostSteps      = 5000
)

// The embedded pair of orders 5 and 4 by Dormand and Prince, J. Comp. Appl. Math. 6 (1980) 19-26, table 2.
var (
	stages = [7][6]float64{
		{},
		{1. / 5},
		{3. / 40, 9. / 40},
		{44. / 45, -56. / 15, 32. / 9},
		{19372. / 6561, -25360. / 2187, 64448. / 6561, -212. / 729},
		{9017. / 3168, -355. / 33, 46732. / 5247, 49. / 176, -5103. / 18656},
		{35. / 384, 0, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84},
	}
	fault = [7]float64{71. / 57600, 0, -71. / 16695, 71. / 1920, -17253. / 339200, 22. / 525, -1. / 40}
)

// A footing is where a march ended: at the end of the line, or where the line has turned flat.
type footing struct {
	point
	along float64 // how much line was marched
	flat  bool
}

// descend marches down the line in steps that keep their own error within marchTolerance, and visits where each step
// ends. It is false when the steps shrink to nothing.
//
// Source: dormand-prince.
func (m *march) descend(longest float64, visit func(point)) (footing, bool) {
	at := point{angle: m.angle}
	var k [7]point
	k[0], _ = m.slope(at) // where the line would have to push from the first, so it would in every step
	s, step := 0.0, math.Min(m.length/8, longest)
	for range mostSteps {
		last := s+step >= m.length*(1-1e-12)
		if last {
			step = m.length - s
		}
		next, wrong := m.step(at, step, &k)
		if !(wrong <= 1) {
			step *= shrink(wrong)
			continue
		}
		if next.angle >= math.Pi/2 {
			flat, part, ok := m.flatten(at, step, k)
			return footing{flat, s + part, true}, ok
		}
		if visit != nil {
			visit(next)
		}
		if last {
			return footing{next, m.length, false}, true
		}
		s += step
		at, k[0] = next, k[6]
		step = math.Min(step*math.Min(5, 0.9*math.Pow(wrong+1e-10, -0.2)), longest)
	}
	return footing{}, false
}

// step makes one step and says by how many times its error exceeds the tolerance; Inf when the line would have to push.
func (m *march) step(from point, step float64, k *[7]point) (to point, wrong float64) {
	for i := 1; i < len(stages); i++ {
		to = from
		for j, weight := range stages[i][:i] {
			to.angle += step * weight * k[j].angle
			to.drop += step * weight * k[j].drop
			to.drift += step * weight * k[j].drift
		}
		var ok bool
		if k[i], ok = m.slope(to); !ok {
			return to, math.Inf(1)
		}
	}
	var e point
	for j, weight := range fault {
		e.angle += weight * k[j].angle
		e.drop += weight * k[j].drop
		e.drift += weight * k[j].drift
	}
	far := math.Max(math.Abs(e.drop), math.Abs(e.drift)) / m.length
	return to, step * math.Max(math.Abs(e.angle), far) / marchTolerance
}

// flatten finds the part of a step at whose end the line has turned flat.
func (m *march) flatten(from point, step float64, k [7]point) (to point, part float64, ok bool) {
	found, err := zero(func(part float64) (float64, error) {
		to, _ := m.step(from, part, &k)
		return to.angle - math.Pi/2, nil
	}, 0, step, 1e-10*m.length)
	to, _ = m.step(from, found.best.x, &k)
	return to, found.best.x, err == nil
}

func shrink(wrong float64) float64 {
	if math.IsNaN(wrong) || infinite(wrong) {
		return 0.25
	}
	return math.Max(0.2, 0.9*math.Pow(wrong, -0.2))
}
