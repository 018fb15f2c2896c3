package answer

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/crop"
	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// prices says whether a supply is for a workflow and counts its cells or plants.
func prices(s study.Supply, w study.Workflow) bool {
	counts := s.Count == crop.Cells || s.Count == crop.Filled || s.Count == crop.Plants
	return counts && (s.Workflows == nil || slices.Contains(s.Workflows, w.Name))
}

// unpriced notes bought plants that no supply gives a price.
func (m *Models) unpriced(workflows []study.Workflow) []string {
	var names []string
	for _, w := range workflows {
		if w.Bought && !slices.ContainsFunc(m.Study.Supplies, func(s study.Supply) bool { return prices(s, w) }) {
			names = append(names, w.Name)
		}
	}
	if names == nil {
		return nil
	}
	return []string{`young plants not priced, since no [[supply]] counts cells, filled or plants: ` + shortList(names)}
}

// seasonNotes say what a cost does not hold, and where a joint step is met by other
// sowings than it is reckoned with.
func (m *Models) seasonNotes(workflows []study.Workflow) []string {
	notes := m.unpriced(workflows)
	for _, s := range m.Study.Sowings {
		w, err := m.Study.Workflow(s.Workflow)
		joint := err == nil && slices.ContainsFunc(w.Tasks, func(t study.Task) bool { return m.Study.Steps[m.Index[t.Step]].Together })
		named := slices.ContainsFunc(workflows, func(w study.Workflow) bool { return w.Name == s.Workflow })
		if !joint || !named || s.EveryDays == m.Study.SowEveryDays {
			continue
		}
		alone, season := "as if it stood alone", "it is begun but once"
		if n := m.Study.SowEveryDays; n > 0 {
			alone = "as if a new one came " + words.EveryDays(n)
		}
		if s.EveryDays > 0 {
			season = "one comes " + words.EveryDays(s.EveryDays)
		}
		notes = append(notes, fmt.Sprintf("joint rounds of %s, where one grow is answered for, are reckoned %s, by the study; in the season %s", words.Quote(w.Name), alone, season))
	}
	return notes
}

// jointHint is a step that could be done together, and the minutes a week it would save.
type jointHint struct {
	step    int
	minutes float64
}

// The hint is of so many steps, each of so much.
const (
	maxHints   = 3
	minHint    = 1 // minute a week
	minuteHour = 60
)

// hints notes the steps that fall on one day for several grows, saved being the setups a
// week that one round for all would spare.
func (m *Models) hints(saved linear) []string {
	var found []jointHint
	for i, load := range saved {
		if load == (stepfit.Load{}) {
			continue // stages of steps before changes among them
		}
		step := m.Study.Steps[i]
		if m.Steps[i].isGap() || step.Together || slices.Contains(step.Hazards, study.Hygiene) || m.Study.SharedTask(step.Name) {
			continue
		}
		if minutes := m.takes(i, stepfit.Load{Setups: load.Setups}) * m.perHour() * minuteHour; minutes >= minHint {
			found = append(found, jointHint{i, minutes})
		}
	}
	if found == nil {
		return nil
	}
	slices.SortStableFunc(found, func(a, b jointHint) int { return int(signOf(b.minutes - a.minutes)) })
	var texts []string
	for _, h := range found[:min(len(found), maxHints)] {
		texts = append(texts, fmt.Sprintf("%s (%s minutes a week)", words.Show(words.Short(m.Study.Steps[h.step].Name)), words.Digits(h.minutes, 2)))
	}
	return []string{"done apart for several grows on one day: " + strings.Join(texts, ", ") + ": if one round can serve them all, the study can say so (together)"}
}

func signOf(x float64) float64 {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

// sparedAWeek are the setups a week that joint rounds would spare of grows of one way,
// sown every so many days.
func (m *Models) sparedAWeek(visits []visit, every int) linear {
	days := map[meeting]stepfit.Load{}
	for _, v := range visits {
		at := meetingOf(v.step, v.day, every)
		days[at] = days[at].Plus(v.load())
	}
	spared := make(linear, len(m.Steps))
	for at, load := range days {
		spared[at.step].Setups += m.Study.Steps[at.step].Spared(load) * 7 / float64(every)
	}
	return spared
}
