package stopwatch

import (
	"fmt"
	"time"

	"headhours/timing/study"
	"headhours/timing/words"
)

// MarkedChange marks the moment from which on the work of a step is done otherwise: with
// another tool, layout or habit.
type MarkedChange struct {
	Place study.Place
	Name  string
	Step  string
	At    time.Time // by the wall clock
}

// TakenBefore is how many readings of a marked change's step that count were taken on its day before it.
// A study has a day for a change, so they would count as taken after it.
func (s State) TakenBefore(c MarkedChange) (n int) {
	for i := range s.Readings {
		r := &s.Readings[i]
		if r.Step == c.Step && r.Lacks() == "" && r.Counts() && !r.Ended.After(c.At) && r.Began.Format(time.DateOnly) == c.At.Format(time.DateOnly) {
			n++
		}
	}
	return n
}

// TOML is a marked change as a study file has it, a line each: what was marked, what it
// cost left open, and what is to be done where readings were taken before it on its day.
func (s State) TOML(c MarkedChange) []string {
	lines := []string{
		"[[change]]",
		"name = " + study.TOMLText(c.Name),
		"step = " + study.TOMLText(c.Step),
		"since = \"" + c.At.Format(time.DateOnly) + "\"",
		"# outlay = 0.00    # what it cost, if anything",
	}
	if n := s.TakenBefore(c); n > 0 {
		lines = append(lines, fmt.Sprintf("# %s of that day %s taken before it: void %s, or begin a day later",
			words.Many(n, "reading"), words.Agree(n, "was", "were"), words.Agree(n, "it", "them")))
	}
	return lines
}
