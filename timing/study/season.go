package study

import (
	"slices"
	"time"

	"headhours/timing/crop"
)

// Overhead is a cost that comes whatever is grown.
type Overhead struct {
	Name    string
	PerYear float64 // in the study's currency
}

// Season is the stretch of days that the whole place is answered for.
type Season struct {
	Start time.Time // zero where days are only numbered
	Days  int       // a multiple of 7; 0 is defaultSeason
}

// defaultSeason is how many days a season has where the study does not say.
const defaultSeason = 364

// Length is how many days the season has.
func (s Season) Length() int {
	if s.Days == 0 {
		return defaultSeason
	}
	return s.Days
}

// Date is the date of a day of the season, or nil where days are only numbered.
func (s Season) Date(day int) *string {
	if s.Start.IsZero() {
		return nil
	}
	date := s.Start.AddDate(0, 0, day).Format(time.DateOnly)
	return &date
}

// Sowing is grows of one workflow that are sown one after another.
type Sowing struct {
	Workflow     string
	Heads, Cells Maybe // of one grow: one of the two
	EveryDays    int   // 0: once
	From         int   // day of the season
	Until        *int  // the last day on which it may be sown, included; nil: the season's last
}

// last is the last day on which a grow may be sown.
func (s Sowing) last(days int) int {
	if s.Until == nil {
		return days - 1
	}
	return min(*s.Until, days-1)
}

// Starts are the days on which grows are sown in a season of so many days.
func (s Sowing) Starts(days int) []int {
	starts := []int{s.From}
	if s.EveryDays == 0 {
		return starts
	}
	for day := s.From + s.EveryDays; day <= s.last(days); day += s.EveryDays {
		starts = append(starts, day)
	}
	return starts
}

// GerminationOf is the germination that a workflow is answered for: its own, else the
// study's. Bought plants are all there.
func (s Study) GerminationOf(w Workflow) crop.Germination {
	switch {
	case w.Bought:
		return crop.Germination{Share: 1}
	case w.Germination != nil:
		return *w.Germination
	}
	return s.Germination
}

// SharedTask says whether a task of a step, in any workflow, is said to serve several
// grows.
func (s Study) SharedTask(step string) bool {
	return slices.ContainsFunc(s.Workflows, func(w Workflow) bool {
		return slices.ContainsFunc(w.Tasks, func(t Task) bool { return t.Step == step && t.SharedBy > 1 })
	})
}

// Sown are the workflows that the study's sowings name.
func (s Study) Sown() []Workflow {
	workflows := []Workflow{}
	for _, w := range s.Workflows {
		if slices.ContainsFunc(s.Sowings, func(o Sowing) bool { return o.Workflow == w.Name }) {
			workflows = append(workflows, w)
		}
	}
	return workflows
}

// LeavesGermination says that the study's germination is a workflow's.
func (w Workflow) LeavesGermination() bool { return !w.Bought && w.Germination == nil }
