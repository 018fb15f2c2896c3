package stepfit

import "math"

// blockSize is how many readings are taken in together.
const blockSize = 128

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
	var c columnsOf
	c.look(setups, counts, times)
	if !c.usual() {
		for i, count := range counts {
			s.Add(setups[i], count, times[i])
		}
		return
	}
	if s.Readings == 0 {
		s.CountMin = counts[c.least]
	}
	s.CountMin, s.CountMax = min(s.CountMin, counts[c.least]), max(s.CountMax, counts[c.most])
	s.secondMax, s.setupsMax = max(s.secondMax, c.timeMax), max(s.setupsMax, c.setupsMax)
	s.Readings += len(counts)
	s.counts += c.sum
	s.logCounts += c.logs
	if c.setupsMin == c.setupsMax {
		s.setups += float64(len(counts)) * setups[0]
		s.visit(len(counts), counts[c.least]/setups[0], counts[c.most]/setups[0])
		s.takeInAlike(&c, setups[0], counts, times)
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

// columnsOf is what is seen of readings at a first look.
type columnsOf struct {
	inverses             [blockSize]float64 // of the counts
	weight1, weight2     float64            // sums of those and of their squares
	sum, logs            float64            // sums of the counts and of their logarithms
	least, most          int                // where the least and the greatest count stand
	countMin, countMax   float64
	timeMin, timeMax     float64
	setupsMin, setupsMax float64
}

func (c *columnsOf) look(setups, counts, times []float64) {
	setups, times = setups[:len(counts)], times[:len(counts)]
	setupsMin, countMin, timeMin := setups[0], counts[0], times[0]
	setupsMax, countMax, timeMax := setupsMin, countMin, timeMin
	var weight1, weight2, sum float64
	product, least, most := 1.0, 0, 0
	for i, n := range counts {
		inverse := 1 / n
		c.inverses[i&(blockSize-1)] = inverse
		weight1 += inverse
		weight2 += inverse * inverse
		sum += n
		if product *= n; product > 1e200 || product < 1e-200 {
			c.logs += math.Log(product)
			product = 1
		}
		if n < countMin {
			least, countMin = i, n
		} else if n > countMax {
			most, countMax = i, n
		}
		if m := setups[i]; m < setupsMin {
			setupsMin = m
		} else if m > setupsMax {
			setupsMax = m
		}
		if t := times[i]; t < timeMin {
			timeMin = t
		} else if t > timeMax {
			timeMax = t
		}
	}
	c.logs += math.Log(product)
	c.weight1, c.weight2, c.sum, c.least, c.most = weight1, weight2, sum, least, most
	c.countMin, c.countMax, c.timeMin, c.timeMax, c.setupsMin, c.setupsMax = countMin, countMax, timeMin, timeMax, setupsMin, setupsMax
}

// usual says that the squares of all numbers, and of their inverses, are numbers too: no
// lap's setups of 0, no count of getting ready alone.
func (c *columnsOf) usual() bool {
	return min(c.setupsMin, c.countMin, c.timeMin) > 1e-70 && max(c.setupsMax, c.countMax, c.timeMax) < 1e70
}

// takeInAlike is takeIn at all spreads for readings of the same setups, as most are. The
// sums are of counts about their mean at each spread and of times about the line through
// two readings far apart, so that few digits cancel.
func (s *Sums) takeInAlike(c *columnsOf, setups float64, counts, times []float64) {
	weights := [Spreads]float64{float64(len(counts)), c.weight1, c.weight2}
	means := [Spreads]float64{c.sum / weights[0], weights[0] / c.weight1, c.weight1 / c.weight2}
	from, height, slope := counts[c.least], times[c.least], 0.0
	if counts[c.most] > from {
		slope = (times[c.most] - height) / (counts[c.most] - from)
	}
	times = times[:len(counts)]
	mean0, mean1, mean2 := means[0], means[1], means[2]
	var y0, xx0, xy0, yy0, y1, xx1, xy1, yy1, y2, xx2, xy2, yy2 float64
	for i, n := range counts {
		inverse := c.inverses[i&(blockSize-1)]
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
		some := centred{weight: w, mean: [columns]float64{setups, means[q], height + slope*(means[q]-from) + meanY}}
		rest := yy[q] - y[q]*meanY
		if xx[q] > 0 {
			norm := math.Sqrt(xx[q])
			some.about[4], some.about[5] = norm, slope*norm+xy[q]/norm
			rest -= xy[q] * xy[q] / xx[q]
		}
		some.about[8] = math.Sqrt(max(rest, 0))
		s.centred[q].merge(some)
	}
}

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
