package crop

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
)

// MaxCells is the largest number of cells that Assured looks at: with ten times as
// many, rounding in the distribution's tail would move the answer by some cells.
const MaxCells = 1 << 32

// Assured is the smallest number of cells that gives at least so many heads
// with a probability of at least assurance (above 0, below 1), each cell giving
// one or none independently of the others, with the chance p·Π(1 − share) of
// the sowing. Where germination comes from a test, that probability is averaged
// over what the test leaves open, g ~ Beta(came up + ½, of − came up + ½)
// (Jeffreys' prior; the same g for all cells, so a beta-binomial at one seed a
// cell). False where even MaxCells are not enough.
func (s Propagation) Assured(heads int, assurance float64, g Germination) (cells int, ok bool) {
	chances := s.chances(g)
	enough := func(n int) bool { return chances.atLeast(heads, n) >= assurance }
	low, high := heads-1, heads // too few, enough: doubled, then halved
	for !enough(high) {
		if high >= MaxCells {
			return 0, false
		}
		low, high = high, min(2*high, MaxCells)
	}
	for high-low > 1 {
		if middle := low + (high-low)/2; enough(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high, true
}

// chance is a chance of a cell to give a head, and how likely it is to be so.
type chance struct{ cell, weight float64 }

type chances []chance

// atLeast is the probability of at least so many heads from n cells: the upper
// tail of the binomial distribution as an incomplete beta function (Abramowitz
// and Stegun, 26.5.24), averaged over the chances.
func (cs chances) atLeast(heads, n int) float64 {
	var sum float64
	for _, c := range cs {
		switch {
		case heads <= 0 || c.cell >= 1:
			sum += c.weight
		case c.cell > 0:
			sum += c.weight * mathext.RegIncBeta(float64(heads), float64(n-heads+1), c.cell)
		}
	}
	return sum
}

func (s Propagation) chances(g Germination) chances {
	at := func(share float64) float64 {
		s.Germination = share
		return s.FilledShare() * s.SurvivingShare(math.MaxInt)
	}
	if g.Of == 0 {
		return chances{{at(g.Share), 1}}
	}
	angles, weights := posterior(float64(g.CameUp)+0.5, float64(g.Of-g.CameUp)+0.5)
	cs := make(chances, len(angles))
	for i, angle := range angles {
		sine := math.Sin(angle)
		cs[i] = chance{at(sine * sine), weights[i]}
	}
	return cs
}

// posterior is a quadrature of Beta(a, b), a and b at least ½, in the angle θ of
// g = sin²θ, in which the density is smooth up to both ends and about as wide
// everywhere: 2·sin^(2a−1)θ·cos^(2b−1)θ / B(a, b), with a standard deviation
// near 1/(2√(a + b)). Gauss–Legendre on panels over ten of these to each side;
// weights are scaled to sum to 1.
func posterior(a, b float64) (angles, weights []float64) {
	const panels, points, reach = 48, 12, 10
	centre, sd := math.Asin(math.Sqrt(a/(a+b))), 1/(2*math.Sqrt(a+b))
	low, high := max(0, centre-reach*sd), min(math.Pi/2, centre+reach*sd)
	width := (high - low) / panels
	peak := math.Inf(-1)
	logs := make([]float64, 0, panels*points)
	x, w := make([]float64, points), make([]float64, points)
	for i := range panels {
		quad.Legendre{}.FixedLocations(x, w, low+float64(i)*width, low+float64(i+1)*width)
		for j := range x {
			l := (2*a-1)*math.Log(math.Sin(x[j])) + (2*b-1)*math.Log(math.Cos(x[j])) + math.Log(w[j])
			angles, logs = append(angles, x[j]), append(logs, l)
			peak = max(peak, l)
		}
	}
	var sum float64
	for _, l := range logs {
		weights = append(weights, math.Exp(l-peak))
		sum += weights[len(weights)-1]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return angles, weights
}
