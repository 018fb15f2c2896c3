package terminal

import (
	"fmt"
	"math"
	"slices"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// enough is the share of what is due from which on a task is done.
const enough = 0.995

// isDone says whether a task is: it was timed, and not less of it than is due, as far as
// that is known.
func (t task) isDone() bool {
	return t.readings > 0 && !t.now && (!t.Count.Known || t.uncounted > 0 || t.count > enough*t.Count.Value)
}

// shortly is a count of a step as a plan has it: whole, since there is no tenth of a plant;
// of few with a decimal where it is of a measure, such as litres, or given by the study.
func (d *desk) shortly(step string, n float64) float64 {
	ofStudy := slices.ContainsFunc(d.tasks, func(t task) bool { return t.Step == step && t.Fixed })
	if n < 10 && (ofStudy || words.IsMeasure(d.per(step))) {
		return math.Round(10*n) / 10
	}
	return math.Round(n)
}

// taskDoneIn is the task of the plan in hand that a reading belongs to; false where it
// is of another plan or its task has no count that is known.
func (d *desk) taskDoneIn(r stopwatch.Reading) (at int, ok bool) {
	if r.Grow != d.names.Grow || r.Workflow != d.names.Workflow {
		return 0, false
	}
	at = d.taskOf(r.Reading, d.sownOn)
	return at, at >= 0 && d.tasks[at].Count.Known
}

// planned is the count that the plan leaves to a reading: what is due of its task less
// what the others covered. Nobody knows that while one of them has no count, or is void
// in the session at hand.
func (d *desk) planned(r stopwatch.Reading) (count float64, ok bool) {
	at, ok := d.taskDoneIn(r)
	if !ok {
		return 0, false
	}
	left := d.tasks[at].Count.Value
	for _, o := range d.growReadings() {
		switch {
		case o.ID == r.ID || d.taskOf(o.Reading.Reading, d.sownOn) != at:
		case !o.Counts() && o.ID == "": // of an earlier day
		case !o.Counts() || !o.Counted.Known:
			return 0, false
		default:
			left -= o.Count
		}
	}
	left = d.shortly(r.Step, left)
	return left, left > 0
}

// farOff says what is odd about the count of a reading: ten times what is due or more, or
// of a reading that has ended a tenth and less, or 0 where it was not getting ready alone.
// "" where nothing is.
func (d *desk) farOff(r stopwatch.Reading, n float64) string {
	if n == 0 && !r.Ended.IsZero() && r.Setups.Value == 0 {
		return fmt.Sprintf("%s: %s and no setup, so it is in no answer", r.Step, d.counted(0, r.Step))
	}
	at, ok := d.taskDoneIn(r)
	if !ok || n == 0 {
		return ""
	}
	due := d.tasks[at].Count.Value
	more, less := n >= 10*due, n <= due/10 && due >= 10 && !r.Ended.IsZero() && r.Setups != study.Known(0)
	if due <= 0 || !more && !less {
		return ""
	}
	are := "are"
	if d.shortly(r.Step, due) == 1 {
		are = "is"
	}
	return fmt.Sprintf("%s: %s, where %s %s due", r.Step, d.counted(n, r.Step), d.counted(d.shortly(r.Step, due), r.Step), are)
}

// odd is the reading that was counted last and what is odd about that, "" where nothing
// is or where it was said to be right.
func (d *desk) odd() (r stopwatch.Reading, why string) {
	for _, r := range d.state.Readings {
		right, sure := d.sure[r.ID]
		if r.ID == d.counting && r.Counts() && r.Counted.Known && !(sure && right == r.Count) {
			return r, d.farOff(r, r.Count)
		}
	}
	return stopwatch.Reading{}, ""
}

// isRight takes it that the count of a reading is.
func (d *desk) isRight(r stopwatch.Reading) {
	if d.sure == nil {
		d.sure = map[string]float64{}
	}
	d.sure[r.ID] = r.Count
}

// maxCount is how many a reading of a step may be of, unknown where it may be of any number:
// visits are as many as the study says of each time, else one.
func (d *desk) maxCount(step string) study.Maybe {
	if d.per(step) != "visit" {
		return study.Maybe{}
	}
	visits := 1.0
	for _, t := range d.tasks {
		if t.Step == step && t.Fixed {
			visits = max(visits, t.Count.Value)
		}
	}
	return study.Known(visits)
}

// barred says why a count cannot be of a step; nil where it can.
func (d *desk) barred(step string, count float64) error {
	limit := d.maxCount(step)
	switch {
	case !limit.Known || count <= limit.Value:
		return nil
	case limit.Value == 1:
		return fmt.Errorf("%s is counted by the visit, and a reading is one visit: start it again for another", step)
	}
	return fmt.Errorf("%s is of %s each time: start it again for more", step, d.counted(limit.Value, step))
}

// noLap says why the last reading's step has no laps: each would count as a visit of its own; nil
// where it may have some.
func (d *desk) noLap() error {
	n := len(d.state.Readings)
	if n == 0 || d.per(d.state.Readings[n-1].Step) != "visit" {
		return nil
	}
	return fmt.Errorf("%s is counted by the visit, and a lap would be one more: pause and resume it, or start it again for another", d.state.Readings[n-1].Step)
}

// countWord is what is counted of the reading that runs, and of how many.
func (d *desk) countWord(r stopwatch.Reading) string {
	due := d.dueOf(r.Step)
	switch {
	case slices.ContainsFunc(d.tasks, func(t task) bool { return t.now && t.Fixed && t.Count == r.Counted }):
		return "" // it was known beforehand
	case r.Counted.Known && due.Known:
		return fmt.Sprintf("%s of %s", words.UpTo(r.Count, 2), d.counted(d.shortly(r.Step, due.Value), r.Step))
	case r.Counted.Known:
		return d.counted(r.Count, r.Step)
	case due.Known:
		return "? of " + d.counted(d.shortly(r.Step, due.Value), r.Step)
	}
	return d.unknownCount(r.Step)
}
