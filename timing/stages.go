package timing

import (
	"fmt"
	"slices"
	"time"
)

// stages are a step before and after each change that was made to it. Each is a step of its
// own: its readings are fitted, lend and borrow apart. The last is the step as it is now.
type stages struct {
	changes  []int // of the study's made changes, in order of their days
	since    []Day // of those
	at       []int // the step of each stage among Condensed's, one more than changes
	byPeriod []int // the stage by the number of all changes' days that are past
	readings []int // of each stage
	hoped    []Load
	// hoped has, of a stage that was not timed, what the changes since the one that answers
	// for it were hoped to make of its setup and unit times; 1 of each other.
}

// of is the stage of a day; without one it is the first.
func (s *stages) of(day Day) int {
	if day == NoDay {
		return 0
	}
	n, found := slices.BinarySearch(s.since, day)
	if found {
		n++
	}
	return n
}

// beginStages gives every step of the study that was changed a step for each stage before
// its present.
func (g *Gathering) beginStages() {
	c := g.made
	g.dates = c.Study.changedOn()
	c.begun = make([]*stages, len(c.Steps))
	for i, change := range c.Study.Made {
		step := c.index[change.Step]
		if c.begun[step] == nil {
			c.begun[step] = &stages{}
		}
		c.begun[step].changes = append(c.begun[step].changes, i)
	}
	for step, s := range c.begun {
		if s == nil {
			continue
		}
		slices.SortStableFunc(s.changes, func(a, b int) int { return c.Study.Made[a].Since.Compare(c.Study.Made[b].Since) })
		for _, change := range s.changes {
			made := c.Study.Made[change]
			s.since = append(s.since, DayOf(made.Since))
			earlier := c.Steps[step].Step
			earlier.Name = c.stageName(made)
			s.at = append(s.at, len(c.Steps))
			c.Steps = append(c.Steps, StepReadings{Step: earlier})
		}
		s.at = append(s.at, step)
		s.byPeriod = append(s.byPeriod, 0)
		for _, day := range g.dates {
			s.byPeriod = append(s.byPeriod, s.of(day))
		}
	}
}

// stageName names a step before a change, as no step of the study is named.
func (c *Condensed) stageName(made MadeChange) string {
	name := fmt.Sprintf("%s (before %s)", made.Step, made.Since.Format(time.DateOnly))
	for slices.ContainsFunc(c.Steps, func(s StepReadings) bool { return s.Step.Name == name }) {
		name += "*"
	}
	return name
}

// changedOn are the days on which steps were changed, in order.
func (s Study) changedOn() []Day {
	var days []Day
	for _, change := range s.Made {
		days = append(days, DayOf(change.Since))
	}
	slices.Sort(days)
	return slices.Compact(days)
}

// period is how many of the changes' days are past on a day.
func (g *Gathering) period(day Day) int32 {
	if day == NoDay {
		return 0
	}
	n, found := slices.BinarySearch(g.dates, day)
	if found {
		n++
	}
	return int32(n)
}

// stageIn is the step that readings of one are of in a period.
func (g *Gathering) stageIn(step int, period int32) int {
	if len(g.dates) == 0 || g.made.begun[step] == nil {
		return step
	}
	s := g.made.begun[step]
	return s.at[s.byPeriod[period]]
}

// stageName is the name of the step that readings of one are of in a period.
func (g *Gathering) stageName(name string, period int32) string {
	if step, known := g.made.index[name]; known {
		return g.made.Steps[g.stageIn(step, period)].Step.Name
	}
	return name
}

// stageOn is the step that readings of one are of on a day.
func (c *Condensed) stageOn(step int, day Day) int {
	if step >= len(c.stages) || c.stages[step] == nil {
		return step
	}
	s := c.stages[step]
	return s.at[s.of(day)]
}

// earlier are the steps before changes of one of the study's, those that were timed.
func (c *Condensed) earlier(step int) []int {
	if step >= len(c.stages) || c.stages[step] == nil {
		return nil
	}
	var at []int
	for _, stage := range c.stages[step].at {
		if stage != step && c.Steps[stage].Readings > 0 && !slices.Contains(at, stage) {
			at = append(at, stage)
		}
	}
	return at
}

// settleStages has a stage that was not timed answered for by the one before it, with what
// the change between them was hoped to do. The present keeps its step's place.
func (c *Condensed) settleStages() {
	c.taken = c.Steps
	if len(c.Study.Made) == 0 {
		return
	}
	c.Steps = slices.Clone(c.Steps)
	c.stages = make([]*stages, len(c.begun))
	for step, begun := range c.begun {
		if begun == nil {
			continue
		}
		s := &stages{changes: begun.changes, since: begun.since, at: slices.Clone(begun.at)}
		c.stages[step] = s
		for stage, at := range s.at {
			s.readings = append(s.readings, c.Steps[at].Readings)
			s.hoped = append(s.hoped, Load{Setups: 1, Count: 1})
			if stage > 0 && s.readings[stage] == 0 {
				s.at[stage] = s.at[stage-1]
				s.hoped[stage] = s.hoped[stage-1].by(c.Study.Made[s.changes[stage-1]].hoped())
			}
		}
		from := s.at[len(s.at)-1]
		if from == step {
			continue
		}
		own, earlier := c.Steps[step], c.Steps[from].Step
		c.Steps[step], c.Steps[from] = c.Steps[from], StepReadings{Step: earlier}
		c.Steps[step].Step, c.Steps[from].Step.Estimate = own.Step, nil
		c.Steps[step].Voided += own.Voided
		for stage, at := range s.at {
			if at == from {
				s.at[stage] = step
			}
		}
	}
}

// answeredFor says of a step that it was not timed since it was changed last: what it took
// before answers for it.
func (c *Condensed) answeredFor(step int) bool {
	if step >= len(c.stages) || c.stages[step] == nil {
		return false
	}
	readings := c.stages[step].readings
	return readings[len(readings)-1] == 0
}

// by is a load with its setups and count multiplied each by its own factor.
func (l Load) by(f Load) Load { return Load{Setups: l.Setups * f.Setups, Count: l.Count * f.Count} }

// asItIs is a load of a step, with what a change that was not timed yet was hoped to do.
func (c *Condensed) asItIs(step int, load Load) Load {
	if step >= len(c.stages) || c.stages[step] == nil {
		return load
	}
	s := c.stages[step]
	return load.by(s.hoped[len(s.hoped)-1])
}

// allAsTheyAre is a linear form likewise.
func (m *Models) allAsTheyAre(l linear) linear {
	if len(m.Study.Made) == 0 {
		return l
	}
	now := make(linear, len(l))
	for i, load := range l {
		now[i] = m.asItIs(i, load)
	}
	return now
}

// takes is the time of a load of a step that is no gap, in basic seconds.
func (m *Models) takes(step int, load Load) float64 {
	load = m.asItIs(step, load)
	return m.Steps[step].Model.At(load.Setups, load.Count)
}
