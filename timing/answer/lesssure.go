package answer

import (
	"fmt"
	"math"
	"time"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/words"
)

// lessSureFrom is by how much wider than before a range is when it is worth a word.
const lessSureFrom = 1.05

// maxLookedBack is of how many readings the newest day's part is looked at: of more, a day
// changes little.
const maxLookedBack = 50_000

// LessSure says of which ways of working the hours are less sure than they were without the
// newest day's readings, and why: another form of a step's model, grows that differ more, or
// a step that varies more. The errors are those of Compare, or that of reading the readings
// again.
func (m *Models) LessSure(names []string, heads int) ([]string, error) {
	workflows, err := m.Study.Choose(names)
	if err != nil {
		return nil, err
	}
	newest, ok := m.newestDay()
	readings := 0
	for _, s := range m.Steps {
		readings += s.Readings
	}
	if !ok || readings > maxLookedBack {
		return nil, nil
	}
	before, err := m.upTo(newest - 1)
	if err != nil {
		return nil, err
	}
	var reasons condense.Index[string]
	var affected [][]string // of each reason
	for _, w := range workflows {
		now, then := m.hours(w, heads), before.hours(w, heads)
		if !now.Low.Known || !then.Low.Known || len(now.Gaps) < len(then.Gaps) ||
			now.High.Value-now.Low.Value <= lessSureFrom*(then.High.Value-then.Low.Value) {
			continue
		}
		at := int(reasons.Of(m.whyLessSure(before, w, heads)))
		if at == len(affected) {
			affected = append(affected, nil)
		}
		affected[at] = append(affected[at], words.Quote(w.Name))
	}
	var notes []string
	for i, why := range reasons.List {
		are := affected[i][0] + " is"
		if len(affected[i]) > 1 {
			are = words.And(affected[i]) + " are"
		}
		notes = append(notes, fmt.Sprintf("%s less sure than without the newest readings, of %s: %s", are, newest.Date().Format(time.DateOnly), why))
	}
	return notes, nil
}

// newestDay is the day of the latest reading; false where there is none, or no other.
func (m *Models) newestDay() (newest condense.Day, ok bool) {
	first := condense.NoDay
	newest = condense.NoDay
	for _, s := range m.Steps {
		for _, k := range s.Kinds.All() {
			newest = max(newest, k.Last)
			if k.First != condense.NoDay && (first == condense.NoDay || k.First < first) {
				first = k.First
			}
		}
	}
	return newest, first != condense.NoDay && first < newest
}

// upTo is the models of the readings up to a day, undated ones among them.
func (m *Models) upTo(day condense.Day) (*Models, error) {
	g := condense.Gather(&m.Study, m.Filter)
	err := m.Again(nil, func(b *condense.Batch) error {
		other := *b
		other.Digest, other.Rows, other.Voids = nil, condense.Rows{}, nil
		voids := b.Voids
		for i := range b.Rows.Len() {
			r := b.Rows.At(i)
			voided := b.What[r.What].Voided
			if r.Day <= day {
				other.Rows.Add(r)
				if voided {
					other.Voids = append(other.Voids, voids[0])
				}
			}
			if voided {
				voids = voids[1:]
			}
		}
		other.Table = nil
		return g.Take(&other)
	})
	if err != nil {
		return nil, err
	}
	return NewModels(g.Condensed(m.Again), m.options), nil
}

// whyLessSure says in a sentence what the newest readings changed.
func (m *Models) whyLessSure(before *Models, w study.Workflow, heads int) string {
	visits := m.visits(w, float64(heads))
	loads := m.loads(visits)
	now, then := m.evaluate(workload{loads: loads}, asModelled), before.evaluate(workload{loads: before.loads(before.visits(w, float64(heads)))}, asModelled)
	worst, more := -1, 0.0
	for _, i := range inOrder(visits) {
		a, b := &before.Steps[i], &m.Steps[i]
		if a.isGap() || b.isGap() {
			continue
		}
		if before.AnsweredFor(i) && !m.AnsweredFor(i) {
			change := m.Study.Made[m.Stages[i].Changes[len(m.Stages[i].Changes)-1]]
			return fmt.Sprintf("%s has its first readings since %s, and no longer rests on those before it", words.Show(b.Step.Name), words.Quote(change.Name))
		}
		if old, current := a.formWords(), b.formWords(); old != current && a.Readings > 0 {
			return fmt.Sprintf("%s is now taken as %s, and was taken as %s (%s)", words.Show(b.Step.Name), current, old, newReadings(b.Readings-a.Readings))
		}
		if d := b.doubt.Variance(loads[i]) - a.doubt.Variance(loads[i]); d > more {
			worst, more = i, d
		}
	}
	if common := now.mean.common*m.effect.square - then.mean.common*before.effect.square; common > more && !m.effect.none() {
		return fmt.Sprintf("%s now differ by %s in all they take", words.Plural(string(m.effect.by)), about(math.Sqrt(m.effect.square)))
	}
	if worst >= 0 {
		s := &m.Steps[worst]
		return fmt.Sprintf("%s varies more than it seemed to (%s)", words.Show(s.Step.Name), newReadings(s.Readings-before.Steps[worst].Readings))
	}
	return "what steps are lent of each other's scatter has grown"
}

func newReadings(n int) string {
	switch n {
	case 0:
		return "none of its own readings is new"
	case 1:
		return "one new reading"
	}
	return fmt.Sprintf("%d new readings", n)
}

// formWords says how a step's time is taken.
func (s *StepModel) formWords() string {
	switch {
	case s.isJudged():
		return "judged"
	case s.Model.Bracket != nil:
		return "all of the one or all of the other, since its counts are alike"
	case s.Model.Full != nil:
		return "one time alone, since the other came out below nothing"
	}
	return string(s.Model.Form)
}
