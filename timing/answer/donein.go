package answer

import "headhours/timing/condense"

// Done is what readings of one grow, step and day come to that count.
type Done struct {
	Step     string
	Day      condense.Day // NoDay of those without a date
	Readings int
	Count    float64
}

// DoneIn lists what was done in a grow, by step and day in order of first appearance. The
// error is that of reading the readings again.
func DoneIn(m *Models, grow string) ([]Done, error) {
	type key struct {
		step int
		day  condense.Day
	}
	var of condense.Index[key]
	var list []Done
	err := m.Each(func(_ int, b *condense.Batch, row int) {
		r := b.Rows.At(row)
		if b.Name(r, condense.GrowNames) != grow {
			return
		}
		step := m.Index[b.Name(r, condense.StepNames)] // before a change and since
		day := r.Day
		at := int(of.Of(key{step, day}))
		if at == len(list) {
			list = append(list, Done{Step: m.Steps[step].Step.Name, Day: day})
		}
		list[at].Readings++
		list[at].Count += r.Count
	})
	return list, err
}

// LastNames are the names that the last of all readings has; "" where it has none. The
// error is that of reading the readings again.
func LastNames(m *Models) (grow, workflow, worker string, err error) {
	err = m.Again(nil, func(b *condense.Batch) error {
		if n := b.Rows.Len(); n > 0 {
			r := b.Rows.At(n - 1)
			grow, workflow, worker = b.Name(r, condense.GrowNames), b.Name(r, condense.WorkflowNames), b.Name(r, condense.WorkerNames)
		}
		return nil
	})
	return grow, workflow, worker, err
}
