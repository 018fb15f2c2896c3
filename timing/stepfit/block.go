package stepfit

import "math"

// blockSize is how many readings a Block holds.
const blockSize = 64

// Block gathers readings that are taken into a Sums together, which is several times
// as quick as one at a time and keeps as many digits.
type Block struct {
	size int
	rows [columns][blockSize]float64
}

// Add takes in a reading, see Sums.Add, and says whether the block is full.
func (b *Block) Add(setups, count, seconds float64) (full bool) {
	i := b.size & (blockSize - 1)
	b.rows[0][i], b.rows[1][i], b.rows[2][i] = setups, count, seconds
	b.size = i + 1
	return b.size == blockSize
}

// TakeIn takes in a block's readings and leaves it empty.
func (s *Sums) TakeIn(b *Block) {
	n := b.size
	b.size = 0
	setups, counts, times := b.rows[0][:n], b.rows[1][:n], b.rows[2][:n]
	if n == 0 {
		return
	}
	setupsMin, setupsMax := bounds(setups)
	countMin, countMax := bounds(counts)
	timeMin, timeMax := bounds(times)
	if !usual(setupsMin, setupsMax) || !usual(countMin, countMax) || !usual(timeMin, timeMax) {
		for i := range n {
			s.Add(setups[i], counts[i], times[i])
		}
		return
	}
	if s.Readings == 0 {
		s.CountMin = countMin
	}
	s.CountMin, s.CountMax = min(s.CountMin, countMin), max(s.CountMax, countMax)
	s.secondMax, s.setupsMax = max(s.secondMax, timeMax), max(s.setupsMax, setupsMax)
	s.Readings += n
	product := 1.0
	for _, count := range counts {
		s.counts += count
		product *= count
		if product > 1e200 || product < 1e-200 {
			s.logCounts += math.Log(product)
			product = 1
		}
	}
	s.logCounts += math.Log(product)
	if setupsMin == setupsMax {
		s.setups += float64(n) * setupsMin
		s.visit(n, countMin/setupsMin, countMax/setupsMin)
		s.takeInAlike(setupsMin, counts, times)
		return
	}
	for i, count := range counts {
		s.setups += setups[i]
		s.visit(1, count/setups[i], count/setups[i])
	}
	for q := range Spreads {
		s.centred[q].takeIn(q, b.rows[:], n)
	}
}

// takeInAlike is takeIn at all spreads for readings of the same setups, as most are:
// the weights and the sums of all spreads are worked out side by side.
func (s *Sums) takeInAlike(setups float64, counts, times []float64) {
	var weights, meanN, meanT, nn, nt, tt [Spreads]float64
	var roots [2][blockSize]float64 // of the weights at spreads 1 and 2
	times = times[:len(counts)]
	for i, n := range counts {
		t := times[i]
		inverse := 1 / n
		roots[0][i&(blockSize-1)], roots[1][i&(blockSize-1)] = math.Sqrt(inverse), inverse
		weights[1] += inverse
		weights[2] += inverse * inverse
		meanN[0] += n
		meanT[0] += t
		meanT[1] += inverse * t
		meanT[2] += inverse * inverse * t
	}
	size := float64(len(counts))
	weights[0], meanN[1], meanN[2] = size, size, weights[1]
	for q, w := range weights {
		meanN[q] /= w
		meanT[q] /= w
	}
	for i, n := range counts {
		t, one, two := times[i], roots[0][i&(blockSize-1)], roots[1][i&(blockSize-1)]
		n0, t0 := n-meanN[0], t-meanT[0]
		n1, t1 := one*(n-meanN[1]), one*(t-meanT[1])
		n2, t2 := two*(n-meanN[2]), two*(t-meanT[2])
		nn[0] += n0 * n0
		nt[0] += n0 * t0
		nn[1] += n1 * n1
		nt[1] += n1 * t1
		nn[2] += n2 * n2
		nt[2] += n2 * t2
	}
	var slope [Spreads]float64
	for q := range Spreads {
		if nn[q] > 0 {
			slope[q] = nt[q] / nn[q]
		}
	}
	for i, n := range counts {
		t, one, two := times[i], roots[0][i&(blockSize-1)], roots[1][i&(blockSize-1)]
		e0 := t - meanT[0] - slope[0]*(n-meanN[0])
		e1 := one * (t - meanT[1] - slope[1]*(n-meanN[1]))
		e2 := two * (t - meanT[2] - slope[2]*(n-meanN[2]))
		tt[0] += e0 * e0
		tt[1] += e1 * e1
		tt[2] += e2 * e2
	}
	for q := range Spreads {
		norm := math.Sqrt(nn[q])
		s.centred[q].merge(centred{
			weight: weights[q], mean: [columns]float64{setups, meanN[q], meanT[q]},
			about: [columns * columns]float64{4: norm, 5: slope[q] * norm, 8: math.Sqrt(tt[q])},
		})
	}
}

// bounds are the least and the greatest of some numbers.
func bounds(x []float64) (least, most float64) {
	least, most = x[0], x[0]
	for _, v := range x {
		if v < least {
			least = v
		}
		if v > most {
			most = v
		}
	}
	return least, most
}

// usual says that the squares of numbers between two, and of their inverses, are numbers
// too: no lap's setups of 0, no count of getting ready alone.
func usual(least, most float64) bool { return least > 1e-70 && most < 1e70 }

// takeIn takes in rows, given by their columns, with the weights of a spread: the
// triangular factor of what is about their mean by modified Gram–Schmidt, which is as
// good as Householder's (Björck, BIT 7, 1967), merged with what was there.
func (c *centred) takeIn(q int, rows [][blockSize]float64, n int) {
	var some centred
	var about [columns][blockSize]float64
	var roots [blockSize]float64
	counts := rows[1][:n]
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
		for i := range n {
			about[j][i] = roots[i] * (rows[j][i] - some.mean[j])
		}
	}
	for j := range columns {
		column := about[j][:n]
		norm := math.Sqrt(dot(column, column))
		if norm == 0 {
			continue
		}
		some.about[j*columns+j] = norm
		for k := j + 1; k < columns; k++ {
			other := about[k][:n]
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
