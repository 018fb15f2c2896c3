package answer

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

// scaleOf is a power of two that brings x to between ½ and 1; 1 where x is 0.
func scaleOf(x float64) float64 {
	_, exponent := math.Frexp(x)
	return math.Ldexp(1, -exponent)
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
