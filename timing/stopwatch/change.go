package stopwatch

import (
	"time"

	"headhours/timing/study"
)

// MarkedChange marks the moment from which on the work of a step is done otherwise: with
// another tool, layout or habit.
type MarkedChange struct {
	Place study.Place
	Name  string
	Step  string
	At    time.Time // by the wall clock
}

// TOML is the change as a study file has it, a line each: what was marked, and what it
// cost left open.
func (c MarkedChange) TOML() []string {
	return []string{
		"[[change]]",
		"name = " + study.TOMLText(c.Name),
		"step = " + study.TOMLText(c.Step),
		"since = \"" + c.At.Format(time.DateOnly) + "\"",
		"# outlay = 0.00    # what it cost, if anything",
	}
}
