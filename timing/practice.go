package timing

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// practiceNotes warn where one of two workflows was timed only after the other and
// times were falling meanwhile: what it saves may be practice.
func (m *Models) practiceNotes(workflows []Workflow, hours []Hours) []string {
	var notes []string
	for i, b := range workflows {
		for j, a := range workflows[:i] {
			earlier, later, saved := a, b, hours[j].Hours-hours[i].Hours
			since, after := m.timedAfter(later.Name, earlier.Name)
			if !after {
				earlier, later, saved = b, a, -saved
				since, after = m.timedAfter(later.Name, earlier.Name)
			}
			if !after || saved < 0 {
				continue
			}
			if falling := m.falling(earlier, later); len(falling) > 0 {
				notes = append(notes, fmt.Sprintf("%q was timed only after %q, from %s on, and times were falling over the grows (%s): part of what it saves may be practice",
					later.Name, earlier.Name, since.Date().Format(time.DateOnly), strings.Join(falling, ", ")))
			}
		}
	}
	return notes
}

// timedAfter says whether all readings of one workflow are later than all of
// another, and from when on.
func (m *Models) timedAfter(later, earlier string) (since Day, after bool) {
	since, until := NoDay, NoDay
	for _, s := range m.Steps {
		for _, k := range s.kinds.list {
			if k.workflow != later && k.workflow != earlier {
				continue
			}
			if k.undated {
				return NoDay, false
			}
			if k.workflow == earlier {
				until = max(until, k.last)
			}
			if k.workflow == later && (since == NoDay || k.first < since) {
				since = k.first
			}
		}
	}
	return since, until != NoDay && since > until
}

// falling names the steps of two workflows whose times fall over the grows.
func (m *Models) falling(a, b Workflow) []string {
	var names []string
	for _, s := range m.Steps {
		if s.Readings > 0 && (a.uses(s.Step.Name) || b.uses(s.Step.Name)) && m.overGrows(s).Trend == Falling {
			names = append(names, s.Step.Name)
		}
	}
	return names
}

func (w Workflow) uses(step string) bool {
	return slices.ContainsFunc(w.Tasks, func(t Task) bool { return t.Step == step })
}
