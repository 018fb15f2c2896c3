package timing

import (
	"math"
	"slices"
	"strings"
)

// fill finds the readings of a plan, one choice after the other: the next goes where
// it narrows the answer most. A step without two degrees of freedom of its own, or
// whose counts are alike, may need two or three readings before it does, so for such
// steps these are looked at together, by what each brings. At last whatever the goal
// can do without is taken away again.
func (f *forecast) fill(plan *Plan) {
	now, perHour := f.outlook(-1, nil), f.models.perHour()
	f.answer = now.Value
	hours := now.times(perHour)
	plan.Hours, plan.Low, plan.High, plan.Now = hours.Value, hours.Low, hours.High, Known(f.half(now)*perHour)
	reached := now
	for len(f.calls) < MostPlanned && !f.met(reached) {
		next, ok := f.best(f.half(f.apart(-1, nil)), MostPlanned-len(f.calls))
		if !ok {
			break
		}
		f.take(append(f.calls, next...), next[0].step)
		reached = f.outlook(-1, nil)
	}
	if f.met(reached) {
		reached = f.prune(reached)
	}
	plan.Meets = f.met(reached)
	plan.Reached = Known(f.half(reached) * perHour)
	plan.Readings = append(plan.Readings, f.rows()...)
	share := usualWithin
	if plan.Within.Known {
		share = plan.Within.Value
	}
	plan.Steps = f.stepNeeds(share)
	plan.Notes = append(plan.Notes, f.notes()...)
}

// take makes calls the readings so far, of which those of one step are new or gone.
func (f *forecast) take(calls []call, step int) {
	f.calls = calls
	f.fits[step] = f.prospects[step].with(of(calls, step))
}

// best are the readings of one step that narrow an answer most, each of them, from a
// half width; false where none do, or no more than so many would.
func (f *forecast) best(half float64, most int) (best []call, ok bool) {
	gain := 0.0
	for _, i := range f.steps {
		for _, block := range f.blocks(i) {
			if len(block) > most {
				continue
			}
			model := f.prospects[i].with(append(of(f.calls, i), block...))
			then := f.half(f.apart(i, model))
			each := (half - then) / float64(len(block))
			if math.IsInf(half, 1) {
				// first to any interval at all, the narrowest by the fewest readings
				each = 1 / (then * float64(len(block)))
			}
			if each > gain*(1+1e-9) && each > 1e-9*then {
				best, gain = block, each
			}
		}
	}
	return best, best != nil
}

// blocks are the readings of a step to look at together: one at each count, and all
// pairs and threes where one may tell too little.
func (f *forecast) blocks(step int) [][]call {
	size := 3
	if model := f.fits[step]; model.Bracket == nil && model.Readings-model.Form.Parameters() >= 2 {
		size = 1
	}
	return multisets(f.prospects[step].counts, size)
}

// multisets are all choices of up to so many calls, the smaller first.
func multisets(calls []call, size int) [][]call {
	var all [][]call
	from := [][]call{nil}
	for range size {
		var longer [][]call
		for _, set := range from {
			first := 0
			if len(set) > 0 {
				first = slices.Index(calls, set[len(set)-1])
			}
			for _, c := range calls[first:] {
				longer = append(longer, append(slices.Clone(set), c))
			}
		}
		all, from = append(all, longer...), longer
	}
	return all
}

// prune takes away readings that the goal can do without, the latest first.
func (f *forecast) prune(reached Span) Span {
	for k := len(f.calls) - 1; k >= 0; k-- {
		all, step := f.calls, f.calls[k].step
		f.take(slices.Delete(slices.Clone(all), k, k+1), step)
		if without := f.outlook(-1, nil); f.met(without) {
			reached = without
		} else {
			f.take(all, step)
		}
	}
	return reached
}

// notes say what a plan rests on.
func (f *forecast) notes() []string {
	notes := []string{"further readings are taken to vary as the readings so far, or as other steps do, and to leave the times as they are"}
	var assumed, bracketed []string
	for _, i := range f.steps {
		name := f.models.Steps[i].Step.Name
		if f.prospects[i].assumed {
			assumed = append(assumed, name)
		}
		if f.prospects[i].now.Bracket != nil {
			bracketed = append(bracketed, name)
		}
	}
	if assumed != nil {
		notes = append(notes, "nothing is known of how much these vary, so a variation of "+percent(AssumedCV)+" is assumed: "+strings.Join(assumed, ", "))
	}
	if bracketed != nil {
		notes = append(notes, "always timed at about the same count, so a very different count, the setup alone, or one visit in laps, tells setup and unit time apart: "+strings.Join(bracketed, ", "))
	}
	return notes
}
