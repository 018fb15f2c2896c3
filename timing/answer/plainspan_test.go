package answer

import "math"

type plainSpan struct{ value, low, high, nextLow, nextHigh, df, p float64 }

// span is in seconds; what is not known is NaN.
func (p *plainModels) span(c plainForm, visits []plainVisit) (s plainSpan) {
	point, small, large := p.answer(c, visits, 0), p.answer(c, visits, -1), p.answer(c, visits, 1)
	s = plainSpan{value: point.value, df: point.df}
	lowA, highA := p.limits(small, small.variance, small.df)
	lowB, highB := p.limits(large, large.variance, large.df)
	s.low, s.high = min(lowA, lowB), max(highA, highB)
	lowA, highA = p.limits(small, small.nextVar, small.nextDF)
	lowB, highB = p.limits(large, large.nextVar, large.nextDF)
	s.nextLow, s.nextHigh = min(lowA, lowB), max(highA, highB)
	if len(visits) == 0 {
		s.nextLow, s.nextHigh = s.low, s.high
	}
	s.p = max(plainP(small.full/math.Sqrt(small.variance), small.df), plainP(large.full/math.Sqrt(large.variance), large.df))
	for _, o := range []plainOutcome{small, large} {
		for _, x := range []float64{small.full, large.full, small.value, large.value} {
			if sign(x) != sign(o.value) || sign(x) != sign(o.full) {
				s.p = 1
			}
		}
	}
	if small.variance == 0 || large.variance == 0 {
		s.p = math.NaN()
	}
	if point.variance == 0 || math.IsInf(point.df, 0) {
		s.df = math.NaN()
	}
	if small.unknown || large.unknown || point.unknown {
		s.low, s.high, s.nextLow, s.nextHigh, s.df, s.p = math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()
	}
	return s
}

func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// aTime cuts limits at nothing.
func (s plainSpan) aTime() plainSpan {
	if s.value >= 0 {
		s.low, s.high, s.nextLow, s.nextHigh = max(s.low, 0), max(s.high, 0), max(s.nextLow, 0), max(s.nextHigh, 0)
	}
	return s
}

// tips is how much a job done again may vary; NaN where that is not given.
func (p *plainModels) tips(d plainForm) float64 {
	timed, shown, some := false, false, false
	for i, s := range p.steps {
		if len(s.rows) > 0 && d[i] != [2]float64{} {
			timed = true
			shown = shown || s.doubt.df > 0
			some = some || s.doubt.unknown
		}
	}
	if p.own && !some || !p.own && (!timed || shown) {
		return math.NaN()
	}
	var signs []int
	least := math.Inf(1)
	for _, setting := range []int{-1, 1} {
		var value, full, v float64
		for i := range p.steps {
			if p.steps[i].gap || d[i] == [2]float64{} {
				continue
			}
			point, f := p.under(i, setting, d[i])
			value, full = value+point.at(d[i][0], d[i][1]), full+f.at(d[i][0], d[i][1])
			if !f.judged && (!p.own || f.unknown) {
				f.setCV2(1)
				v += f.s2 * f.lever(d[i], d[i])
			}
		}
		signs = append(signs, sign(value), sign(full))
		least = min(least, math.Abs(full)/(plainQuantile(p.confidence, math.Inf(1))*math.Sqrt(v)))
	}
	for _, s := range signs {
		if s != signs[0] {
			return 0
		}
	}
	return least
}

// holds says whether the outer limits of d0 + d1·heads hold 0, t being given.
func (p *plainModels) holds(d0, d1 plainForm, heads, t float64) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, setting := range []int{-1, 1} {
		o := p.answer(d0.plus(d1, heads), nil, setting)
		half := t * math.Sqrt(max(o.variance, 0))
		low, high = min(low, o.full-half, o.value), max(high, o.full+half, o.value)
	}
	a, b := p.answer(d0, nil, 0), p.answer(d1, nil, 0)
	rounding := 1e-13 * (math.Abs(a.value) + heads*math.Abs(b.value))
	return low <= rounding && high >= -rounding
}

// readingsFor is the smallest number of readings that hold the mean to ± 10 %.
func (p *plainModels) readingsFor(f plainFit) int {
	mean := f.at(f.mBar, f.nBar)
	c := [2]float64{f.mBar, f.nBar}
	se := math.Sqrt(f.s2 * f.lever(c, c))
	for m := f.p + 1; m < 5000; m++ {
		df := float64(m - f.p)
		if !p.own {
			lent := max(3-df, 0)
			share := lent / (lent + df)
			df = 1 / (1/(lent+df) + share*share/p.df)
		}
		if plainQuantile(p.confidence, df)*se*math.Sqrt(float64(f.rows)/float64(m)) <= 0.10*mean {
			return m
		}
	}
	return 0
}
