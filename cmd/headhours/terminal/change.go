package terminal

import (
	"errors"
	"fmt"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// change marks that a step is done otherwise from now on, and shows what to write.
func (l *lineFace) change(text string) (string, error) {
	name, step := text, ""
	if before, of := lastOf(text); of != "" {
		same, ok := study.SameName(of, l.study.StepNames())
		near := study.Nearest(of, l.study.StepNames())
		switch {
		case ok:
			name, step = before, same
		case near != "": // else it is part of the name
			return "", fmt.Errorf("%s: did you mean %s", study.NoneNamed("step", of), words.Quote(near))
		}
	}
	if name == "" {
		return "", errors.New("change needs a name: change dibber board")
	}
	if r, ok := l.current(); ok && step == "" {
		step = r.Step
	}
	if step == "" {
		return "", fmt.Errorf("of which step? change %s of STEP", name)
	}
	err := l.press(stopwatch.Event{Kind: stopwatch.Mark, Text: name, Step: step})
	return fmt.Sprintf("change %s of %s", name, step), err
}

// lastOf is what stands before and behind the last "of" of a text; blank without one.
func lastOf(text string) (before, behind string) {
	const of = " of "
	at := strings.LastIndex(" "+text, of)
	if at < 0 {
		return "", ""
	}
	return strings.TrimSpace(text[:max(0, at-1)]), strings.TrimSpace((" " + text)[at+len(of):])
}

// sayChange shows what to write into the study for a change that was marked.
func (l *lineFace) sayChange(before int) {
	if len(l.state.Changes) <= before {
		return
	}
	l.say("   to have answers tell before from after, copy into study.toml:")
	for _, line := range l.state.TOML(l.state.Changes[len(l.state.Changes)-1]) {
		l.say("   %s", line)
	}
}

// ofWhichStep asks at which step work is done otherwise from now on, the one in hand first.
func (s *screen) ofWhichStep() mode {
	var items []item
	add := func(step string) {
		items = append(items, item{text: step, do: func(s *screen, _ stopwatch.Instant) outcome {
			s.mode = s.whatChanges(step)
			return outcome{}
		}})
	}
	r, ok := s.current()
	if ok {
		add(r.Step)
	}
	for _, step := range s.study.StepNames() {
		if !ok || step != r.Step {
			add(step)
		}
	}
	return pick{question: "work is done otherwise from now on: at which step?", items: numbered(items)}
}

// whatChanges asks for the name of a change.
func (s *screen) whatChanges(step string) ask {
	event := func(text string) stopwatch.Event {
		return stopwatch.Event{Kind: stopwatch.Mark, Text: text, Step: step}
	}
	return ask{
		question: fmt.Sprintf("what is new at %s? A tool, a layout, a habit: its name", step), keep: event,
		answer: func(_ *screen, text string, _ stopwatch.Instant) (outcome, string) {
			return outcome{events: []stopwatch.Event{event(text)}, then: func(err error, _ stopwatch.Instant) outcome {
				if n := len(s.state.Changes); err == nil && n > 0 {
					s.mode = toCopy{"to have answers tell before from after, copy into study.toml:", s.state.TOML(s.state.Changes[n-1])}
				}
				return outcome{}
			}}, ""
		},
	}
}

// toCopy is the mode in which something is shown to be copied.
type toCopy struct {
	what  string
	lines []string
}

func (toCopy) key(s *screen, k keystroke, _ stopwatch.Instant) outcome {
	switch k.name {
	case "enter", "space", "esc":
		s.mode = workMode{}
	case "q":
		return s.quit()
	}
	return outcome{}
}

func (toCopy) legend(*screen, stopwatch.Instant) []hint {
	return []hint{{"enter", "back to work", "back"}, {"q", "quit", ""}}
}

func (t toCopy) body(_ *screen, width, _ int) []painted {
	lines := wrapped(t.what, bold, width-1)
	for _, l := range t.lines {
		lines = append(lines, text("  "+printable(l)))
	}
	return lines
}
