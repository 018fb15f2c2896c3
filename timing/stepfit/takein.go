package stepfit

import "math"

const (
	// blockSize is how many readings are taken in together.
	blockSize = 1024
	// carefulSize is how many of them are where sums would lose digits.
	carefulSize = 128
	// manyAlike is from how many readings of the least setups on they are taken in by themselves, if
	// they are one in so many or more.
	manyAlike, oneIn = 8, 8
)

// TakeIn takes in readings, see Add: several times as quick as one at a time, and as many
// digits. Those whose setups differ may be in another order afterwards.
func (s *Sums) TakeIn(readings []Reading) {
	for len(readings) > 0 { // slices.Chunk would have them on the heap
		some := min(blockSize, len(readings))
		s.takeIn(readings[:some])
		readings = readings[some:]
	}
}

// Block takes readings into Sums many at a time, as TakeIn does: the last with Take.
type Block struct {
	Sums     *Sums
	n        int
	readings [carefulSize]Reading
}

// Add takes in a reading, with others.
func (b *Block) Add(r Reading) {
	b.readings[b.n] = r
	if b.n++; b.n == len(b.readings) {
		b.Take()
	}
}

// Take takes in those that were added and are not in the sums yet.
func (b *Block) Take() {
	b.Sums.TakeIn(b.readings[:b.n])
	b.n = 0
}

func (s *Sums) takeIn(readings []Reading) {
	var l blockLook
	if l.setups(readings); l.setupsMin < l.setupsMax {
		if alike := leastFirst(readings, l.setupsMin); alike >= max(manyAlike, len(readings)/oneIn) {
			s.takeIn(readings[:alike])
			s.takeIn(readings[alike:])
			return
		}
	}
	l.at(readings)
	l.besideLine(readings)
	if !l.usual() {
		for _, r := range readings {
			s.Add(r.Load, r.Seconds)
		}
		return
	}
	if s.Readings == 0 {
		s.CountMin = l.countMin
	}
	s.CountMin, s.CountMax = min(s.CountMin, l.countMin), max(s.CountMax, l.countMax)
	s.secondMax, s.setupsMax = max(s.secondMax, l.timeMax), max(s.setupsMax, l.setupsMax)
	s.Readings += len(readings)
	s.load.Count += l.counts[plain+1]
	s.logCounts += l.logs
	if l.setupsMin == l.setupsMax {
		s.load.Setups += float64(len(readings)) * l.setupsMin
		s.addVisits(len(readings), l.countMin/l.setupsMin, l.countMax/l.setupsMin)
	} else {
		for _, r := range readings {
			s.load.Setups += r.Setups
			s.addVisits(1, r.Count/r.Setups, r.Count/r.Setups)
		}
	}
	for q := range Spreads {
		if some, exact := l.centred(q); exact {
			s.centred[q].merge(some)
			continue
		}
		for from := 0; from < len(readings); from += carefulSize {
			s.centred[q].merge(centredOf(q, readings[from:min(from+carefulSize, len(readings))]))
		}
	}
}

// blockLook is what is seen of readings.
type blockLook struct {
	setupsMin, setupsMax float64
	countMin, countMax   float64
	timeMin, timeMax     float64
	logs                 float64 // Σ ln n
	slope, above         float64 // of the line that times are seen beside, see besideLine
	// Sums of powers of the counts, and of those times what the times are beyond the
	// line, and times its square: plain is where the power 0 stands.
	counts  [Spreads + 2]float64
	beyond  [Spreads + 1]float64
	squares [Spreads]float64
}

// plain is the index of the power 0; that of the weights of a spread q is as much lower.
const plain = Spreads - 1

// setups looks at the least and the greatest setups.
func (l *blockLook) setups(readings []Reading) {
	least := readings[0].Setups
	most := least
	for i := range readings {
		if x := readings[i].Setups; x < least {
			least = x
		} else if x > most {
			most = x
		}
	}
	l.setupsMin, l.setupsMax = least, most
}

// at looks at readings, all but their setups and what they are beside a line.
func (l *blockLook) at(readings []Reading) {
	first := &readings[0]
	l.countMin, l.timeMin = first.Count, first.Seconds
	l.countMax, l.timeMax = first.Count, first.Seconds
	for some := readings; len(some) > 0; {
		seen, product := l.bounds(some)
		l.logs += math.Log(product)
		some = some[seen:]
	}
}

// leastFirst brings readings to the front that have the least setups, and says how many they are.
// It goes on in the same way behind each, since which these are cannot be foreseen.
func leastFirst(readings []Reading, setups float64) (alike int) {
	for i, r := range readings {
		readings[i], readings[alike] = readings[alike], r
		isLeast := 0
		if r.Setups == setups {
			isLeast = 1
		}
		alike += isLeast
	}
	return alike
}

// bounds looks at the least and the greatest, and at the powers of the counts, of readings
// whose counts' product is a number. Loops such as this call nothing, and keep to the registers.
// Which are the least cannot be foreseen: they are found without branches, by the bits of the numbers,
// whose order is the same (IEEE 754), but among those below 0, which are not usual in any order.
func (l *blockLook) bounds(readings []Reading) (seen int, product float64) {
	countMin, timeMin := bitsOf(l.countMin), bitsOf(l.timeMin)
	countMax, timeMax := bitsOf(l.countMax), bitsOf(l.timeMax)
	n, nn := l.counts[plain+1], l.counts[plain+2]
	product = 1
	for ; seen < len(readings) && product < 1e200 && product > 1e-200; seen++ {
		r := &readings[seen]
		time, count := bitsOf(r.Seconds), bitsOf(r.Count)
		timeMin, timeMax = min(timeMin, time), max(timeMax, time)
		countMin, countMax = min(countMin, count), max(countMax, count)
		n += r.Count
		nn += r.Count * r.Count
		product *= r.Count
	}
	l.countMin, l.timeMin = ofBits(countMin), ofBits(timeMin)
	l.countMax, l.timeMax = ofBits(countMax), ofBits(timeMax)
	l.counts[plain+1], l.counts[plain+2] = n, nn
	return seen, product
}

func bitsOf(x float64) int64    { return int64(math.Float64bits(x)) }
func ofBits(bits int64) float64 { return math.Float64frombits(uint64(bits)) }

// besideLine sums what times are beyond a line through the least count and time, as steep as the
// greatest: little, where they go by the count, so that sums of its squares keep their digits.
func (l *blockLook) besideLine(readings []Reading) {
	l.slope = l.timeMax / l.countMax
	l.above = l.timeMin - l.slope*l.countMin
	slope, above := l.slope, l.above
	var n2, n1, y2, y1, y0, yn, yy2, yy1, yy0 float64
	for i := range readings {
		count := readings[i].Count
		weight := 1 / count
		n1 += weight
		n2 += weight * weight
		y := readings[i].Seconds - slope*count - above
		yn += y * count
		y0 += y
		yy0 += y * y
		weighted := y * weight
		y2 += weighted * weight
		y1 += weighted
		yy1 += y * weighted
		yy2 += weighted * weighted
	}
	l.counts[plain-2], l.counts[plain-1], l.counts[plain] = n2, n1, float64(len(readings))
	l.beyond, l.squares = [...]float64{y2, y1, y0, yn}, [...]float64{yy2, yy1, yy0}
}

// usual says that the squares of all numbers, and of their inverses, are numbers too: no
// lap's setups of 0, no count of getting ready alone.
func (l *blockLook) usual() bool {
	return min(l.setupsMin, l.countMin, l.timeMin) > 1e-70 && max(l.setupsMax, l.countMax, l.timeMax) < 1e70
}

// maxLost is by how much a difference of sums may be less than they are: two digits.
const maxLost = 0.01

// centred is what was seen, with the weights of a spread: with w the weights, x the
// counts about their mean and y what is beyond the line, Σwx² = Σwn² − (Σwn)²/Σw and so
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
	some = centred{weight: w, mean: [columns]float64{l.setupsMin, mean, l.above + l.slope*mean + meanY}}
	if xx != 0 {
		norm := math.Sqrt(xx)
		some.about.nn, some.about.nt = norm, l.slope*norm+xy/norm
		rest -= xy * xy / xx
	}
	some.about.tt = math.Sqrt(max(rest, 0))
	return some, l.setupsMin == l.setupsMax && (xx == 0 || xx > maxLost*nn) && (yy == 0 || rest > maxLost*yy)
}

// centredOf is readings with the weights of a spread: the triangular factor of what is
// about their mean by modified Gram–Schmidt, which is as good as Householder's (Björck,
// BIT 7, 1967).
func centredOf(q int, readings []Reading) (some centred) {
	var about [columns][carefulSize]float64
	var roots [carefulSize]float64
	for i, r := range readings {
		w := weight(q, r.Count)
		some.weight += w
		for j, x := range [columns]float64{r.Setups, r.Count, r.Seconds} {
			some.mean[j] += w * x
			about[j][i] = x
		}
		roots[i] = math.Sqrt(w)
	}
	for j := range columns {
		some.mean[j] /= some.weight
		for i := range readings {
			about[j][i] = roots[i] * (about[j][i] - some.mean[j])
		}
	}
	var f [columns]vector // its rows
	for j := range columns {
		column := about[j][:len(readings)]
		norm := math.Sqrt(dot(column, column))
		if norm == 0 {
			continue
		}
		f[j][j] = norm
		for k := j + 1; k < columns; k++ {
			other := about[k][:len(readings)]
			along := dot(column, other) / norm
			f[j][k] = along
			for i, x := range column {
				other[i] -= along / norm * x
			}
		}
	}
	some.about = triangle{f[0][0], f[0][1], f[0][2], f[1][1], f[1][2], f[2][2]}
	return some
}

func dot(x, y []float64) float64 {
	var sum float64
	for i, v := range x {
		sum += v * y[i]
	}
	return sum
}
