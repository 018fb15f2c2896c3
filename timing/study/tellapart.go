package study

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/crop"
)

// StepsToTellApart are the study's steps in the order in which they are given colours:
// first those that not every workflow asks as much of, then the others, both in the
// order of the study. It looks at tasks alone, so that a step keeps its place whatever
// was timed and whichever workflows an answer is for.
func (s Study) StepsToTellApart() []string {
	answers := make([]map[string]string, len(s.Workflows))
	for i, w := range s.Workflows {
		answers[i] = w.asks()
	}
	var differ, same []string
	for _, step := range s.Steps {
		alike := !slices.ContainsFunc(answers, func(a map[string]string) bool { return a[step.Name] != answers[0][step.Name] })
		if alike {
			same = append(same, step.Name)
		} else {
			differ = append(differ, step.Name)
		}
	}
	return append(differ, same...)
}

// asks is what a workflow asks of each step, in a form that can be compared: its counts
// and how often, whatever the days.
func (w Workflow) asks() map[string]string {
	tasks := map[string][]string{}
	for _, t := range w.Tasks {
		text := fmt.Sprintf("%s %d %g %d", t.Count, len(t.Days), t.Each, t.SharedBy)
		switch t.Count {
		case crop.Seeds, crop.Cells, crop.Filled, crop.Empty, crop.Surplus:
			text += fmt.Sprintf(" %d", w.SeedsPerCell)
		case crop.Trays:
			text += fmt.Sprintf(" %d %d", w.SeedsPerCell, w.CellsPerTray)
		}
		tasks[t.Step] = append(tasks[t.Step], text)
	}
	loads := map[string]string{}
	for step, all := range tasks {
		slices.Sort(all)
		loads[step] = strings.Join(all, ";")
	}
	return loads
}
