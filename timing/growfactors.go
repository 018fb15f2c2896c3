package timing

import (
	"cmp"
	"slices"
	"strings"
)

// GrowFactor is how long the steps of one grow took, as factors of what their models
// expect: 1.1 is a tenth longer.
type GrowFactor struct {
	Grow  string
	Day   Day // of its first reading; NoDay where none has a date
	All   float64
	Steps []StepFactor // in the study's order
}

// StepFactor is that of one step.
type StepFactor struct {
	Step     string
	Readings int
	Factor   float64
}

// GrowFactors are the factors of all grows that readings name, in order of their first
// dates, those without behind them. A step that is no longer told apart by grow has no part.
func (m *Models) GrowFactors() []GrowFactor {
	index := map[string]int{}
	var grows []GrowFactor
	var took, expected []float64
	for _, s := range m.Steps {
		if s.Readings == 0 || s.kinds.overflow {
			continue
		}
		names, sums := s.kinds.by(ByGrow.of)
		for i, name := range names {
			setups, count, seconds := sums[i].Totals()
			fitted := s.Model.At(setups, count)
			if name == "" || !(fitted > 0) {
				continue
			}
			at := number(index, name)
			if at == len(grows) {
				grows = append(grows, GrowFactor{Grow: name, Day: NoDay})
				took, expected = append(took, 0), append(expected, 0)
			}
			grows[at].Steps = append(grows[at].Steps, StepFactor{s.Step.Name, sums[i].Readings, seconds / fitted})
			took[at] += seconds
			expected[at] += fitted
		}
	}
	for i := range grows {
		grows[i].All = took[i] / expected[i]
	}
	m.dateGrows(grows, index)
	slices.SortStableFunc(grows, func(a, b GrowFactor) int {
		return cmp.Or(b2i(a.Day == NoDay)-b2i(b.Day == NoDay), cmp.Compare(a.Day, b.Day), strings.Compare(a.Grow, b.Grow))
	})
	return grows
}

// dateGrows gives grows the day of their first reading.
func (m *Models) dateGrows(grows []GrowFactor, index map[string]int) {
	for _, s := range m.Steps {
		for _, k := range s.kinds.list {
			at, known := index[k.grow]
			if known && k.first != NoDay && (grows[at].Day == NoDay || k.first < grows[at].Day) {
				grows[at].Day = k.first
			}
		}
	}
}
