package terminal

import (
	"strconv"
	"strings"
	"time"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// typing is how long after a digit the next one belongs to the same number.
const typing = 10 * time.Second

// maxDigits keeps a number within what a count may be.
const maxDigits = 9

// entering says whether a number is being typed.
func (s *screen) entering(at stopwatch.Instant) bool {
	return s.entry.id != "" && at.Wall.Sub(s.entry.at) < typing
}

// digit takes a key that belongs to a count; false where it does not.
func (s *screen) digit(k keystroke, at stopwatch.Instant) (outcome, bool) {
	isDigit := len(k.text) == 1 && k.text >= "0" && k.text <= "9"
	isPoint := k.text == "." || k.text == ","
	switch {
	case k.name == "backspace":
		return s.unDigit(at), true
	case !isDigit && !isPoint:
		return outcome{}, false
	}
	if !s.entering(at) {
		r, ok := s.countOf()
		if !ok {
			s.notice = "there is no reading yet to count for"
			return outcome{}, true
		}
		s.entry = digitEntry{id: r.ID, ended: !r.Ended.IsZero()}
	}
	s.entry.at = at.Wall
	switch {
	case isPoint && !strings.Contains(s.entry.text, "."):
		s.entry.text += "."
		return outcome{}, true
	case isPoint:
		return outcome{}, true
	case len(s.entry.text) == maxDigits:
		s.notice = "that is a large count: is it one?"
		return outcome{}, true
	}
	count, _ := strconv.ParseFloat(s.entry.text+k.text, 64) // digits and at most one point
	for _, r := range s.state.Readings {
		if err := s.barred(r.Step, count); r.ID == s.entry.id && err != nil {
			s.notice = err.Error()
			return outcome{}, true
		}
	}
	s.entry.text += k.text
	return press(stopwatch.Event{Kind: stopwatch.Count, Of: s.entry.id, Count: study.Known(count)}), true
}

// unDigit takes the last digit of the number that is being typed back.
func (s *screen) unDigit(at stopwatch.Instant) outcome {
	if !s.entering(at) || s.entry.text == "" {
		s.notice = "nothing is being typed: [u] takes presses back"
		return outcome{}
	}
	last := len(s.entry.text) - 1
	point := s.entry.text[last] == '.'
	s.entry.text, s.entry.at = s.entry.text[:last], at.Wall
	if point {
		return outcome{}
	}
	return press(stopwatch.Event{Kind: stopwatch.Undo})
}

// countOf is the reading that digits count for: the first that has ended and
// lacks its count, else the one that runs, else the last.
func (s *screen) countOf() (stopwatch.Reading, bool) {
	if r, ok := s.uncounted(); ok {
		return r, true
	}
	if r, runs := s.state.Running(); runs {
		return r, true
	}
	return s.last()
}

// openQuestion is the reading whose count is asked for: the one that it is being typed
// for, if it has ended, else the first that lacks it.
func (s *screen) openQuestion(at stopwatch.Instant) (stopwatch.Reading, bool) {
	if s.entering(at) && s.entry.ended {
		for _, r := range s.state.Readings {
			if r.ID == s.entry.id {
				return r, true
			}
		}
	}
	return s.uncounted()
}

// typed is the digits of the count that is asked for.
func (s *screen) typed(at stopwatch.Instant) string {
	if s.entering(at) && s.entry.ended {
		return s.entry.text
	}
	return ""
}

// oddNow is odd, save that a number that is still being typed may yet grow.
func (s *screen) oddNow(at stopwatch.Instant) (stopwatch.Reading, string) {
	r, why := s.odd()
	if s.entering(at) && s.entry.id == r.ID && r.Count == 0 {
		return r, ""
	}
	if i, ok := s.taskDoneIn(r); ok && s.entering(at) && s.entry.id == r.ID && r.Count < s.tasks[i].Count.Value {
		return r, ""
	}
	return r, why
}
