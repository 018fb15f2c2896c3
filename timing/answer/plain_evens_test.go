package answer_test

import (
	"math"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/study"
)

// breakEven tries head numbers from next to none to a thousand million, and halves what is
// between them. The ends that the answer has are tried too, so that no thin piece is passed
// over; an end that agrees with what is found is given as the answer has it, since where a
// limit crosses 0 at a sharp angle rounding tells.
func (p *plain) breakEven(a, b study.Workflow, got answer.BreakEven) tree {
	fixedA, eachA := p.line(a, p.study.SowEveryDays)
	fixedB, eachB := p.line(b, p.study.SowEveryDays)
	d0, d1 := less(fixedB, fixedA), less(eachB, eachA)
	row := tree{"kind": nil, "heads": nil, "low": nil, "high": nil, "heads_as_setup": nil}
	root := p.crossing(d0, d1, asUnit)
	if root > 0 {
		row["heads"] = root
	}
	for i, s := range p.steps {
		differs := s.setup != nil && (d0[i] != [2]float64{} || d1[i] != [2]float64{})
		if other := p.crossing(d0, d1, asSetup); differs && other > 0 {
			row["heads_as_setup"] = other
		}
	}
	at0, at1 := p.value(d0, nil, asUnit), p.value(d1, nil, asUnit)
	if at0.unknown || at1.unknown {
		return row
	}
	df := at0.df
	if at1.point != 0 {
		at := p.value(d0.plus(d1, root), nil, asUnit)
		if df = at.df; at0.point == 0 || at.variance < 1e-18*(at0.variance+root*root*at1.variance) {
			df = at1.df // all of one time: what is left of its variance is rounding
		}
	}
	if math.IsNaN(df) {
		df = math.Inf(1) // nothing varies
	}
	t := quantile(p.confidence, df)
	inside := func(h float64) bool { return p.holdsNothing(d0, d1, h, t) }
	kind, low, high := setOf(inside, got)
	row["kind"], row["low"], row["high"] = kind, agreed(low, got.Low), agreed(high, got.High)
	return row
}

// agreed is an end as the answer has it where that is within what bisecting can tell.
func agreed(end float64, got study.Maybe) any {
	switch {
	case math.IsNaN(end):
		return nil
	case got.Known && abs(got.Value-end) <= 1e-7*(1e-6+abs(end)):
		return got.Value
	}
	return end
}

// crossing is −A/B.
func (p *plain) crossing(d0, d1 aForm, setting int) float64 {
	return -p.value(d0, nil, setting).point / p.value(d1, nil, setting).point
}

// holdsNothing says whether the outer limits of d0 + d1·heads hold 0, t being given.
func (p *plain) holdsNothing(d0, d1 aForm, heads, t float64) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, setting := range []int{smaller, larger} {
		o := p.value(d0.plus(d1, heads), nil, setting)
		half := t * math.Sqrt(max(o.variance, 0))
		low, high = min(low, o.full-half, o.point), max(high, o.full+half, o.point)
	}
	a, b := p.value(d0, nil, asUnit), p.value(d1, nil, asUnit)
	rounding := 1e-13 * (abs(a.point) + heads*abs(b.point))
	return low <= rounding && high >= -rounding
}

// setOf is a set of heads above 0 as an answer words it.
func setOf(inside func(float64) bool, got answer.BreakEven) (kind string, low, high float64) {
	const least, most = 1e-7, 1e9
	at := []float64{least, most}
	for h := least; h < most; h *= 1.2 {
		at = append(at, h)
	}
	for _, m := range []study.Maybe{got.Low, got.High, got.Heads, got.HeadsAsSetup} {
		if m.Known && m.Value > least && m.Value < most {
			at = append(at, m.Value)
		}
	}
	if got.Low.Known && got.High.Known {
		at = append(at, (got.Low.Value+got.High.Value)/2) // a thin hole
	}
	slices.Sort(at)
	var ends []float64
	for i := range at[1:] {
		below, above, first := at[i], at[i+1], inside(at[i])
		if inside(above) == first {
			continue
		}
		for range 60 {
			if middle := (below + above) / 2; inside(middle) == first {
				below = middle
			} else {
				above = middle
			}
		}
		ends = append(ends, above)
	}
	nan := math.NaN()
	fromNothing, forEver := inside(least), inside(most)
	switch {
	case len(ends) == 0 && fromNothing:
		return "everywhere", nan, nan
	case len(ends) == 0:
		return "none", nan, nan
	case fromNothing && forEver && len(ends) != 2:
		return "everywhere", nan, nan // in more pieces than its kind has
	case fromNothing && forEver:
		return "outside", ends[0], ends[1]
	case forEver:
		return "outside", nan, ends[0]
	case fromNothing:
		return "interval", 0, ends[len(ends)-1]
	}
	return "interval", ends[0], ends[len(ends)-1]
}
