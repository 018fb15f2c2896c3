package condense

import (
	"slices"

	"headhours/timing/study"
)

// Each goes once more through the readings that the filter takes and that count, by
// step.
func (m *Condensed) Each(visit func(step int, b *Batch, row int)) error {
	return m.Again(nil, func(b *Batch) error {
		m.eachOf(b, visit)
		return nil
	})
}

// EachThat is Each of the readings of which something is true. That is asked on all cores, and
// in no order.
func (m *Condensed) EachThat(is func(step int, b *Batch, row int) bool, visit func(step int, b *Batch, row int)) error {
	look := func(b *Batch) {
		b.found = b.found[:0]
		m.eachOf(b, func(step int, b *Batch, row int) {
			if is(step, b, row) {
				b.found = append(b.found, foundRow{step, row})
			}
		})
	}
	return m.Again(look, func(b *Batch) error {
		for _, f := range b.found {
			visit(f.step, b, f.row)
		}
		return nil
	})
}

// foundRow is a row of a batch that is looked for, and its step.
type foundRow struct{ step, row int }

// eachOf goes through the readings of a batch.
func (m *Condensed) eachOf(b *Batch, visit func(step int, b *Batch, row int)) {
	steps := make([]int, len(b.What)) // -1 where it is not taken
	for i := range b.What {
		step, ok := m.Index[b.Names[StepNames][b.What[i].Step]]
		if !ok || b.What[i].Voided || !m.Filter.takesWhat(b, &b.What[i]) {
			step = -1
		}
		steps[i] = step
	}
	taken := make([]bool, len(b.Where))
	for i := range b.Where {
		taken[i] = m.Filter.takesWhere(b, &b.Where[i])
	}
	dated, days, where := m.Filter.isDated(), b.Rows.Day, b.Rows.Where
	for i, what := range b.Rows.What {
		if step := steps[what]; step >= 0 && taken[where[i]] && (!dated || m.Filter.takesDay(days[i])) {
			visit(m.stageOn(step, days[i]), b, i)
		}
	}
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
	err := m.Again(nil, func(b *Batch) error {
		for r, reason := range b.Voided() {
			if m.Filter.Takes(b, r) {
				at := b.Place(r)
				voided = append(voided, VoidedReading{
					Step: b.Name(r, StepNames), File: at.File, Line: at.Line,
					Count: study.Known(r.Count), Seconds: b.How[r.How].Basic(r.Seconds), Reason: reason,
				})
			}
		}
		return nil
	})
	return voided, err
}
