package answer

import (
	"fmt"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// What makes one model of two workflows' or workers' readings a poor one: how far
// apart their times are, and how seldom chance does that.
const (
	apartRatio = 1.1
	apartBelow = 0.05
)

// apartNotes say where one model does not serve the readings of all workflows, or
// of all workers.
func (s StepModel) apartNotes() []string {
	var notes []string
	for _, by := range Separations {
		if note := s.apartNote(by); note != "" {
			notes = append(notes, note)
		}
	}
	return notes
}

func (s StepModel) apartNote(by Separation) string {
	names, times, ok := s.timesBy(by)
	if !ok || len(times) < 2 || slices.Max(times) <= apartRatio*slices.Min(times) {
		return ""
	}
	p, ok := s.alike(by, nil) // which takes longer to tell
	if !ok || p >= apartBelow {
		return ""
	}
	if by == apartByWorker { // ways are compared, never workers
		return fmt.Sprintf("one model does not serve the readings of all workers (p %s): see whether all do it in one way, with the same tools", probability(p))
	}
	return s.apartWords(names, times, p)
}

// alike is the probability of readings as unlike as those of some workflows or workers,
// or of all that are named, where one model serves all of them; false where they cannot
// tell.
func (s StepModel) alike(by Separation, some []string) (p float64, ok bool) {
	var sets condense.Index[string]
	var sums []stepfit.Sums
	for what, k := range s.Kinds.All() {
		set := by.nameIn(what)
		if set == "" || some != nil && !slices.Contains(some, set) {
			continue
		}
		i := int(sets.Of(set))
		if i == len(sums) {
			sums = append(sums, stepfit.Sums{})
		}
		k.Into(&sums[i])
	}
	if len(sums) < 2 {
		return 0, false
	}
	test, ok := stepfit.Apart(s.Model.Form, s.Model.Spread, sums)
	return test.P, ok
}

// UnlikeNotes say of which steps one model does not serve the readings of all
// workflows, or of all workers.
func (m *Models) UnlikeNotes() []string {
	var notes []string
	for _, s := range m.Steps {
		if s.Readings == 0 {
			continue
		}
		for _, note := range s.apartNotes() {
			notes = append(notes, s.Step.Name+": "+note)
		}
	}
	return notes
}

// timesBy are the times of a reading at the step's mean setups and count in each
// workflow, or by each worker; false where one is not known.
func (s StepModel) timesBy(by Separation) (names []string, times []float64, ok bool) {
	all, tallies := s.Kinds.Tallies(by.nameIn)
	for i, name := range all {
		if name == "" {
			continue
		}
		time := s.atMean(tallies[i])
		if !time.Known {
			return nil, nil, false
		}
		names, times = append(names, name), append(times, time.Value)
	}
	return names, times, true
}

// atMean is what some of the readings come to at the mean setups and count of all:
// the model's time, times how much longer theirs took than it has for them. It is
// unknown where the model has no time for them.
func (s StepModel) atMean(some condense.Tally) study.Maybe {
	time := study.Known(some.Seconds / s.Model.At(some.Load) * s.Model.AtMean())
	if time.Value <= 0 {
		return study.Maybe{}
	}
	return time
}

func (s StepModel) apartWords(names []string, times []float64, p float64) string {
	per, of, at := 1.0, "", ""
	if n := s.Sums.Mean().Count; s.Model.Form.HasUnit() && n > 0 {
		per, of, at = n, " a "+unit(s.Step), " at a count of "+words.Digits(n, 3)
	}
	var terms []string
	for i, name := range names {
		terms = append(terms, fmt.Sprintf("%s s%s in %s", words.Digits(times[i]/per, 3), of, words.Quote(name)))
		of = ""
	}
	return fmt.Sprintf("one model does not serve all its readings: it takes %s%s (p %s); if it is not the same work, name them apart", words.And(terms), at, probability(p))
}

func unit(s study.Step) string {
	if s.Per != "" {
		return s.Per
	}
	return "unit"
}

func probability(p float64) string {
	if p < 0.001 {
		return "below 0.001"
	}
	return words.UpTo(p, 3)
}
