package answer

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// practiceNotes warn where one of two workflows was timed only after the other and
// times were falling meanwhile: what it saves may be practice.
func (m *Models) practiceNotes(workflows []study.Workflow, hours []Hours) []string {
	days := m.timedDays()
	var falling []string // of all steps; found when it is first asked for
	found := false
	var notes []string
	for i, b := range workflows {
		for j, a := range workflows[:i] {
			earlier, later, saved := a, b, hours[j].Hours-hours[i].Hours
			if !days[later.Name].after(days[earlier.Name]) {
				earlier, later, saved = b, a, -saved
			}
			if saved < 0 || !days[later.Name].after(days[earlier.Name]) {
				continue
			}
			if !found {
				falling, found = m.falling(), true
			}
			if names := usedBy(falling, earlier, later); len(names) > 0 {
				notes = append(notes, fmt.Sprintf("%q was timed only after %q, from %s on, and times were falling over the grows (%s): part of what it saves may be practice",
					later.Name, earlier.Name, days[later.Name].since.Date().Format(time.DateOnly), strings.Join(names, ", ")))
			}
		}
	}
	return notes
}

// timedDays is the days on which a workflow was timed.
type timedDays struct {
	since, until condense.Day
	undated      bool // there are readings without a date
}

// after says that all readings of w are known to be later than all of o; false where
// either has none.
func (w *timedDays) after(o *timedDays) bool {
	return w != nil && o != nil && !w.undated && !o.undated && w.since > o.until
}

// timedDays is when each workflow that readings name was timed.
func (m *Models) timedDays() map[string]*timedDays {
	days := map[string]*timedDays{}
	for _, s := range m.Steps {
		for what, k := range s.Kinds.All() {
			w := days[what.Workflow]
			if w == nil {
				w = &timedDays{since: k.First, until: k.Last}
				days[what.Workflow] = w
			}
			w.since, w.until, w.undated = min(w.since, k.First), max(w.until, k.Last), w.undated || k.Undated > 0
		}
	}
	return days
}

// falling names the steps whose times fall over the grows.
func (m *Models) falling() []string {
	var names []string
	firstDays := m.growDays()
	for _, s := range m.Steps {
		if s.Readings > 0 && m.overGrows(s, firstDays).Trend == falling {
			names = append(names, s.Step.Name)
		}
	}
	return names
}

// usedBy are those of some steps that one of two workflows uses.
func usedBy(steps []string, a, b study.Workflow) []string {
	var used []string
	for _, step := range steps {
		if uses(a, step) || uses(b, step) {
			used = append(used, step)
		}
	}
	return used
}

func uses(w study.Workflow, step string) bool {
	return slices.ContainsFunc(w.Tasks, func(t study.Task) bool { return t.Step == step })
}
