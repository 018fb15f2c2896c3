package cues

import (
	"math"
	"slices"
	"time"

	"headhours/timing/notation"
	"headhours/timing/study"
	"headhours/timing/words"
)

// reading is what the cues of a group say. It is worth nothing where some of it
// is a problem.
func (r *reader) reading(g group) study.Reading {
	var shown float64 // nanoseconds
	for _, c := range g.parts {
		shown += float64(c.end - c.start)
	}
	setups := r.numberOf(g, "setups")
	people := r.numberOf(g, "people")
	if !people.Known {
		people.Value = 1
	} else if people.Value == 0 {
		r.problem(g.values["people"].line, "people %s is not above 0", words.Quote(g.values["people"].text))
	}
	reading := study.Reading{
		Place:    study.Place{File: r.file, Line: g.line},
		Date:     r.date(g),
		Grow:     orElse(g.values["grow"], r.opts.Grow),
		Workflow: r.nameOf("workflow", g.values["workflow"], r.opts.Workflows, r.opts.Workflow),
		Step:     r.nameOf("step", g.step, r.opts.Steps, ""),
		Worker:   orElse(g.values["worker"], r.opts.Worker),
		People:   people.Value,
		Seconds:  math.Round(shown*r.opts.Speed) / 1e9, // what a product has below a nanosecond is rounding
		Count:    r.count(g, setups.Value),
		Setups:   setups,
		Source:   study.Film,
		Rating:   100,
		Void:     g.values["void"].text,
		Note:     g.values["note"].text,
	}
	if len(r.problems) == 0 && (math.IsInf(reading.Basic(), 0) || reading.Seconds <= 0) {
		r.problem(g.line, "time × speed × people is no time that can be: %v s × %v × %v", shown/1e9, r.opts.Speed, people.Value)
	}
	return reading
}

// nameOf is a name that must be one of those there are.
func (r *reader) nameOf(kind string, v lineText, names []string, otherwise string) string {
	if v.text != "" && names != nil && !slices.Contains(names, v.text) {
		if r.problems.Count() >= study.MaxProblems {
			names = nil // the nearest would not be listed
		}
		r.problem(v.line, "%v", study.UnknownName{Kind: kind, Name: v.text, Known: names})
	}
	return orElse(v, otherwise)
}

// numberOf is a value that is digits with at most one decimal point, as in a task
// log; unknown where the cues do not say it or it is a problem.
func (r *reader) numberOf(g group, key string) study.Maybe {
	v, found := g.values[key]
	if !found {
		return study.Maybe{}
	}
	x, err := notation.Number(v.text, false)
	if err != nil {
		r.problem(v.line, "%s %s %v", key, words.Quote(v.text), err)
		return study.Maybe{}
	}
	return study.Known(x)
}

// count may be 0 only where the cues say that the step was set up: getting ready
// alone.
func (r *reader) count(g group, setups float64) float64 {
	count := r.numberOf(g, "count")
	switch v, found := g.values["count"]; {
	case !found:
		r.problem(g.line, "%s lacks a count: say how many units it covered, count: 24 below the step or x24 behind it in a mark", words.Quote(g.step.text))
	case count.Known && count.Value == 0 && setups == 0:
		r.problem(v.line, "count %s is not above 0: only a cue with setups above 0 may do without", words.Quote(v.text))
	}
	return count.Value
}

func (r *reader) date(g group) time.Time {
	v, found := g.values["date"]
	if !found {
		return r.opts.Date
	}
	day, err := time.Parse(time.DateOnly, v.text)
	if err != nil || day.IsZero() { // the zero time means that no date was noted
		r.problem(v.line, "date %s is not a date: YYYY-MM-DD, a day of the calendar", words.Quote(v.text))
	}
	return day
}
