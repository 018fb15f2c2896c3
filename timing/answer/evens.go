package answer

import (
	"math"
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// headsLine is a linear form that grows with the heads, fixed + each·heads, under one setting,
// in seconds: its point answer, that of the fits its doubts are told by, and their
// covariances.
type headsLine struct {
	fixed, each         float64
	fullFixed, fullEach float64
	vff, vfe, vee       float64
	unknown             bool
}

// lineUnder works out d0 + d1·heads under a setting for head numbers like the one given.
func (m *Models) lineUnder(d0, d1 linear, s setting, heads float64) headsLine {
	var l headsLine
	d0, d1 = m.allAsTheyAre(d0), m.allAsTheyAre(d1)
	at := d0.plus(d1, heads)
	c0, c1 := make([]float64, 2*len(d0)), make([]float64, 2*len(d0))
	for i := range m.Steps {
		step := &m.Steps[i]
		if step.isGap() || (d0[i] == stepfit.Load{}) && (d1[i] == stepfit.Load{}) {
			continue
		}
		point, doubt := step.under(s, at[i])
		a, b := d0[i], d1[i]
		l.fixed += point.At(a)
		l.each += point.At(b)
		l.fullFixed += doubt.At(a)
		l.fullEach += doubt.At(b)
		l.vff += doubt.CovarianceOf(a, a)
		l.vfe += doubt.CovarianceOf(a, b)
		l.vee += doubt.CovarianceOf(b, b)
		l.unknown = l.unknown || doubt.unknown && (doubt.Leverage(a) > 0 || doubt.Leverage(b) > 0)
		setup := step.Model.Bracket == nil || s.asSetup(step.Model, at[i])
		unit := step.Model.Bracket == nil || !setup
		c0[2*i], c1[2*i] = only(setup, a.Setups), only(setup, b.Setups)
		c0[2*i+1], c1[2*i+1] = only(unit, a.Count), only(unit, b.Count)
	}
	e := &m.effect
	l.vff += e.square * e.product(c0, c0)
	l.vfe += e.square * e.product(c0, c1)
	l.vee += e.square * e.product(c1, c1)
	return l
}

func only(when bool, x float64) float64 {
	if when {
		return x
	}
	return 0
}

// holds says whether the line's interval at a number of heads, stretched to hold its point
// answer, reaches down to 0 and up to it.
func (l headsLine) holds(heads, t float64) (down, up bool) {
	point, full := l.fixed+l.each*heads, l.fullFixed+l.fullEach*heads
	half := t * math.Sqrt(max(0, l.vff+2*heads*l.vfe+heads*heads*l.vee))
	return min(point, full-half) <= 0, max(point, full+half) >= 0
}

// edges are the head numbers at which holds may change.
func (l headsLine) edges(t float64) []float64 {
	edges := crossings(l.fullFixed, l.fullEach, l.vff, l.vfe, l.vee, t)
	return append(edges, -l.fixed/l.each)
}

// crossings are where (A + B·H)² = t²(V_AA + 2H·V_AB + H²·V_BB) (Fieller, Journal of the Royal
// Statistical Society B 16, 1954).
func crossings(a, b, vaa, vab, vbb, t float64) []float64 {
	// by powers of two, so that no square or product of squares is beyond a float64
	byA, byB := scaleOf(max(abs(a), t*math.Sqrt(vaa))), scaleOf(max(abs(b), t*math.Sqrt(vbb)))
	a, vaa, vab, b, vbb = a*byA, vaa*byA*byA, vab*byA*byB, b*byB, vbb*byB*byB
	back := byB / byA
	c2, c1, c0 := b*b-t*t*vbb, a*b-t*t*vab, a*a-t*t*vaa
	if c2 == 0 {
		return []float64{-c0 / (2 * c1) * back}
	}
	discriminant := c1*c1 - c2*c0
	if c2 < 0 && discriminant <= 1e-12*c1*c1 { // none, or no more than rounding leaves
		return nil
	}
	// below zero by rounding alone where c2 > 0: −A/B is always in the set
	r1, r2 := roots(c2, c1, c0, math.Sqrt(max(discriminant, 0)))
	return []float64{r1 * back, r2 * back}
}

// breakEven finds where two workflows take the same time, b − a = A + B·heads
// being zero; what is rounded up in hours is half a unit more here.
func (m *Models) breakEven(a, b *comparedWorkflow) BreakEven {
	return m.crossing(b.fixed.minus(a.fixed), b.perHead.minus(a.perHead))
}

// crossing finds where d0 + d1·heads is zero: the set of head numbers above 0 at which the
// outer limits of the two settings of bracketed steps hold 0.
func (m *Models) crossing(d0, d1 linear) (even BreakEven) {
	point := m.lineUnder(d0, d1, asModelled, 1)
	even.Fixed, even.PerHead = point.fixed*m.perHour(), point.each*m.perHour()
	if root := -point.fixed / point.each; root > 0 {
		even.Heads = study.Known(root)
	}
	even.HeadsAsSetup = m.crossingAsSetup(d0, d1)
	if point.unknown {
		return even
	}
	t := stepfit.Quantile(m.Confidence, m.crossingDF(d0, d1))
	even.Kind, even.Low, even.High = m.notRuledOut(d0, d1, t)
	return even
}

// crossingAsSetup is the crossing with every bracketed step taken as all setup; unknown
// where none differs.
func (m *Models) crossingAsSetup(d0, d1 linear) study.Maybe {
	var fixed, each float64
	differs := false
	d0, d1 = m.allAsTheyAre(d0), m.allAsTheyAre(d1)
	for i := range m.Steps {
		if m.Steps[i].isGap() || (d0[i] == stepfit.Load{}) && (d1[i] == stepfit.Load{}) {
			continue
		}
		fit := m.Steps[i].Model.Fit
		if other := m.Steps[i].Model.Bracket; other != nil {
			fit, differs = *other, true
		}
		fixed += fit.At(d0[i])
		each += fit.At(d1[i])
	}
	if root := -fixed / each; differs && root > 0 {
		return study.Known(root)
	}
	return study.Maybe{}
}

// vanishing is the share of the parts' variance below which a sum's is rounding.
const vanishing = 1e-18

// crossingDF is the degrees of freedom of d0 + d1·heads where it is zero, whatever its
// sign there; of d1 where d0 is zero, of d0 where d1 is.
func (m *Models) crossingDF(d0, d1 linear) float64 {
	fixed, each := m.evaluate(workload{loads: d0}, asModelled), m.evaluate(workload{loads: d1}, asModelled)
	v00, df0 := fixed.mean.total()
	v11, df1 := each.mean.total()
	switch {
	case each.value == 0:
		return df0
	case fixed.value == 0:
		return df1
	}
	// Where one coefficient makes up both, the variance at the crossing is what rounding
	// leaves, and says nothing of degrees of freedom: those of d1 are its own.
	ratio := -fixed.value / each.value
	v, df := m.evaluate(workload{loads: d0.plus(d1, ratio)}, asModelled).mean.total()
	if v00 == 0 || v > vanishing*(v00+ratio*ratio*v11) {
		return df
	}
	return df1
}

// notRuledOut is the set of head numbers above 0 whose limits hold 0, in pieces as its kind
// has them.
func (m *Models) notRuledOut(d0, d1 linear, t float64) (kind BreakEvenKind, low, high study.Maybe) {
	return reaches(m.turns(d0, d1), t, func(heads float64) []headsLine {
		return []headsLine{m.lineUnder(d0, d1, smaller, heads), m.lineUnder(d0, d1, larger, heads)}
	})
}

// reaches is the set of head numbers above 0 at which the outer limits of lines hold 0.
// Which lines they are may change at the cuts.
func reaches(cuts []float64, t float64, lines func(heads float64) []headsLine) (kind BreakEvenKind, low, high study.Maybe) {
	edges := slices.Clone(cuts)
	for i := range len(cuts) + 1 {
		for _, l := range lines(between(cuts, i)) {
			edges = append(edges, l.edges(t)...)
		}
	}
	edges = slices.DeleteFunc(edges, func(h float64) bool { return !(h > 0) || math.IsInf(h, 0) })
	slices.Sort(edges)
	edges = slices.Compact(edges)
	return kindOf(pieces(edges, func(heads float64) bool {
		down, up := false, false
		for _, l := range lines(heads) {
			d, u := l.holds(heads, t)
			down, up = down || d, up || u
		}
		return down && up
	}))
}

// turns are the head numbers at which a bracketed step takes as long by the one extreme as
// by the other, in rising order.
func (m *Models) turns(d0, d1 linear) []float64 {
	var cuts []float64
	d0, d1 = m.allAsTheyAre(d0), m.allAsTheyAre(d1)
	for i := range m.Steps {
		if m.Steps[i].isGap() || m.Steps[i].Model.Bracket == nil {
			continue
		}
		unit, setup := m.Steps[i].Model.Fit, m.Steps[i].Model.Bracket
		fixed := difference(unit.At(d0[i]), setup.At(d0[i]))
		each := difference(unit.At(d1[i]), setup.At(d1[i]))
		if root := -fixed / each; root > 0 && !math.IsInf(root, 0) {
			cuts = append(cuts, root)
		}
	}
	slices.Sort(cuts)
	return slices.Compact(cuts)
}

// between is a number between two of a rising list above 0, by the index of the second.
func between(list []float64, i int) float64 {
	switch {
	case len(list) == 0:
		return 1
	case i == 0:
		return list[0] / 2
	case i == len(list):
		return 2 * list[i-1]
	}
	return (list[i-1] + list[i]) / 2
}

// sameHeads is the share of a number of heads that is rounding.
const sameHeads = 1e-12

// headsRange is head numbers from low to high, 0 and infinity among them.
type headsRange struct{ low, high float64 }

// pieces are those of the numbers above 0 that are inside, given all at which that may
// change, in rising order. A crossing at which nothing varies is a piece of its own.
func pieces(edges []float64, inside func(float64) bool) []headsRange {
	var found []headsRange
	add := func(low, high float64) {
		if last := len(found) - 1; last >= 0 && low-found[last].high <= sameHeads*low {
			found[last].high = high
			return
		}
		found = append(found, headsRange{low, high})
	}
	for i := range len(edges) + 1 {
		low, high := 0.0, math.Inf(1)
		if i > 0 {
			low = edges[i-1]
			if inside(low) {
				add(low, low)
			}
		}
		if i < len(edges) {
			high = edges[i]
		}
		if inside(between(edges, i)) {
			add(low, high)
		}
	}
	return found
}

// kindOf tells the kind of a set in pieces. One in more pieces than its kind has is taken
// whole.
func kindOf(p []headsRange) (kind BreakEvenKind, low, high study.Maybe) {
	if len(p) == 0 {
		return Never, study.Maybe{}, study.Maybe{}
	}
	first, last := p[0], p[len(p)-1]
	switch {
	case !math.IsInf(last.high, 1):
		return Interval, study.Known(first.low), study.Known(last.high)
	case first.low > 0:
		return Outside, study.Maybe{}, study.Known(first.low)
	case len(p) == 2:
		return Outside, study.Known(first.high), study.Known(last.low)
	}
	return Everywhere, study.Maybe{}, study.Maybe{}
}
