package stepfit

import "math"

// Learning is a learning curve, t = First·n^Exponent: the time of the n-th doing
// falls, or rises, by the same factor with every doubling of n (Wright, Journal of
// the Aeronautical Sciences 3, 1936; of single doings rather than of their running
// mean, whose terms are not independent, it is Crawford's, 1944).
type Learning struct {
	First, Exponent float64
	SE, DF          float64 // of Exponent
}

// Learn fits a learning curve to the times, above 0, of doings numbered from 1: a
// straight line through their logarithms by least squares. False with fewer than
// three, or where all have one number.
func Learn(numbers, times []float64) (Learning, bool) {
	size := float64(len(times))
	var line centred
	for i, n := range numbers {
		line.add(1, [columns]float64{1, math.Log(n), math.Log(times[i])})
	}
	f := line.about
	if size < 3 || f.nn == 0 {
		return Learning{}, false
	}
	l := Learning{Exponent: f.nt / f.nn, DF: size - 2}
	l.First = math.Exp(line.mean[2] - l.Exponent*line.mean[1])
	l.SE = math.Abs(f.tt) / math.Sqrt(l.DF) / math.Abs(f.nn)
	return l, true
}

// Rate is the time after a doubling as a share of that before, 2^Exponent, with its
// limits at a confidence.
func (l Learning) Rate(confidence float64) (rate, low, high float64) {
	half := Quantile(confidence, l.DF) * l.SE
	return math.Exp2(l.Exponent), math.Exp2(l.Exponent - half), math.Exp2(l.Exponent + half)
}

// P is the two-sided probability of an exponent at least this far from 0.
func (l Learning) P() float64 { return TwoSided(l.Exponent/l.SE, l.DF) }
