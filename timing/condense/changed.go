package condense

import (
	"fmt"
	"slices"
	"time"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// beginStages gives every step of the study that was changed a step for each stage before
// its present.
func (g *Gathering) beginStages() {
	c := g.condensed
	g.dates = changedOn(c.Study)
	c.allStages = make([]*Stages, len(c.Steps))
	for i, change := range c.Study.Made {
		step := c.Index[change.Step]
		if c.allStages[step] == nil {
			c.allStages[step] = &Stages{}
		}
		c.allStages[step].Changes = append(c.allStages[step].Changes, i)
	}
	for step, s := range c.allStages {
		if s == nil {
			continue
		}
		slices.SortStableFunc(s.Changes, func(a, b int) int { return c.Study.Made[a].Since.Compare(c.Study.Made[b].Since) })
		for _, change := range s.Changes {
			change := c.Study.Made[change]
			s.Since = append(s.Since, DayOf(change.Since))
			earlier := c.Steps[step].Step
			earlier.Name = c.stageName(change)
			s.At = append(s.At, len(c.Steps))
			c.Steps = append(c.Steps, g.readingsOf(earlier))
		}
		s.At = append(s.At, step)
		s.byPeriod = append(s.byPeriod, 0)
		for _, day := range g.dates {
			s.byPeriod = append(s.byPeriod, s.Of(day))
		}
	}
}

// stageName names a step before a change, as no step of the study is named.
func (c *Condensed) stageName(change study.MadeChange) string {
	name := fmt.Sprintf("%s (before %s)", change.Step, change.Since.Format(time.DateOnly))
	for slices.ContainsFunc(c.Steps, func(s StepReadings) bool { return s.Step.Name == name }) {
		name += "*"
	}
	return name
}

// changedOn are the days on which steps were changed, in order.
func changedOn(s study.Study) []Day {
	var days []Day
	for _, change := range s.Made {
		days = append(days, DayOf(change.Since))
	}
	slices.Sort(days)
	return slices.Compact(days)
}

// period is how many of the changes' days are past on a day.
func (g *Gathering) period(day Day) int32 { return int32(daysPast(g.dates, day)) }

// stageIn is the step that readings of one are of in a period.
func (g *Gathering) stageIn(step int, period int32) int {
	if len(g.dates) == 0 || g.condensed.allStages[step] == nil {
		return step
	}
	s := g.condensed.allStages[step]
	return s.At[s.byPeriod[period]]
}

// stageName is the name of the step that readings of one are of in a period.
func (g *Gathering) stageName(name string, period int32) string {
	if step, ok := g.condensed.Index[name]; ok {
		return g.condensed.Steps[g.stageIn(step, period)].Step.Name
	}
	return name
}

// stageOn is the step that readings of one are of on a day.
func (c *Condensed) stageOn(step int, day Day) int {
	if step >= len(c.Stages) || c.Stages[step] == nil {
		return step
	}
	s := c.Stages[step]
	return s.At[s.Of(day)]
}

// Earlier are the steps before changes of one of the study's, those that were timed.
func (c *Condensed) Earlier(step int) []int {
	if step >= len(c.Stages) || c.Stages[step] == nil {
		return nil
	}
	var at []int
	for _, stage := range c.Stages[step].At {
		if stage != step && c.Steps[stage].Readings > 0 && !slices.Contains(at, stage) {
			at = append(at, stage)
		}
	}
	return at
}

// settleStages has a stage that was not timed answered for by the one before it, with what
// the change between them was hoped to do. The present keeps its step's place.
func (c *Condensed) settleStages() {
	c.allSteps = c.Steps
	if len(c.Study.Made) == 0 {
		return
	}
	c.Steps = slices.Clone(c.Steps)
	c.Stages = make([]*Stages, len(c.allStages))
	for step, all := range c.allStages {
		if all == nil {
			continue
		}
		s := &Stages{Changes: all.Changes, Since: all.Since, At: slices.Clone(all.At)}
		c.Stages[step] = s
		for stage, at := range s.At {
			s.Readings = append(s.Readings, c.Steps[at].Readings)
			s.Hoped = append(s.Hoped, stepfit.Load{Setups: 1, Count: 1})
			if stage > 0 && s.Readings[stage] == 0 {
				s.At[stage] = s.At[stage-1]
				s.Hoped[stage] = s.Hoped[stage-1].By(c.Study.Made[s.Changes[stage-1]].Hoped())
			}
		}
		from := s.At[len(s.At)-1]
		if from == step {
			continue
		}
		own, earlier := c.Steps[step], c.Steps[from].Step
		c.Steps[step], c.Steps[from] = c.Steps[from], StepReadings{Step: earlier}
		c.Steps[step].Step, c.Steps[from].Step.Estimate = own.Step, nil
		c.Steps[step].Voided += own.Voided
		for stage, at := range s.At {
			if at == from {
				s.At[stage] = step
			}
		}
	}
}

// AnsweredFor says of a step that it was not timed since it was changed last: what it took
// before answers for it.
func (c *Condensed) AnsweredFor(step int) bool {
	if step >= len(c.Stages) || c.Stages[step] == nil {
		return false
	}
	readings := c.Stages[step].Readings
	return readings[len(readings)-1] == 0
}

// AsItIs is a load of a step, with what a change that was not timed yet was hoped to do.
func (c *Condensed) AsItIs(step int, load stepfit.Load) stepfit.Load {
	if step >= len(c.Stages) || c.Stages[step] == nil {
		return load
	}
	s := c.Stages[step]
	return load.By(s.Hoped[len(s.Hoped)-1])
}
