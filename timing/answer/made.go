package answer

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Made is what a change that was made has saved in each grow, in person-hours of standard
// time: the step's hours before it less those since. What is not known for want of readings
// is unknown.
type Made struct {
	Name           string      `json:"name"`
	Step           string      `json:"step"`
	Since          string      `json:"since"` // YYYY-MM-DD
	ReadingsBefore int         `json:"readings_before"`
	ReadingsAfter  int         `json:"readings_after"`
	Before         study.Maybe `json:"before_h"`
	After          study.Maybe `json:"after_h"`
	Saved          study.Maybe `json:"saved_h"`
	Low            study.Maybe `json:"low_h"`
	High           study.Maybe `json:"high_h"`
	P              study.Maybe `json:"p"`             // two-sided, of no difference
	Payback        study.Maybe `json:"payback_heads"` // see Saving
	PaybackOn      *string     `json:"payback_on"`    // the day on which the outlay is earned, one grow every so many days; nil where that is not known
	Hoped          study.Maybe `json:"hoped_h"`       // what its factors promised to save

	// PaybackFrom and PaybackTo are that day at the ends of the saving's range; nil where they are not known.
	PaybackFrom, PaybackTo *string `json:"-"`

	Until     string       `json:"-"` // YYYY-MM-DD of the step's next change; "" where it has none
	Drop      bool         `json:"-"` // the step is not done any more
	Outlay    study.Maybe  `json:"-"`
	Hygiene   bool         `json:"-"` // a step that is never to be saved on
	PaidBack  bool         `json:"-"` // the outlay is earned for sure, by the last reading's day
	Falling   bool         `json:"-"` // times were falling before it: practice may be part of it
	OneGrow   bool         `json:"-"` // one grow alone was timed on either side
	LastTimed condense.Day `json:"-"` // of all readings; NoDay without
	Trial     *ChangeTrial `json:"-"` // what would show it, where that is not clear
}

// Clear says that the saving, or its reverse, is clear of chance.
func (m *Made) Clear() bool {
	return m.Saved.Known && m.Low.Known && m.High.Known && (m.Low.Value > 0 || m.High.Value < 0)
}

// madeOfChange says what the changes that were made have saved in a workflow's grow.
func (m *Models) madeOfChange(name string, heads int) ([]Made, error) {
	all := []Made{}
	if len(m.Study.Made) == 0 {
		return all, nil
	}
	w, err := m.Before.Workflow(name)
	if err != nil {
		return nil, err
	}
	falling, err := m.fallingBefore()
	if err != nil {
		return nil, err
	}
	past := m.asWas()
	visits := past.visits(w, float64(heads))
	loads := past.loads(visits)
	for i, change := range m.Study.Made {
		step := m.Index[change.Step]
		s := m.Stages[step]
		stage := slices.Index(s.Changes, i) // before the change
		made := madeOf(change, s, stage)
		made.Until = m.until(change)
		made.Hygiene = slices.Contains(m.Steps[step].Step.Hazards, study.Hygiene)
		made.Falling, made.LastTimed = falling[s.At[stage]], m.LastDay()
		made.OneGrow = m.oneGrowEachSide(s, stage)
		past.reckon(&made, s, stage, loads[step])
		m.payBack(&made, change, heads)
		if made.Before.Known && !made.Drop && !made.Clear() {
			trial, err := m.PlanTrial(change.Name, w.Name, heads)
			if err != nil && !errors.Is(err, errLongTrial) {
				return nil, err
			}
			if trial.Grows.Known {
				made.Trial = &trial
			}
		}
		all = append(all, made)
	}
	return all, nil
}

// YetToCome says of changes that they are made on a day after that of the last reading.
func (m *Models) YetToCome() []string {
	var notes []string
	last := m.LastDay()
	for _, c := range m.Study.Made {
		if last != condense.NoDay && condense.DayOf(c.Since) > last {
			notes = append(notes, fmt.Sprintf("%s has since = %s, later than the last reading (%s): answers take it as made; if it is not made yet, leave since out, which makes it a what-if",
				words.Quote(c.Name), c.Since.Format(time.DateOnly), last.Date().Format(time.DateOnly)))
		}
	}
	return notes
}

// until is the day of the next change of a change's step; "" where it has none.
func (m *Models) until(change study.MadeChange) string {
	for _, i := range m.Stages[m.Index[change.Step]].Changes { // in order of their days
		if next := m.Study.Made[i].Since; next.After(change.Since) {
			return next.Format(time.DateOnly)
		}
	}
	return ""
}

func madeOf(change study.MadeChange, s *condense.Stages, stage int) Made {
	return Made{
		Name: change.Name, Step: change.Step, Since: change.Since.Format(time.DateOnly),
		ReadingsBefore: s.Readings[stage], ReadingsAfter: s.Readings[stage+1],
		Drop: change.Drop, Outlay: change.Outlay,
	}
}

// reckon works out the hours of the step's tasks before and after a change.
func (m *Models) reckon(made *Made, s *condense.Stages, stage int, load stepfit.Load) {
	before, after := make(linear, len(m.Steps)), make(linear, len(m.Steps))
	before[s.At[stage]] = load.By(s.Hoped[stage])
	hours := func(l linear) study.Maybe {
		return study.Known(m.evaluate(workload{loads: l}, asModelled).value * m.perHour())
	}
	if !made.Drop {
		after[s.At[stage+1]] = load
	}
	if made.ReadingsAfter > 0 || made.Drop {
		made.After = hours(after)
	}
	if m.Steps[s.At[stage]].isGap() && load != (stepfit.Load{}) {
		return
	}
	made.Before = hours(before)
	change := m.Study.Made[s.Changes[stage]]
	switch {
	case made.Drop:
		made.Hoped = made.Before
	case change.HasHoped:
		hoped := make(linear, len(m.Steps))
		hoped[s.At[stage]] = before[s.At[stage]].By(change.Hoped())
		made.Hoped = study.Known(hours(before).Value - hours(hoped).Value)
	}
	if !made.After.Known {
		return
	}
	span := m.span(workload{loads: before.minus(after)}).times(m.perHour())
	made.Saved, made.Low, made.High, made.P = study.Known(span.Value), span.Low, span.High, span.P
}

// payBack says when a change's outlay is earned.
func (m *Models) payBack(made *Made, change study.MadeChange, heads int) {
	if m.Study.Labour == nil || !change.Outlay.Known || !made.Saved.Known || made.Saved.Value <= 0 {
		return
	}
	grows := func(saved float64) float64 { return change.Outlay.Value / (saved * m.Study.Labour.PerHour()) }
	made.Payback = study.Known(grows(made.Saved.Value) * float64(heads))
	on := func(saved study.Maybe) (day time.Time, text *string) {
		if !saved.Known || saved.Value <= 0 || m.Study.SowEveryDays == 0 {
			return day, nil
		}
		days := math.Ceil(grows(saved.Value) * float64(m.Study.SowEveryDays))
		if days > maxPayback {
			return day, nil
		}
		day = change.Since.AddDate(0, 0, int(days))
		date := day.Format(time.DateOnly)
		return day, &date
	}
	day, date := on(made.Saved)
	if date == nil {
		return
	}
	made.PaybackOn = date
	_, made.PaybackFrom = on(made.High)
	_, made.PaybackTo = on(made.Low)
	made.PaidBack = made.Low.Known && made.Low.Value > 0 && made.LastTimed != condense.NoDay && condense.DayOf(day) <= made.LastTimed
}

// maxPayback is how many days on a payback is given a date.
const maxPayback = 100_000

// oneGrowEachSide says that the readings before a change are all of one grow, or those
// after it, which the other side has not: the change and the grow cannot be told apart.
func (m *Models) oneGrowEachSide(s *condense.Stages, stage int) bool {
	if s.Readings[stage] == 0 || s.Readings[stage+1] == 0 {
		return false
	}
	var sides [2][]string
	for side, at := range s.At[stage : stage+2] {
		kinds := &m.Steps[at].Kinds
		if kinds.Joined {
			return false
		}
		sides[side], _ = kinds.Tallies(byGrow.nameIn)
	}
	for side, grows := range sides {
		if len(grows) == 1 && grows[0] != "" && !slices.Contains(sides[1-side], grows[0]) {
			return true
		}
	}
	return false
}

// droppedBy is the change by which a step was no longer done on a day, nil where it was.
func (m *Models) droppedBy(step int, day condense.Day) *study.MadeChange {
	for i := range m.Study.Made {
		if c := &m.Study.Made[i]; c.Drop && day != condense.NoDay && m.Index[c.Step] == step && day >= condense.DayOf(c.Since) {
			return c
		}
	}
	return nil
}
