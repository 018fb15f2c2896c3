package answer

import (
	"math"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// tipsAtCV is how much a job done again may vary, as a coefficient of
// variation, before a difference can no longer be told from none: |difference|
// ÷ (z·√v), v its variance were every scatter that no reading shows that of a
// coefficient of variation of 1. It is unknown where readings show one.
func (m *Models) tipsAtCV(d linear) study.Maybe {
	timed, measured := false, false
	for i, load := range d {
		if s := &m.Steps[i]; !s.isGap() && !s.isJudged() && load != (stepfit.Load{}) {
			timed = true
			measured = measured || s.doubt.own > 0 || s.doubt.guess || m.options.Scatter == OwnScatter && !s.doubt.unknown
		}
	}
	if m.options.Scatter == OwnScatter {
		measured = true
		for i, load := range d {
			measured = measured && (!m.Steps[i].doubt.unknown || load == stepfit.Load{})
		}
	}
	if !timed || measured {
		return study.Maybe{}
	}
	small, large := m.bears(d, smaller), m.bears(d, larger)
	low := min(small.value, small.full, large.value, large.full)
	high := max(small.value, small.full, large.value, large.full)
	if low <= 0 && high >= 0 && low < high {
		return study.Known(0)
	}
	return study.Known(min(small.cv, large.cv))
}

// bearable is how much variation a difference bears, under one setting.
type bearable struct{ value, full, cv float64 }

func (m *Models) bears(d linear, s setting) bearable {
	var b bearable
	var variance float64
	for i, load := range m.allAsTheyAre(d) {
		if m.Steps[i].isGap() || (load == stepfit.Load{}) {
			continue
		}
		point, doubt := m.Steps[i].under(s, load)
		b.value += point.At(load)
		b.full += doubt.At(load)
		if !doubt.Judged() && doubt.own == 0 && !doubt.guess {
			variance += doubt.WithCV(1).Variance(load)
		}
	}
	z := stepfit.Quantile(m.Confidence, math.Inf(1))
	b.cv = abs(b.full) / (z * math.Sqrt(variance))
	return b
}
