package stepfit

import "math"

const (
	// blockSize is how many readings are taken in together.
	blockSize = 1024
	// carefulSize is how many of them are where sums would lose digits.
	carefulSize = 128
)

// TakeIn takes in readings, given by their setups, counts and basic person-seconds, as
// many of each, see Add: several times as quick as one at a time, and as many digits.
func (s *Sums) TakeIn(setups, counts, times []float64) {
	for len(counts) > 0 {
		n := min(len(counts), blockSize)
		s.takeIn(setups[:n], counts[:n], times[:n])
		setups, counts, times = setups[n:], counts[n:], times[n:]
	}
}

// Block takes readings into Sums many at a time, as TakeIn does: the last with Take.
type Block struct {
	Sums                  *Sums
	n                     int
	setups, counts, times [carefulSize]float64
}

// Add takes in a reading, with others.
func (b *Block) Add(r Reading) {
	b.setups[b.n], b.counts[b.n], b.times[b.n] = r.Setups, r.Count, r.Seconds
	if b.n++; b.n == len(b.counts) {
		b.Take()
	}
}

// Take takes in those that were added and are not in the sums yet.
func (b *Block) Take() {
	b.Sums.TakeIn(b.setups[:b.n], b.counts[:b.n], b.times[:b.n])
	b.n = 0
}

func (s *Sums) takeIn(setups, counts, times []float64) {
	var l blockLook
	l.at(setups, counts, times)
	if !l.usual() {
		for i, count := range counts {
			s.Add(Load{Setups: setups[i], Count: count}, times[i])
		}
		return
	}
	if s.Readings == 0 {
		s.CountMin = l.countMin
	}
	s.CountMin, s.CountMax = min(s.CountMin, l.countMin), max(s.CountMax, l.countMax)
	s.secondMax, s.setupsMax = max(s.secondMax, l.timeMax), max(s.setupsMax, l.setupsMax)
	s.Readings += len(counts)
	s.load.Count += l.counts[plain+1]
	s.logCounts += l.logs
	if l.setupsMin == l.setupsMax {
		s.load.Setups += float64(len(counts)) * setups[0]
		s.addVisits(len(counts), l.countMin/setups[0], l.countMax/setups[0])
	} else {
		for i, count := range counts {
			s.load.Setups += setups[i]
			s.addVisits(1, count/setups[i], count/setups[i])
		}
	}
	for q := range Spreads {
		if some, exact := l.centred(q); exact {
			s.centred[q].merge(some)
			continue
		}
		for from := 0; from < len(counts); from += carefulSize {
			to := min(from+carefulSize, len(counts))
			s.centred[q].merge(centredOf(q, setups[from:to], counts[from:to], times[from:to]))
		}
	}
}

// blockLook is what is seen of readings in one pass.
type blockLook struct {
	setupsMin, setupsMax float64
	countMin, countMax   float64
	timeMin, timeMax     float64
	logs                 float64 // Σ ln n
	ratio                float64 // of the first time and count
	// Sums of powers of the counts, and of those times what the times are beyond the
	// ratio × the count, and times its square: plain is where the power 0 stands.
	counts  [Spreads + 2]float64
	beyond  [Spreads + 1]float64
	squares [Spreads]float64
}

// plain is the index of the power 0; that of the weights of a spread q is as much lower.
const plain = Spreads - 1

// at looks at readings, in passes that each keep to the registers there are.
func (l *blockLook) at(setups, counts, times []float64) {
	l.setupsMin, l.setupsMax = bounds(setups)
	l.timeMin, l.timeMax = bounds(times)
	countMin, countMax := counts[0], counts[0]
	var n, nn float64
	product := 1.0
	for _, count := range counts {
		n += count
		nn += count * count
		if product *= count; product > 1e200 || product < 1e-200 {
			l.logs += math.Log(product)
			product = 1
		}
		if count < countMin {
			countMin = count
		} else if count > countMax {
			countMax = count
		}
	}
	l.logs += math.Log(product)
	l.countMin, l.countMax = countMin, countMax

	times = times[:len(counts)]
	ratio := times[0] / counts[0]
	var n2, n1, y2, y1, y0, yn, yy2, yy1, yy0 float64
	for i, count := range counts {
		y, weight := times[i]-ratio*count, 1/count
		yw := y * weight
		n1 += weight
		n2 += weight * weight
		y0 += y
		y1 += yw
		y2 += yw * weight
		yn += y * count
		yy0 += y * y
		yy1 += y * yw
		yy2 += yw * yw
	}
	l.counts = [...]float64{n2, n1, float64(len(counts)), n, nn}
	l.ratio, l.beyond, l.squares = ratio, [...]float64{y2, y1, y0, yn}, [...]float64{yy2, yy1, yy0}
}

// bounds are the least and the greatest of some numbers.
func bounds(list []float64) (least, most float64) {
	least, most = list[0], list[0]
	for _, x := range list {
		if x < least {
			least = x
		} else if x > most {
			most = x
		}
	}
	return least, most
}

// usual says that the squares of all numbers, and of their inverses, are numbers too: no
// lap's setups of 0, no count of getting ready alone.
func (l *blockLook) usual() bool {
	return min(l.setupsMin, l.countMin, l.timeMin) > 1e-70 && max(l.setupsMax, l.countMax, l.timeMax) < 1e70
}

// maxLost is by how much a difference of sums may be less than they are: two digits.
const maxLost = 0.01

// centred is what was seen, with the weights of a spread: with w the weights, x the
// counts about their mean and y what is beyond the ratio, Σwx² = Σwn² − (Σwn)²/Σw and so
// on. False where setups differ, or where such differences would lose digits.
func (l *blockLook) centred(q int) (some centred, exact bool) {
	at := plain - q
	w, n, nn := l.counts[at], l.counts[at+1], l.counts[at+2]
	y, yn, yy := l.beyond[at], l.beyond[at+1], l.squares[at]
	mean, meanY := n/w, y/w
	xx, xy, rest := nn-n*mean, yn-mean*y, yy-y*meanY
	if l.countMin == l.countMax {
		xx, xy = 0, 0
	}
	some = centred{weight: w, mean: [columns]float64{l.setupsMin, mean, l.ratio*mean + meanY}}
	if xx != 0 {
		norm := math.Sqrt(xx)
		some.about[4], some.about[5] = norm, l.ratio*norm+xy/norm
		rest -= xy * xy / xx
	}
	some.about[8] = math.Sqrt(max(rest, 0))
	return some, l.setupsMin == l.setupsMax && (xx == 0 || xx > maxLost*nn) && (yy == 0 || rest > maxLost*yy)
}

// centredOf is readings with the weights of a spread: the triangular factor of what is
// about their mean by modified Gram–Schmidt, which is as good as Householder's (Björck,
// BIT 7, 1967).
func centredOf(q int, setups, counts, times []float64) (some centred) {
	var about [columns][carefulSize]float64
	var roots [carefulSize]float64
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
	return some
}

func dot(x, y []float64) float64 {
	var sum float64
	for i, v := range x {
		sum += v * y[i]
	}
	return sum
}
