package timing

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/stepfit"
)

// Remark adds a note to every answer that is worked out from now on.
func (m *Models) Remark(note string) { m.remarks = append(m.remarks, note) }

// notes are what every answer in hours or money says of its basis.
func (m *Models) notes() []string {
	notes := slices.Clone(m.remarks)
	if notes == nil {
		notes = []string{}
	}
	if a := m.Study.Allowance; a > 0 {
		notes = append(notes, fmt.Sprintf("hours are standard time: basic time and %s for rest and personal needs", percent(a)))
	}
	if len(m.Study.Workflows) > 0 && m.Study.Germination.Share == 1 {
		notes = append(notes, "every seed is counted as coming up: the study gives no germination below 1")
	}
	if names := m.stepsWith(stepfit.Pooled); names != "" {
		notes = append(notes, fmt.Sprintf("timed too seldom to show how much they vary, so a spread of %s is borrowed from the other steps: %s",
			percent(m.PooledCV), names))
	}
	if names := m.stepsWith(stepfit.Guess); names != "" {
		notes = append(notes, "the spread is the grower's own guess, from the estimate: "+names)
	}
	for _, by := range []Grouping{ByGrow, ByWorker} {
		if names := m.stepsBy(by); names != "" {
			notes = append(notes, fmt.Sprintf("readings %s resemble each other, so ranges allow for how much %ss differ: %s", ofOne(by), by, names))
		}
	}
	if note := m.scatterNote(); note != "" {
		notes = append(notes, note)
	}
	return notes
}

func (m *Models) stepsWith(basis stepfit.Basis) string {
	var names []string
	for _, s := range m.Steps {
		if !s.Gap() && s.Model.Basis == basis && s.borrows() {
			names = append(names, s.Step.Name)
		}
	}
	return strings.Join(names, ", ")
}

func (m *Models) stepsBy(by Grouping) string {
	var names []string
	for _, s := range m.Steps {
		if s.Grouping == by {
			names = append(names, s.Step.Name)
		}
	}
	return strings.Join(names, ", ")
}

// stepNotes say in words what a step's figures rest on.
func (m *Models) stepNotes(s StepModel) []string {
	switch {
	case s.Gap():
		return nil
	case s.Judged():
		return []string{"judged, not timed"}
	}
	var notes []string
	say := func(when bool, format string, args ...any) {
		if when {
			notes = append(notes, fmt.Sprintf(format, args...))
		}
	}
	f := s.Model
	say(f.Refused != "", "these readings cannot tell form %q: the form is chosen from the readings instead", f.Refused)
	say(f.LeftSetup, "setup and unit time together gave a setup time below zero: taken as all unit time")
	say(f.LeftUnit, "setup and unit time together gave a unit time below zero: taken as all setup time")
	say(f.SetupSec < 0 || f.UnitSec < 0, "a time below zero: the form was asked for and is kept")
	least, most, _ := s.sums.CountPerSetup()
	say(f.Bracket != nil && s.alwaysOne(), "always one a visit, so setup and unit time cannot be told apart: if one is all it can be, say form = \"setup\"")
	say(f.Bracket != nil && !s.alwaysOne(), "always timed at about the same count (%s): setup and unit time cannot be told apart, so totals reach from all unit to all setup; "+
		"time it at a very different count, or its setup alone", countRange(least, most))
	say(f.Basis == stepfit.Pooled && s.borrows(), "too few readings to show how much it varies: a spread of %s is borrowed from the other steps", percent(m.PooledCV))
	say(f.Basis == stepfit.Guess, "too few readings to show how much it varies: the spread is the grower's own guess")
	say(f.Basis == stepfit.NoSpread, "too few readings to show how much it varies, and no other step can lend a spread")
	say(f.Spread == 1, "larger counts vary more: variance taken to grow with the count")
	say(f.Spread == 2, "larger counts vary more: variance taken to grow with the square of the count")
	say(s.FromMemory > 0, "%d of %d readings were judged, not timed", s.FromMemory, s.Readings)
	say(s.Step.Estimate != nil, "timed by now, so the estimate no longer gives the time")
	return slices.Concat(notes, s.groupingNotes(), s.apartNotes())
}

func countRange(least, most float64) string {
	if least == most {
		return fmt.Sprintf("%.4g a setup", least)
	}
	return fmt.Sprintf("%.4g to %.4g a setup", least, most)
}

func percent(share float64) string { return fmt.Sprintf("%.3g %%", 100*share) }
