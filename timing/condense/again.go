package condense

import (
	"slices"

	"headhours/timing/study"
)

// Each goes once more through the readings that the filter takes and that count, by
// step.
func (m *Condensed) Each(visit func(step int, b *Batch, row int)) error {
	var steps []int   // of each of a batch's What, -1 where it is not taken
	var places []bool // whether each of its Where is taken
	dated := m.Filter.isDated()
	return m.Again(func(b *Batch) error {
		steps, places = steps[:0], places[:0]
		for i := range b.What {
			step, ok := m.Index[b.Names[StepNames][b.What[i].Step]]
			if !ok || b.What[i].Flags&IsVoided != 0 || !m.Filter.takesWhat(b, &b.What[i]) {
				step = -1
			}
			steps = append(steps, step)
		}
		for i := range b.Where {
			places = append(places, m.Filter.takesWhere(b, &b.Where[i]))
		}
		days, where := b.Rows.Day, b.Rows.Where
		for i, what := range b.Rows.What {
			if step := steps[what]; step >= 0 && places[where[i]] && (!dated || m.Filter.takesDay(days[i])) {
				visit(m.stageOn(step, days[i]), b, i)
			}
		}
		return nil
	})
}

// VoidedReading is a reading that does not count, and why.
type VoidedReading struct {
	Step    string      `json:"step"`
	File    string      `json:"file"`
	Line    int         `json:"line"`
	Count   study.Maybe `json:"count"`  // unknown where it was never given
	Seconds float64     `json:"time_s"` // basic person-seconds
	Reason  string      `json:"reason"`
}

// Voided lists the readings that the filter takes and that do not count. The error is
// that of reading them again.
func (m *Condensed) Voided() ([]VoidedReading, error) {
	voided := []VoidedReading{}
	if !slices.ContainsFunc(m.Steps, func(s StepReadings) bool { return s.Voided > 0 }) {
		return voided, nil
	}
	err := m.Again(func(b *Batch) error {
		reasons := b.Voids
		for i := range b.Rows.Len() {
			r := b.Rows.At(i)
			what := &b.What[r.What]
			if what.Flags&IsVoided == 0 {
				continue
			}
			reason := reasons[0]
			reasons = reasons[1:]
			if m.Filter.Takes(b, r) {
				at := b.Place(r)
				voided = append(voided, VoidedReading{
					Step: b.Name(r, StepNames), File: at.File, Line: at.Line,
					Count: study.Known(r.Count), Seconds: what.Basic(r.Seconds), Reason: reason,
				})
			}
		}
		return nil
	})
	return voided, err
}
