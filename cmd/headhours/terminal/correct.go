package terminal

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// atHand is the reading that runs, else the one that ended last.
func (s *screen) atHand() (stopwatch.Reading, bool) {
	if r, runs := s.state.Running(); runs {
		return r, true
	}
	r, some := s.last()
	if !some {
		s.notice = "there is no reading yet"
	}
	return r, some
}

// note asks for a note on the reading that runs, else the last, else the session.
func (s *screen) note() ask {
	if len(s.state.Readings) == 0 {
		return noteOn("", "note on the session")
	}
	r, _ := s.atHand()
	return noteOn(r.ID, "note on "+reading(r))
}

func noteOn(id, question string) ask {
	event := func(text string) stopwatch.Event {
		return stopwatch.Event{Kind: stopwatch.Note, Of: id, Text: text}
	}
	return ask{question: question, keep: event, answer: func(_ *screen, text string, _ stopwatch.Instant) (outcome, string) {
		return press(event(text)), ""
	}}
}

// reasons are those that most often void a reading.
var reasons = []string{"interrupted", "clock forgotten", "wrong step", "something went wrong"}

// voidOf asks why a reading does not count. It is of the session at hand, or in
// another.
func (s *screen) voidOf(r stopwatch.Reading, in string) ask {
	event := func(text string) stopwatch.Event {
		return stopwatch.Event{Kind: stopwatch.Void, Of: r.ID, Text: text}
	}
	return ask{
		question: fmt.Sprintf("why does %s not count?", reading(r)), hints: reasons, keep: event,
		answer: func(_ *screen, text string, _ stopwatch.Instant) (outcome, string) {
			return outcome{events: []stopwatch.Event{event(text)}, in: in}, ""
		},
	}
}

// endedWhen asks when a reading ended.
func endedWhen(r stopwatch.Reading, in string) ask {
	return ask{
		question: fmt.Sprintf("when did %s end? 14:05, or how many minutes ago", reading(r)),
		answer: func(_ *screen, text string, at stopwatch.Instant) (outcome, string) {
			end, ok := parseWhen(text, r.Began, at.Wall)
			if !ok {
				return outcome{}, fmt.Sprintf("%q: a time of day such as 14:05 is needed, or minutes", text)
			}
			return outcome{events: []stopwatch.Event{{Kind: stopwatch.Amend, Of: r.ID, End: end}}, in: in}, ""
		},
	}
}

// amend lets a reading of the session be chosen, the last first, then what is to
// be put right.
func (s *screen) amend() {
	var items []item
	for _, r := range slices.Backward(s.state.Readings) {
		items = append(items, item{text: s.line(r), do: func(s *screen, _ stopwatch.Instant) outcome {
			s.mode = s.amendOf(r)
			return outcome{}
		}})
	}
	if len(items) == 0 {
		s.notice = "there is no reading yet"
		return
	}
	s.mode = pick{question: "which reading is to be put right?", items: numbered(items)}
}

// line is a reading on a line.
func (d *desk) line(r stopwatch.Reading) string {
	parts := []string{r.Began.Format("15:04"), r.Step}
	switch {
	case r.Ended.IsZero():
		parts = append(parts, "running")
	default:
		parts = append(parts, clock(r.Seconds))
	}
	switch {
	case r.Counted.Known:
		parts = append(parts, d.counted(r.Count, r.Step))
	case !r.Ended.IsZero():
		parts = append(parts, d.unknownCount(r.Step))
	}
	if r.Void != "" {
		parts = append(parts, "void: "+r.Void)
	}
	return strings.Join(parts, "  ")
}

func (s *screen) amendOf(r stopwatch.Reading) pick {
	to := func(a ask) func(*screen, stopwatch.Instant) outcome {
		return func(s *screen, _ stopwatch.Instant) outcome { s.mode = a; return outcome{} }
	}
	figure := func(what string, check func(study.Maybe) string, set func(*stopwatch.Event, study.Maybe)) ask {
		return ask{question: fmt.Sprintf("%s: %s?", reading(r), what), answer: func(_ *screen, text string, _ stopwatch.Instant) (outcome, string) {
			n, err := numberIn(text)
			if err != nil {
				return outcome{}, err.Error()
			}
			if wrong := check(n); wrong != "" {
				return outcome{}, wrong
			}
			e := stopwatch.Event{Kind: stopwatch.Amend, Of: r.ID}
			set(&e, n)
			return press(e), ""
		}}
	}
	return pick{question: s.line(r) + ": what is to be put right?", items: []item{
		{"c", "count", to(figure("how many "+s.units(r.Step), s.countOnce(r), func(e *stopwatch.Event, n study.Maybe) { e.Count = n }))},
		{"t", "when it ended", to(endedWhen(r, ""))},
		{"s", "step", func(s *screen, _ stopwatch.Instant) outcome { s.mode = s.stepOf(r); return outcome{} }},
		{"p", "people", to(figure("how many people, on average", anyFigure, func(e *stopwatch.Event, n study.Maybe) { e.People = n }))},
		{"r", "how often got ready", to(figure("how often did you get ready", anyFigure, func(e *stopwatch.Event, n study.Maybe) { e.Setups = n }))},
		{"n", "note", to(noteOn(r.ID, "note on "+reading(r)))},
		{"v", "void", to(s.voidOf(r, ""))},
	}}
}

// anyFigure finds nothing wrong.
func anyFigure(study.Maybe) string { return "" }

// countOnce says what is wrong with a count of a reading that is typed: that it cannot
// be, and, of one that is far from what is due, once that it is odd.
func (s *screen) countOnce(r stopwatch.Reading) func(study.Maybe) string {
	var figure study.Maybe
	return func(n study.Maybe) string {
		if err := s.barred(r.Step, n.Value); err != nil {
			return err.Error()
		}
		why := s.farOff(r, n.Value)
		if why == "" || n == figure {
			s.isRight(stopwatch.Reading{ID: r.ID, Reading: study.Reading{Count: n.Value}})
			return ""
		}
		figure = n
		return why + "? enter once more if that is right"
	}
}

// stepOf lets the step of a reading be chosen.
func (s *screen) stepOf(r stopwatch.Reading) pick {
	var items []item
	for _, name := range s.study.StepNames() {
		items = append(items, item{text: name, do: func(*screen, stopwatch.Instant) outcome {
			return press(stopwatch.Event{Kind: stopwatch.Amend, Of: r.ID, Step: name})
		}})
	}
	return pick{question: "which step was " + reading(r) + "?", items: numbered(items)}
}
