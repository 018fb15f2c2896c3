package terminal

import (
	"fmt"
	"unicode/utf8"

	"headhours/timing/stopwatch"
)

// ask is the mode in which a line is typed.
type ask struct {
	question string
	hints    []string // of answers that a number gives: 1 the first
	text     string
	wrong    string // with the last answer
	empty    bool   // an empty answer is one
	// answer says what is to be done for an answer; what is wrong with it, if
	// anything, is asked about again.
	answer func(s *screen, text string, at stopwatch.Instant) (do outcome, wrong string)
	keep   func(text string) stopwatch.Event // of what is half typed when the terminal goes away; nil: nothing
	leave  func(s *screen) outcome           // on escape; nil: back to work
}

// maxTyped is how many characters an answer may have.
const maxTyped = 200

func (a ask) key(s *screen, k keystroke, at stopwatch.Instant) outcome {
	switch k.name {
	case "esc":
		s.mode = workMode{}
		if a.leave != nil {
			return a.leave(s)
		}
		return outcome{}
	case "backspace":
		_, size := utf8.DecodeLastRuneInString(a.text)
		a.text = a.text[:len(a.text)-size]
	case "enter":
		return a.enter(s, at)
	default:
		a.text += printable(k.text)
		if runes := []rune(a.text); len(runes) > maxTyped {
			a.text = string(runes[:maxTyped])
		}
	}
	a.wrong = ""
	s.mode = a
	return outcome{}
}

func (a ask) enter(s *screen, at stopwatch.Instant) outcome {
	text := clean(a.text)
	if len(text) == 1 && text >= "1" && int(text[0]-'0') <= len(a.hints) {
		text = a.hints[text[0]-'1']
	}
	if text == "" && !a.empty {
		return outcome{}
	}
	s.mode = workMode{}
	do, wrong := a.answer(s, text, at)
	again := func(wrong string) {
		a.wrong = wrong
		s.mode = a
	}
	if wrong != "" {
		again(wrong)
		return outcome{}
	}
	then := do.then
	do.then = func(err error, at stopwatch.Instant) outcome {
		if err != nil {
			again(err.Error())
			return outcome{}
		}
		if then != nil {
			return then(nil, at)
		}
		return outcome{}
	}
	return do
}

// left is what is still to be pressed when the screen is left without having been
// asked, as when the terminal goes away: a note that is half typed.
func (s *screen) left() []stopwatch.Event {
	if a, asking := s.mode.(ask); asking && a.keep != nil && clean(a.text) != "" {
		return []stopwatch.Event{a.keep(clean(a.text))}
	}
	return nil
}

func (a ask) legend(*screen, stopwatch.Instant) []hint {
	return []hint{{"enter", "keep", ""}, {"esc", "leave it", ""}, {"backspace", "last letter", "back"}}
}

// body is the question, the hints where there is room for them, and the answer, whose end
// is seen whatever the height.
func (a ask) body(_ *screen, width, height int) []painted {
	lines := wrapped(printable(a.question), bold, width-1)
	var answer []painted
	for _, l := range wrapped(a.text+"_", bold, width-3) {
		answer = append(answer, append(text("> "), l...))
	}
	if a.wrong != "" {
		answer = append(answer, wrapped(a.wrong, plain, width-1)...)
	}
	if len(lines)+len(a.hints)+len(answer) <= height {
		for i, h := range a.hints {
			lines = append(lines, text(fmt.Sprintf("  %d  %s", i+1, h)))
		}
	}
	lines = append(lines, answer...)
	return lines[max(0, len(lines)-max(1, height)):]
}
