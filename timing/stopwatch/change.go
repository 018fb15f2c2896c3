package stopwatch

import (
	"errors"
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

// change takes the mark of a change in. It is of the step that it names, else of the
// reading that runs, else of the last.
func (m *machine) change(e Event) error {
	step := e.Step
	if n := len(m.state.Readings); step == "" && n > 0 {
		step = m.state.Readings[n-1].Step // the one that runs is the last
	}
	if step == "" {
		return errors.New("want a step, since there is no reading yet")
	}
	m.state.Changes = append(m.state.Changes, MarkedChange{m.place(e), e.Text, step, e.Wall})
	return nil
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
