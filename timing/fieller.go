package timing

import "math"

// BreakEvenKind says what the set of head numbers at which two workflows may
// take the same time looks like; "" where it is not known.
type BreakEvenKind string

// The kinds of a break-even.
const (
	Interval   BreakEvenKind = "interval"   // from low to high
	Outside    BreakEvenKind = "outside"    // up to low, or from high on
	Everywhere BreakEvenKind = "everywhere" // no number of heads shows a difference
	Never      BreakEvenKind = "none"       // one is quicker at every scale
)

// fieller is the set of H above 0 with (A + B·H)² ≤ t²(V_AA + 2H·V_AB +
// H²·V_BB), the confidence set of the ratio −A/B (Fieller, Journal of the Royal
// Statistical Society B 16, 1954).
func fieller(a, b, vaa, vab, vbb, t float64) (kind BreakEvenKind, low, high Maybe) {
	// by powers of two, so that no square or product of squares is beyond a float64
	byA, byB := scaleOf(max(abs(a), t*math.Sqrt(vaa))), scaleOf(max(abs(b), t*math.Sqrt(vbb)))
	a, vaa, vab, b, vbb = a*byA, vaa*byA*byA, vab*byA*byB, b*byB, vbb*byB*byB
	kind, low, high = unitFieller(a, b, vaa, vab, vbb, t)
	return kind, low.Times(byB / byA), high.Times(byB / byA)
}

// scaleOf is a power of two that brings x to between ½ and 1; 1 where x is 0.
func scaleOf(x float64) float64 {
	_, exponent := math.Frexp(x)
	return math.Ldexp(1, -exponent)
}

func unitFieller(a, b, vaa, vab, vbb, t float64) (kind BreakEvenKind, low, high Maybe) {
	// the set is where c2·H² + 2·c1·H + c0 is not above 0
	c2, c1, c0 := b*b-t*t*vbb, a*b-t*t*vab, a*a-t*t*vaa
	if c2 == 0 {
		return straightSet(c1, c0)
	}
	discriminant := c1*c1 - c2*c0
	if c2 < 0 && discriminant <= 1e-12*c1*c1 { // none, or no more than rounding leaves
		return Everywhere, Maybe{}, Maybe{}
	}
	// below zero by rounding alone where c2 > 0: −A/B is always in the set
	r1, r2 := roots(c2, c1, c0, math.Sqrt(max(discriminant, 0)))
	switch {
	case c2 > 0 && r2 <= 0:
		return Never, Maybe{}, Maybe{}
	case c2 > 0:
		return Interval, Known(max(r1, 0)), Known(r2)
	case r2 <= 0:
		return Everywhere, Maybe{}, Maybe{}
	case r1 <= 0:
		return Outside, Maybe{}, Known(r2)
	}
	return Outside, Known(r1), Known(r2)
}

// roots are those of c2·x² + 2·c1·x + c0 in rising order, without taking a
// difference of like numbers; root is that of the discriminant.
func roots(c2, c1, c0, root float64) (r1, r2 float64) {
	q := -(c1 + math.Copysign(root, c1))
	r1 = q / c2
	r2 = r1
	if q != 0 {
		r2 = c0 / q
	}
	return min(r1, r2), max(r1, r2)
}

// straightSet is the set where 2·c1·H + c0 is not above 0.
func straightSet(c1, c0 float64) (kind BreakEvenKind, low, high Maybe) {
	switch root := -c0 / (2 * c1); {
	case c1 == 0 && c0 <= 0, c1 < 0 && root <= 0:
		return Everywhere, Maybe{}, Maybe{}
	case c1 == 0, c1 > 0 && root <= 0:
		return Never, Maybe{}, Maybe{}
	case c1 > 0:
		return Interval, Known(0), Known(root)
	default:
		return Outside, Maybe{}, Known(root)
	}
}
