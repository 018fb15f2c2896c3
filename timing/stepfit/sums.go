package stepfit

import "math"

// Spreads are the values that a spread q may take: the variance of a reading
// grows with count^q.
const Spreads = 3

// Sums is what the readings of a step come to. The zero value holds none. Sums
// of two sets of readings can be merged; the order does not matter beyond the
// last digits.
type Sums struct {
	Readings           int
	CountMin, CountMax float64
	load               Load    // plain sums
	visits, laps       int     // readings with and without a setup
	ratioMin, ratioMax float64 // of count per setup, over the visits
	secondMax          float64
	setupsMax          float64
	logCounts          float64 // Σ ln n, of counts above 0
	zeroCounts         int     // readings with a count of 0
	centred            [Spreads]centred
}

// Add takes in a reading: its load and its basic person-seconds (above 0).
func (s *Sums) Add(x Load, seconds float64) {
	setups, count := x.Setups, x.Count
	if s.Readings == 0 {
		s.CountMin, s.CountMax = count, count
	}
	s.Readings++
	s.CountMin, s.CountMax = min(s.CountMin, count), max(s.CountMax, count)
	s.secondMax, s.setupsMax = max(s.secondMax, seconds), max(s.setupsMax, setups)
	s.load = s.load.Plus(x)
	if setups > 0 {
		s.addVisits(1, count/setups, count/setups)
	} else {
		s.laps++
	}
	if count > 0 {
		s.logCounts += math.Log(count)
	} else {
		s.zeroCounts++
	}
	for q := range Spreads {
		if q > 0 && count == 0 {
			continue // a weight without bound: spread 1 and 2 are not used then
		}
		s.centred[q].add(weight(q, count), vector{setups, count, seconds})
	}
}

// weight is count^(−q).
func weight(q int, count float64) float64 {
	switch q {
	case 0:
		return 1
	case 1:
		return 1 / count
	default:
		return 1 / (count * count)
	}
}

// addVisits takes in readings with a setup, by the range of their counts per setup.
func (s *Sums) addVisits(readings int, minCount, maxCount float64) {
	if s.visits == 0 {
		s.ratioMin, s.ratioMax = minCount, maxCount
	}
	s.visits += readings
	s.ratioMin, s.ratioMax = min(s.ratioMin, minCount), max(s.ratioMax, maxCount)
}

// CountPerSetup is the range of counts per setup that was timed, laps left out;
// false where all readings are laps.
func (s Sums) CountPerSetup() (minCount, maxCount float64, ok bool) {
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
	s.secondMax, s.setupsMax = max(s.secondMax, o.secondMax), max(s.setupsMax, o.setupsMax)
	s.laps += o.laps
	if o.visits > 0 {
		s.addVisits(o.visits, o.ratioMin, o.ratioMax)
	}
	s.load = s.load.Plus(o.load)
	s.logCounts += o.logCounts
	s.zeroCounts += o.zeroCounts
	for q := range Spreads {
		s.centred[q].merge(o.centred[q])
	}
}

// Totals are the sums of the readings' loads and seconds.
func (s Sums) Totals() (x Load, seconds float64) {
	return s.load, s.centred[0].weight * s.centred[0].mean[2]
}

// Mean is the plain mean of the readings' loads, zero without readings.
func (s Sums) Mean() Load {
	if s.Readings == 0 {
		return Load{}
	}
	n := float64(s.Readings)
	return Load{Setups: s.load.Setups / n, Count: s.load.Count / n}
}

// columns are those of the readings' rows: setups, count and seconds.
const columns = 3

// centred is weighted rows about their own mean: its weight, the mean, and the
// triangular factor of what is about it. They are updated and merged as by Chan,
// Golub and LeVeque (The American Statistician 37, 1983).
type centred struct {
	weight float64
	mean   vector
	about  triangle
}

func (c *centred) add(weight float64, row vector) { c.about.rotateIn(c.join(weight, row)) }

func (c *centred) merge(o centred) {
	switch {
	case o.weight == 0:
		return
	case c.weight == 0:
		*c = o
		return
	}
	between := c.join(o.weight, o.mean)
	if !c.about.stack(&o.about, between) {
		for _, row := range []vector{{o.about.mm, o.about.mn, o.about.mt}, {0, o.about.nn, o.about.nt}, {0, 0, o.about.tt}, between} {
			c.about.rotateIn(row)
		}
	}
}

// join takes in the weight and the mean of others, and gives the row that stands for how far the
// two means are apart.
func (c *centred) join(weight float64, mean vector) (between vector) {
	total := c.weight + weight
	share := weight / total
	root := math.Sqrt(c.weight * share)
	for j := range mean {
		d := mean[j] - c.mean[j]
		c.mean[j] += d * share
		between[j] = root * d
	}
	c.weight = total
	return between
}

// factor is the triangular factor of the rows as they are, about zero.
func (c centred) factor() triangle {
	root := math.Sqrt(c.weight)
	c.about.rotateIn(c.mean.times(root))
	return c.about
}

// squares is the sum of squares of the times about their mean.
func (c centred) squares() float64 {
	t := c.about.times()
	return t.dot(t)
}

// triangle is a triangular factor of the weighted rows, see rotateIn: its rows are m, n and t, as its
// columns are of the setups, the counts and the times. What is below its diagonal is 0.
type triangle struct{ mm, mn, mt, nn, nt, tt float64 }

func (f triangle) setups() vector { return vector{f.mm, 0, 0} }
func (f triangle) counts() vector { return vector{f.mn, f.nn, 0} }
func (f triangle) times() vector  { return vector{f.mt, f.nt, f.tt} }

type vector [columns]float64

func (v vector) dot(w vector) float64 { return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] }

func (v vector) minus(f float64, w vector) vector {
	return vector{v[0] - f*w[0], v[1] - f*w[1], v[2] - f*w[2]}
}

func (v vector) times(f float64) vector { return vector{f * v[0], f * v[1], f * v[2]} }

func (v vector) plus(w vector) vector { return vector{v[0] + w[0], v[1] + w[1], v[2] + w[2]} }
