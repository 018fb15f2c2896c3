package stepfit

import "math"

// Spreads are the values that a spread q may take: the variance of a reading
// grows with count^q.
const spreads = 3

// Sums is what the readings of a step come to. The zero value holds none. Sums
// of two sets of readings can be merged; the order does not matter beyond the
// last digits.
type Sums struct {
	Readings           int
	CountMin, CountMax float64
	setups, counts     float64 // plain sums
	visits, laps       int     // readings with and without a setup
	ratioMin, ratioMax float64 // of count per setup, over the visits
	secondMax          float64
	logCounts          float64 // Σ ln n, of counts above 0
	zeroCounts         int     // readings with a count of 0
	factor             [spreads]factor
	level              [spreads]level
}

// Add takes in a reading: how often the step was set up in it (0 or more), the
// count it covered (0 or more, one of the two above 0) and its basic
// person-seconds (above 0).
func (s *Sums) Add(setups, count, seconds float64) {
	if s.Readings == 0 {
		s.CountMin, s.CountMax = count, count
	}
	s.Readings++
	s.CountMin, s.CountMax = min(s.CountMin, count), max(s.CountMax, count)
	s.secondMax = max(s.secondMax, seconds)
	s.setups += setups
	s.counts += count
	if setups > 0 {
		s.visit(1, count/setups, count/setups)
	} else {
		s.laps++
	}
	if count > 0 {
		s.logCounts += math.Log(count)
	} else {
		s.zeroCounts++
	}
	for q := range spreads {
		if q > 0 && count == 0 {
			continue // a weight without bound: spread 1 and 2 are not used then
		}
		root := math.Pow(count, -float64(q)/2)
		s.factor[q].add([3]float64{root * setups, root * count, root * seconds})
		s.level[q].add(root*root, seconds)
	}
}

// visit takes in readings with a setup, by the range of their counts per setup.
func (s *Sums) visit(readings int, least, most float64) {
	if s.visits == 0 {
		s.ratioMin, s.ratioMax = least, most
	}
	s.visits += readings
	s.ratioMin, s.ratioMax = min(s.ratioMin, least), max(s.ratioMax, most)
}

// CountPerSetup is the range of counts per setup that was timed, laps left out;
// false where all readings are laps.
func (s Sums) CountPerSetup() (least, most float64, ok bool) {
	return s.ratioMin, s.ratioMax, s.visits > 0
}

// Merge takes in all readings of another Sums.
func (s *Sums) Merge(o Sums) {
	if o.Readings == 0 {
		return
	}
	if s.Readings == 0 {
		*s = o
		return
	}
	s.Readings += o.Readings
	s.CountMin, s.CountMax = min(s.CountMin, o.CountMin), max(s.CountMax, o.CountMax)
	s.secondMax = max(s.secondMax, o.secondMax)
	s.laps += o.laps
	if o.visits > 0 {
		s.visit(o.visits, o.ratioMin, o.ratioMax)
	}
	s.setups += o.setups
	s.counts += o.counts
	s.logCounts += o.logCounts
	s.zeroCounts += o.zeroCounts
	for q := range spreads {
		for _, row := range o.factor[q] {
			s.factor[q].add(row)
		}
		s.level[q].merge(o.level[q])
	}
}

// MeanSetups is the plain mean of the readings' setups, 0 without readings.
func (s Sums) MeanSetups() float64 { return s.mean(s.setups) }

// MeanCount is the plain mean of the readings' counts, 0 without readings.
func (s Sums) MeanCount() float64 { return s.mean(s.counts) }

func (s Sums) mean(sum float64) float64 {
	if s.Readings == 0 {
		return 0
	}
	return sum / float64(s.Readings)
}

// factor is the triangular factor R of the weighted rows (m, n, t), R'R their
// matrix of squares and products. Keeping R rather than R'R keeps twice the
// digits: its last entry is the root of the residual sum of squares itself,
// not a small difference of large numbers.
//
// Rows are taken in by Givens rotations (Golub and Van Loan, Matrix
// Computations, 4th ed., sections 5.1.8 and 6.5.3).
type factor [3][3]float64

func (f *factor) add(row [3]float64) {
	for i := range row {
		if row[i] == 0 {
			continue
		}
		r := math.Hypot(f[i][i], row[i])
		c, s := f[i][i]/r, row[i]/r
		for j := i; j < len(row); j++ {
			f[i][j], row[j] = c*f[i][j]+s*row[j], c*row[j]-s*f[i][j]
		}
	}
}

// column is one of the factor's columns: 0 the setups, 1 the counts, 2 the times.
func (f *factor) column(j int) vector { return vector{f[0][j], f[1][j], f[2][j]} }

type vector [3]float64

func (v vector) dot(w vector) float64 { return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] }

func (v vector) minus(f float64, w vector) vector {
	return vector{v[0] - f*w[0], v[1] - f*w[1], v[2] - f*w[2]}
}

// level is a weighted mean and the sum of squares about it, updated and merged
// as by Chan, Golub and LeVeque (The American Statistician 37, 1983).
type level struct{ weight, mean, squares float64 }

func (l *level) add(weight, x float64) { l.merge(level{weight: weight, mean: x}) }

func (l *level) merge(o level) {
	if o.weight == 0 {
		return
	}
	w, d := l.weight+o.weight, o.mean-l.mean
	l.squares += o.squares + d*d*l.weight*o.weight/w
	l.mean += d * o.weight / w
	l.weight = w
}
