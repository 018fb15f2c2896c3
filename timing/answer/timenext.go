package answer

import (
	"cmp"
	"slices"

	"headhours/timing/stepfit"
)

// maxTimeNext is how many steps are named as worth timing next.
const maxTimeNext = 5

// timeNext names the steps of a workflow that are most worth timing: gaps, then
// steps whose scatter is not known by their hours, then the others by what they
// add to the answer's uncertainty: their variance and, where alike counts leave
// two extremes, the square of half the distance between them.
func (m *Models) timeNext(visits []visit, loads linear) []string {
	type candidate struct {
		step, rank int
		weight     float64
	}
	var found []candidate
	for _, i := range inOrder(visits) {
		s := &m.Steps[i]
		switch {
		case s.isGap():
			found = append(found, candidate{step: i})
		case s.doubt.unknown:
			found = append(found, candidate{i, 1, m.takes(i, loads[i])})
		default:
			if w := s.adds(m.AsItIs(i, loads[i])); w > 0 {
				found = append(found, candidate{i, 2, w})
			}
		}
	}
	slices.SortStableFunc(found, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.weight, a.weight))
	})
	names := []string{}
	for _, c := range found[:min(len(found), maxTimeNext)] {
		names = append(names, m.Study.Steps[c.step].Name)
	}
	return names
}

// mostlyGrows says whether more of the variance of a linear form is of how much grows differ than of all its
// steps: of the one further readings of the grows there are tell little.
func (m *Models) mostlyGrows(loads linear) bool {
	mean := m.evaluate(workload{loads: loads}, asModelled).mean
	return m.effect.by == byGrow && !mean.unknown && mean.common*m.effect.square > mean.steps.variance
}

// adds is what a step adds to the uncertainty of an answer, in seconds squared.
func (s *StepModel) adds(load stepfit.Load) float64 {
	d := s.doubt.Variance(load)
	if other := s.Model.Bracket; other != nil {
		half := (s.Model.At(load) - other.At(load)) / 2
		d += half * half
	}
	return d
}
