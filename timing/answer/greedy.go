package answer

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// fill finds the readings of a plan, one choice after the other: the next goes where
// it narrows the answer most. A step without two degrees of freedom of its own, or
// whose counts are alike, may need two or three readings before it does, so for such
// steps these are looked at together, by what each brings. At last whatever the goal
// can do without is taken away again.
func (f *forecast) fill(plan *Plan) {
	now, perHour := f.outlook(), f.models.perHour()
	f.answer, f.nowDF = now.Value, now.DF
	hours := now.times(perHour)
	plan.Hours, plan.Low, plan.High, plan.Now = hours.Value, hours.Low, hours.High, study.Known(f.halfWidth(now)*perHour)
	reached, narrowest, least := now, f.planned, f.halfWidth(now)
	for len(f.planned) < MaxPlanned && !f.meetsGoal(reached) {
		next, ok := f.best(f.halfWidth(f.apart(nil)), MaxPlanned-len(f.planned))
		if !ok {
			break
		}
		f.take(append(f.planned, next...))
		reached = f.outlook()
		if width := f.halfWidth(reached); width < least {
			narrowest, least = slices.Clone(f.planned), width
		}
	}
	switch {
	case f.meetsGoal(reached):
		reached = f.prune(reached)
	case len(narrowest) < len(f.planned): // more of a step's own scatter may make it borrow from others
		f.take(narrowest)
		reached = f.outlook()
	}
	// of a difference that lacks a step nothing is clear
	plan.Meets = f.meetsGoal(reached) && !(f.goal == GoalClear && len(plan.Gaps) > 0)
	plan.Reached = study.Known(f.halfWidth(reached) * perHour)
	plan.Surely, plan.Aim = study.Known(f.surely(reached)*perHour), study.Known(f.aim()*perHour)
	plan.Readings = append(plan.Readings, f.rows()...)
	plan.FurtherGrows = furtherGrows(f.planned)
	plan.WorthMore = f.worthMore(now)
	share := usualWithin
	if plan.Within.Known {
		share = plan.Within.Value
	}
	plan.Steps = f.stepNeeds(share)
	plan.Notes = append(plan.Notes, f.notes()...)
}

// take makes calls the readings so far.
func (f *forecast) take(planned []plannedReading) {
	f.planned = nil
	for _, i := range f.steps {
		if countOf(planned, i) != f.foreseen[i].own {
			f.foreseen[i] = f.asItIs(i)
			f.foreseen[i] = f.further(i, planned)
		}
	}
	f.planned = planned
}

// best are the readings that narrow an answer most, each of them, from a half width: of one
// step, or of all in a further grow; false where none do, or no more than so many would.
func (f *forecast) best(width float64, maxReadings int) (best []plannedReading, ok bool) {
	gain := 0.0
	for _, block := range f.candidates() {
		if len(block) > maxReadings {
			continue
		}
		if each := f.gain(width, block); each > gain*(1+1e-9) && each > 1e-9*abs(f.answer) {
			best, gain = block, each
		}
	}
	return best, best != nil
}

// gain is by how much each reading of a block narrows the answer from a half width.
func (f *forecast) gain(width float64, block []plannedReading) float64 {
	then := f.halfWidth(f.apart(block))
	if math.IsInf(width, 1) {
		// first to any interval at all, the narrowest by the fewest readings
		return 1 / (then * float64(len(block)))
	}
	return (width - then) / float64(len(block))
}

// candidates are the blocks of readings to look at: those of each step, and where grows
// differ a further grow with a reading of every step.
func (f *forecast) candidates() [][]plannedReading {
	var all [][]plannedReading
	for _, i := range f.steps {
		all = append(all, f.blocks(i)...)
	}
	if grow := f.furtherGrow(); grow != nil {
		all = append(all, grow)
	}
	return all
}

// furtherGrow is a reading of every step in a grow that is yet to come; nil where grows are
// not known to differ.
func (f *forecast) furtherGrow() []plannedReading {
	if f.models.effect.none() || f.models.effect.by != byGrow {
		return nil
	}
	var grow []plannedReading
	for _, i := range f.steps {
		c := f.prospects[i].wholeVisit
		c.grow = furtherGrows(f.planned) + 1
		grow = append(grow, c)
	}
	return grow
}

// blocks are the readings of a step to look at together: one at each count, and all
// pairs and threes where one may tell too little.
func (f *forecast) blocks(step int) [][]plannedReading {
	size := 3
	if model := f.foreseen[step].model; model.Bracket == nil && model.Readings-model.Form.Parameters() >= 2 {
		size = 1
	}
	return multisets(f.prospects[step].choices, size)
}

// multisets are all choices of up to so many calls, the smaller first.
func multisets(planned []plannedReading, size int) [][]plannedReading {
	var all [][]plannedReading
	from := [][]plannedReading{nil}
	for range size {
		var longer [][]plannedReading
		for _, set := range from {
			first := 0
			if len(set) > 0 {
				first = slices.Index(planned, set[len(set)-1])
			}
			for _, c := range planned[first:] {
				longer = append(longer, append(slices.Clone(set), c))
			}
		}
		all, from = append(all, longer...), longer
	}
	return all
}

// prune takes away readings that the goal can do without, the latest first; a further grow
// goes as a whole.
func (f *forecast) prune(reached Span) Span {
	for again := true; again; {
		again = false
		for k := len(f.planned) - 1; k >= 0; k = min(k, len(f.planned)) - 1 {
			all, last := f.planned, f.planned[k]
			less := slices.Delete(slices.Clone(all), k, k+1)
			if last.grow > 0 {
				less = slices.DeleteFunc(slices.Clone(all), func(c plannedReading) bool { return c.grow == last.grow })
			}
			f.take(less)
			if without := f.outlook(); f.meetsGoal(without) {
				reached, again = without, true
			} else {
				f.take(all)
			}
		}
	}
	return reached
}

// notes say what a plan rests on.
func (f *forecast) notes() []string {
	notes := []string{"further readings are taken to vary as the readings so far, or as other steps do, and to leave the times as they are"}
	if f.sure > 0 && len(f.planned) > 0 {
		notes = append(notes, fmt.Sprintf("how much they vary is allowed for by an upper limit, so that such a plan is met in about %s of 100 cases", words.Digits(100*f.sure, 2)))
	}
	var assumed, bracketed []string
	for _, i := range f.steps {
		name := f.models.Steps[i].Step.Name
		if f.prospects[i].assumed {
			assumed = append(assumed, name)
		}
		if f.prospects[i].model.Bracket != nil {
			bracketed = append(bracketed, name)
		}
	}
	if assumed != nil {
		notes = append(notes, "nothing is known of how much these vary, so a variation of "+words.Percent(assumedCV, 3)+" is assumed: "+strings.Join(assumed, ", "))
	}
	if bracketed != nil {
		notes = append(notes, "always timed at about the same count, so a very different count, the setup alone, or one visit in laps, tells setup and unit time apart: "+strings.Join(bracketed, ", "))
	}
	return notes
}

// worthMore says whether a reading of each step in a further grow narrows the answer more,
// reading by reading, than the best ones in grows that were timed.
func (f *forecast) worthMore(now Span) Worth {
	planned := f.planned
	f.take(nil)
	defer f.take(planned)
	grow := f.furtherGrow()
	if grow == nil {
		return ""
	}
	width, best := f.halfWidth(now), 0.0
	for _, i := range f.steps {
		for _, block := range f.blocks(i) {
			best = max(best, f.gain(width, block))
		}
	}
	if f.gain(width, grow) > best {
		return WorthGrow
	}
	return WorthReading
}

// stepNeeds are the steps of a forecast one by one.
func (f *forecast) stepNeeds(share float64) []StepNeed {
	needs := []StepNeed{}
	z := stepfit.Quantile(f.models.Confidence, math.Inf(1))
	for _, i := range f.steps {
		s := f.models.Steps[i]
		p := f.prospects[i]
		need := StepNeed{
			Step: s.Step.Name, Readings: s.Readings, CV: p.cv, Assumed: p.assumed, Share: share,
			Handbook: int(math.Ceil(stepfit.CyclesNeeded(p.cv, share, z))),
		}
		if !s.isJudged() && !s.doubt.unknown {
			if n, ok := s.doubt.ReadingsFor(share, f.models.Confidence, f.models.lending.worth); ok {
				need.ByT = &n
			}
		}
		needs = append(needs, need)
	}
	return needs
}

// rows are the planned readings by step and count, in order of first call.
func (f *forecast) rows() []PlannedReadings {
	rows := []PlannedReadings{}
	for _, c := range f.planned {
		name := f.models.Study.Steps[c.step].Name
		at := slices.IndexFunc(rows, func(r PlannedReadings) bool {
			return r.Step == name && r.Count == c.load.Count && r.Setups == c.load.Setups
		})
		if at < 0 {
			at = len(rows)
			rows = append(rows, PlannedReadings{Step: name, Count: c.load.Count, Setups: c.load.Setups})
		}
		rows[at].Readings++
	}
	return rows
}
