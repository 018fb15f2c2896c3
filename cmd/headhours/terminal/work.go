package terminal

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

func (w workMode) key(s *screen, k keystroke, at stopwatch.Instant) outcome {
	if do, digit := s.digit(k, at); digit {
		return do
	}
	right := k.name == "enter" && s.entering(at) && s.entry.ended
	s.entry = digitEntry{}
	if right { // the count of a reading that has ended; what runs goes on
		return outcome{}
	}
	switch strings.ToLower(k.name) {
	case "space", "enter":
		return s.goOn()
	case "l":
		if err := s.noLap(); err != nil {
			s.notice = err.Error()
			return outcome{}
		}
		s.snooze = 0
		return press(stopwatch.Event{Kind: stopwatch.Lot})
	case "e":
		s.mark = noMark
		return press(stopwatch.Event{Kind: stopwatch.Stop})
	case "p":
		return s.pause()
	case "+", "=":
		return s.morePeople(1)
	case "-":
		return s.morePeople(-1)
	case "u":
		return s.undo()
	case "n":
		s.mode = s.note()
	case "v":
		s.aboutReading(func(r stopwatch.Reading) mode { return s.voidOf(r, "") })
	case "t":
		s.aboutReading(func(r stopwatch.Reading) mode { return endedWhen(r, "") })
	case "a":
		s.amend()
	case "c":
		return s.takePlanned()
	case "y":
		if r, why := s.odd(); why != "" {
			s.isRight(r)
			return outcome{}
		}
		if s.question(at) != "" {
			s.snooze = 2 * s.state.Elapsed(at).Seconds()
		}
	case "o":
		s.mode = s.ofWhichStep()
	case "g":
		s.mode = s.forWhom()
	case "up":
		s.move(-1)
	case "down":
		s.move(1)
	case "q":
		return s.quit()
	}
	return outcome{}
}

// takePlanned gives the reading whose count is asked for the one that is due.
func (s *screen) takePlanned() outcome {
	r, some := s.uncounted()
	n, ok := s.planned(r)
	if !some || !ok {
		s.notice = "no count is asked for that the plan knows: type it"
		return outcome{}
	}
	return press(stopwatch.Event{Kind: stopwatch.Count, Of: r.ID, Count: study.Known(n)})
}

func (s *screen) pause() outcome {
	if s.state.Paused {
		return press(stopwatch.Event{Kind: stopwatch.Resume})
	}
	return press(stopwatch.Event{Kind: stopwatch.Pause})
}

// aboutReading goes to a question about the reading that runs, else about the
// last.
func (s *screen) aboutReading(question func(stopwatch.Reading) mode) {
	if r, some := s.atHand(); some {
		s.mode = question(r)
	}
}

// goOn is the big key: it starts, ends and goes on, or resumes.
func (s *screen) goOn() outcome {
	_, runs := s.state.Running()
	i := s.marked()
	if !s.state.Paused {
		s.mark = noMark
		s.snooze = 0
	}
	switch {
	case s.state.Paused:
		return press(stopwatch.Event{Kind: stopwatch.Resume})
	case runs && i >= 0:
		return press(s.tasks[i].begin(stopwatch.Next))
	case runs:
		return press(stopwatch.Event{Kind: stopwatch.Stop})
	case i >= 0:
		return press(s.tasks[i].begin(stopwatch.Start))
	}
	s.notice = "nothing comes next by the plan: choose a step with the arrow keys"
	return outcome{}
}

func (s *screen) move(by int) {
	i := s.marked()
	if i < 0 { // from where the plan stands
		i = slices.IndexFunc(s.tasks, func(t task) bool { return t.now })
		if i < 0 && by < 0 {
			i = len(s.tasks)
		}
	}
	s.mark = min(max(0, i+by), len(s.tasks)-1)
}

// morePeople is one more or one fewer at work.
func (s *screen) morePeople(by float64) outcome {
	n := s.people() + by
	if n <= 0 {
		s.notice = "at least one is at work: [p] pauses, [e] ends"
		return outcome{}
	}
	return press(stopwatch.Event{Kind: stopwatch.People, People: study.Known(n)})
}

func (s *screen) undo() outcome {
	what := s.undoes
	if what == "" {
		s.notice = "there is nothing to undo"
		return outcome{}
	}
	s.mark = noMark
	return outcome{events: []stopwatch.Event{{Kind: stopwatch.Undo}}, then: func(err error, _ stopwatch.Instant) outcome {
		if err == nil {
			s.notice = "taken back: " + what
		}
		return outcome{}
	}}
}

func (w workMode) legend(s *screen, at stopwatch.Instant) []hint {
	var hints []hint
	add := func(when bool, key, does, short string) {
		if when {
			hints = append(hints, hint{key, does, short})
		}
	}
	long, short := s.bigKey()
	if s.entering(at) && s.entry.ended {
		of, _ := s.openQuestion(at)
		add(true, "0-9", "count of "+of.Step, "count")
		add(true, "enter", "that is right", "right")
		add(long != "", "space", long, short)
		add(true, "backspace", "last digit", "back")
		return hints
	}
	_, runs := s.state.Running()
	some, isAsked := len(s.state.Readings) > 0, s.question(at) != ""
	_, odd := s.oddNow(at)
	lacking, lacks := s.uncounted()
	due, offers := s.planned(lacking)
	add(long != "", "space", long, short)
	add(isAsked, "t", "say when", "when")
	add(odd != "", "y", "that is right", "right")
	add(isAsked && odd == "", "y", "still at it", "still")
	add(lacks && offers, "c", fmt.Sprintf("count %s, as is due", words.UpTo(due, 2)), "due")
	add(some && s.noLap() == nil, "l", "next lap", "lot")
	add(runs && (s.marked() >= 0 || s.state.Paused), "e", "end", "")
	add(runs && !s.state.Paused, "p", "pause", "")
	add(some, "0-9", s.countsOf(), "count")
	add(true, "+ -", "people", "")
	add(true, "n", "note", "")
	add(some && !isAsked, "t", "ended when", "when")
	add(some, "v", "void", "")
	add(s.undoes != "", "u", "undo "+s.undoes, "undo")
	add(some, "a", "amend", "")
	add(true, "o", "done otherwise", "else")
	add(true, "g", "grow", "")
	add(true, "↑↓", "choose", "list")
	add(true, "q", "quit", "")
	return hints
}

// bigKey is what space and enter do, at length and in a word; "" where they do
// nothing.
func (s *screen) bigKey() (long, short string) {
	_, runs := s.state.Running()
	i := s.marked()
	switch {
	case s.state.Paused:
		return "go on", ""
	case runs && i >= 0:
		return "end, on to " + s.tasks[i].Step, "next"
	case runs:
		return "end", ""
	case i >= 0:
		return "start " + s.tasks[i].Step, "start"
	}
	return "", ""
}

// countsOf says what digits count.
func (s *screen) countsOf() string {
	r, _ := s.countOf()
	return "count of " + r.Step
}
