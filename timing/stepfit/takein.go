package stepfit

import "math"

// blockSize is how many readings are taken in together.
const blockSize = 256

// TakeIn takes in readings, given by their setups, counts and basic person-seconds, as
// many of each, see Add: several times as quick as one at a time, and as many digits.
func (s *Sums) TakeIn(setups, counts, times []float64) {
	for len(counts) > 0 {
		n := min(len(counts), blockSize)
		s.takeIn(setups[:n], counts[:n], times[:n])
		setups, counts, times = setups[n:], counts[n:], times[n:]
	}
}

func (s *Sums) takeIn(setups, counts, times []float64) {
	setupsMin, setupsMax, countMin, countMax, timeMin, timeMax := bounds(setups, counts, times)
	if !usual(setupsMin, setupsMax) || !usual(countMin, countMax) || !usual(timeMin, timeMax) {
		for i, count := range counts {
			s.Add(setups[i], count, times[i])
		}
		return
	}
	if s.Readings == 0 {
		s.CountMin = countMin
	}
	s.CountMin, s.CountMax = min(s.CountMin, countMin), max(s.CountMax, countMax)
	s.secondMax, s.setupsMax = max(s.secondMax, timeMax), max(s.setupsMax, setupsMax)
	s.Readings += len(counts)
	sum, product := 0.0, 1.0
	for _, count := range counts {
		sum += count
		product *= count
		if product > 1e200 || product < 1e-200 {
			s.logCounts += math.Log(product)
			product = 1
		}
	}
	s.counts += sum
	s.logCounts += math.Log(product)
	if setupsMin == setupsMax {
		s.setups += float64(len(counts)) * setupsMin
		s.visit(len(counts), countMin/setupsMin, countMax/setupsMin)
		s.takeInAlike(setupsMin, sum, counts, times)
		return
	}
	for i, count := range counts {
		s.setups += setups[i]
		s.visit(1, count/setups[i], count/setups[i])
	}
	for q := range Spreads {
		s.centred[q].takeIn(q, setups, counts, times)
	}
}

// takeInAlike is takeIn at all spreads for readings of the same setups, as most are, with
// the sum of their counts. The sums are of counts about their mean at each spread and of
// times about the line through two readings far apart, so that few digits cancel.
func (s *Sums) takeInAlike(setups, sum float64, counts, times []float64) {
	var inverses [blockSize]float64
	var weight1, weight2 float64
	least, most := 0, 0
	for i, n := range counts {
		inverse := 1 / n
		inverses[i&(blockSize-1)] = inverse
		weight1 += inverse
		weight2 += inverse * inverse
		if n < counts[least] {
			least = i
		}
		if n > counts[most] {
			most = i
		}
	}
	weights := [Spreads]float64{float64(len(counts)), weight1, weight2}
	means := [Spreads]float64{sum / weights[0], weights[0] / weight1, weight1 / weight2}
	from, height, slope := counts[least], times[least], 0.0
	if counts[most] > from {
		slope = (times[most] - height) / (counts[most] - from)
	}
	mean0, mean1, mean2 := means[0], means[1], means[2]
	var y0, xx0, xy0, yy0, y1, xx1, xy1, yy1, y2, xx2, xy2, yy2 float64
	for i, n := range counts {
		inverse := inverses[i&(blockSize-1)]
		y := times[i] - height - slope*(n-from)
		x, yw := n-mean0, inverse*y
		y0 += y
		xx0 += x * x
		xy0 += x * y
		yy0 += y * y
		x = n - mean1
		y1 += yw
		xx1 += inverse * x * x
		xy1 += x * yw
		yy1 += y * yw
		x = inverse * (n - mean2)
		y2 += inverse * yw
		xx2 += x * x
		xy2 += x * yw
		yy2 += yw * yw
	}
	y, xx, xy, yy := [Spreads]float64{y0, y1, y2}, [Spreads]float64{xx0, xx1, xx2}, [Spreads]float64{xy0, xy1, xy2}, [Spreads]float64{yy0, yy1, yy2}
	for q, w := range weights {
		meanY := y[q] / w
		c := centred{weight: w, mean: [columns]float64{setups, means[q], height + slope*(means[q]-from) + meanY}}
		rest := yy[q] - y[q]*meanY
		if xx[q] > 0 {
			norm := math.Sqrt(xx[q])
			c.about[4], c.about[5] = norm, slope*norm+xy[q]/norm
			rest -= xy[q] * xy[q] / xx[q]
		}
		c.about[8] = math.Sqrt(max(rest, 0))
		s.centred[q].merge(c)
	}
}

// bounds are the least and the greatest setups, counts and times.
func bounds(setups, counts, times []float64) (setupsMin, setupsMax, countMin, countMax, timeMin, timeMax float64) {
	setupsMin, countMin, timeMin = setups[0], counts[0], times[0]
	setupsMax, countMax, timeMax = setupsMin, countMin, timeMin
	setups, times = setups[:len(counts)], times[:len(counts)]
	for i, n := range counts {
		if m := setups[i]; m < setupsMin {
			setupsMin = m
		} else if m > setupsMax {
			setupsMax = m
		}
		if n < countMin {
			countMin = n
		} else if n > countMax {
			countMax = n
		}
		if t := times[i]; t < timeMin {
			timeMin = t
		} else if t > timeMax {
			timeMax = t
		}
	}
	return setupsMin, setupsMax, countMin, countMax, timeMin, timeMax
}

// usual says that the squares of numbers between two, and of their inverses, are numbers
// too: no lap's setups of 0, no count of getting ready alone.
func usual(least, most float64) bool { return least > 1e-70 && most < 1e70 }

// takeIn takes in rows, given by their columns, with the weights of a spread: the
// triangular factor of what is about their mean by modified Gram–Schmidt, which is as
// good as Householder's (Björck, BIT 7, 1967), merged with what was there.
func (c *centred) takeIn(q int, setups, counts, times []float64) {
	var some centred
	var about [columns][blockSize]float64
	var roots [blockSize]float64
	rows := [columns][]float64{setups, counts, times}
	for i, count := range counts {
		w := weight(q, count)
		some.weight += w
		for j := range columns {
			some.mean[j] += w * rows[j][i]
		}
		roots[i] = math.Sqrt(w)
	}
	for j := range columns {
		some.mean[j] /= some.weight
		for i := range counts {
			about[j][i] = roots[i] * (rows[j][i] - some.mean[j])
		}
	}
	for j := range columns {
		column := about[j][:len(counts)]
		norm := math.Sqrt(dot(column, column))
		if norm == 0 {
			continue
		}
		some.about[j*columns+j] = norm
		for k := j + 1; k < columns; k++ {
			other := about[k][:len(counts)]
			f := dot(column, other) / norm
			some.about[j*columns+k] = f
			for i, x := range column {
				other[i] -= f / norm * x
			}
		}
	}
	c.merge(some)
}

func dot(x, y []float64) float64 {
	var sum float64
	for i, v := range x {
		sum += v * y[i]
	}
	return sum
}
