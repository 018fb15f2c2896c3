package condense

import (
	"headhours/timing/stepfit"
)

// Stages are a step before and after each change that was made to it. Each is a step of its
// own: its readings are fitted, lend and borrow apart. The last is the step as it is now.
type Stages struct {
	Changes  []int // of the study's made changes, in order of their days
	Since    []Day // of those
	At       []int // the step of each stage among Condensed's, one more than changes
	byPeriod []int // the stage by the number of all changes' days that are past
	Readings []int // of each stage
	Hoped    []stepfit.Load
	// Hoped has, of a stage that was not timed, what the changes since the one that answers
	// for it were hoped to make of its setup and unit times; 1 of each other.
}

// Of is the stage of a day; without one it is the first.
func (s *Stages) Of(day Day) int { return daysPast(s.Since, day) }
