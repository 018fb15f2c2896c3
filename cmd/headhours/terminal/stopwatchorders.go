package terminal

import (
	"errors"
	"fmt"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

func begins(kind stopwatch.EventKind) func(*lineFace, string) (string, error) {
	return func(l *lineFace, step string) (string, error) {
		if step == "" {
			next := l.following()
			if next < 0 {
				return "", errors.New("nothing comes next by the plan: name a step")
			}
			step = l.tasks[next].Step
		}
		step, err := nameOf("step", step, l.study.StepNames())
		if err != nil {
			return "", err
		}
		return string(kind) + " " + step, l.press(l.taskNamed(step).begin(kind))
	}
}

func simply(kind stopwatch.EventKind) func(*lineFace, string) (string, error) {
	return func(l *lineFace, _ string) (string, error) {
		return string(kind), l.press(stopwatch.Event{Kind: kind})
	}
}

func nextLap(l *lineFace, text string) (string, error) {
	if err := l.noLap(); err != nil {
		return "", err
	}
	return simply(stopwatch.Lot)(l, text)
}

func texted(kind stopwatch.EventKind) func(*lineFace, string) (string, error) {
	return func(l *lineFace, text string) (string, error) {
		if kind == stopwatch.Note && text == "" {
			return "", errors.New("note needs words: note two trays were wet")
		}
		return strings.TrimSpace(string(kind) + " " + text), l.press(stopwatch.Event{Kind: kind, Text: text})
	}
}

func figured(kind stopwatch.EventKind) func(*lineFace, string) (string, error) {
	return func(l *lineFace, text string) (string, error) {
		r, some := l.state.Running()
		if !some {
			r, some = l.last()
		}
		n, err := numberIn(text)
		if kind == stopwatch.Count && text == "" {
			n, err = l.due(r, some)
			if err != nil {
				return "", err
			}
		}
		if _, ok := parseNumber(text); err != nil && !ok {
			return "", fmt.Errorf("%w: %s", err, map[stopwatch.EventKind]string{stopwatch.Count: "count 40", stopwatch.Setups: "setups 1", stopwatch.People: "people 2"}[kind])
		}
		if err != nil {
			return "", err
		}
		if kind == stopwatch.Count && some {
			if err := l.barred(r.Step, n.Value); err != nil {
				return "", err
			}
		}
		e := stopwatch.Event{Kind: kind}
		*map[stopwatch.EventKind]*study.Maybe{stopwatch.Count: &e.Count, stopwatch.Setups: &e.Setups, stopwatch.People: &e.People}[kind] = n
		answer := string(kind) + " " + words.UpTo(n.Value, 2)
		if some && kind != stopwatch.People {
			answer += " of " + r.Step
		}
		return answer, l.press(e)
	}
}

// due is what count alone gives a reading: what is due of it. The error says that nothing is.
func (l *lineFace) due(r stopwatch.Reading, some bool) (study.Maybe, error) {
	if !some {
		return study.Maybe{}, errors.New("count: there is no reading yet")
	}
	due, ok := l.planned(r)
	if !ok {
		return study.Maybe{}, fmt.Errorf("nothing is known to be due of %s: give a number, such as count 40", r.Step)
	}
	return study.Known(due), nil
}

func (l *lineFace) undo(string) (string, error) {
	what := l.undoes
	if what == "" {
		return "", errors.New("there is nothing to undo")
	}
	ran, _ := l.state.Running()
	err := l.press(stopwatch.Event{Kind: stopwatch.Undo})
	if r, runs := l.state.Running(); runs && r.ID != ran.ID {
		what += "; " + r.Step + " goes on"
	}
	return "undo: " + what, err
}

func (l *lineFace) end(string) (string, error) {
	if l.state.Session.Name == "" {
		return "", errors.New("no session has begun")
	}
	err := l.press(stopwatch.Event{Kind: stopwatch.End})
	return "end", err
}
