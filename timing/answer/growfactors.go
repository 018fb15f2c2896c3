package answer

import (
	"cmp"
	"slices"
	"strings"

	"headhours/timing/condense"
)

// GrowFactor is how long the steps of one grow took, as factors of what their models
// expect: 1.1 is a tenth longer.
type GrowFactor struct {
	Grow  string
	Day   condense.Day // of its first reading; NoDay where none has a date
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
	var index condense.Index[string]
	var grows []GrowFactor
	var times, expected []float64
	firstDays := m.growDays()
	for _, s := range m.Steps {
		if s.Readings == 0 || s.Kinds.Joined {
			continue
		}
		names, tallies := s.Kinds.Tallies(byGrow.nameIn)
		for i, name := range names {
			t := tallies[i]
			fitted := s.Model.At(t.Load)
			if name == "" || !(fitted > 0) {
				continue
			}
			at := int(index.Of(name))
			if at == len(grows) {
				grows = append(grows, GrowFactor{Grow: name, Day: firstDays[name]})
				times, expected = append(times, 0), append(expected, 0)
			}
			grows[at].Steps = append(grows[at].Steps, StepFactor{s.Step.Name, t.Readings, t.Seconds / fitted})
			times[at] += t.Seconds
			expected[at] += fitted
		}
	}
	for i := range grows {
		grows[i].All = times[i] / expected[i]
	}
	slices.SortStableFunc(grows, func(a, b GrowFactor) int {
		return cmp.Or(b2i(a.Day == condense.NoDay)-b2i(b.Day == condense.NoDay), cmp.Compare(a.Day, b.Day), strings.Compare(a.Grow, b.Grow))
	})
	return grows
}
