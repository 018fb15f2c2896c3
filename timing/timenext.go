package timing

import (
	"cmp"
	"slices"

	"headhours/timing/stepfit"
)

// mostTimeNext is how many steps are named as worth timing next.
const mostTimeNext = 5

// timeNext names the steps of a workflow that are most worth timing: gaps, then
// steps whose spread is not known by their hours, then the others by what they
// add to the answer's uncertainty: their variance and, where alike counts leave
// two extremes, the square of half the distance between them.
func (m *Models) timeNext(visits []Visit, loads linear) []string {
	type candidate struct {
		step, rank int
		weight     float64
	}
	var found []candidate
	for _, i := range inOrder(visits) {
		model := m.Steps[i].Model
		switch {
		case model == nil:
			found = append(found, candidate{step: i})
		case model.Basis == stepfit.NoSpread:
			found = append(found, candidate{i, 1, model.At(loads[i].Setups, loads[i].Count)})
		default:
			if w := doubt(model, loads[i]); w > 0 {
				found = append(found, candidate{i, 2, w})
			}
		}
	}
	slices.SortStableFunc(found, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.weight, a.weight))
	})
	names := []string{}
	for _, c := range found[:min(len(found), mostTimeNext)] {
		names = append(names, m.Study.Steps[c.step].Name)
	}
	return names
}

// doubt is what a step adds to the uncertainty of an answer, in seconds squared.
func doubt(model *stepfit.Model, load Load) float64 {
	d := model.Variance(load.Setups, load.Count)
	if model.Bracket != nil {
		half := (model.Fit.At(load.Setups, load.Count) - model.Bracket.At(load.Setups, load.Count)) / 2
		d += half * half
	}
	return d
}
