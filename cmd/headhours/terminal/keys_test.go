package terminal

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// anyKey is the keys of a keyboard that a hand in a glove may meet.
var anyKey = []keystroke{
	{"space", " "}, {"enter", ""}, {"esc", ""}, {"backspace", ""}, {"up", ""}, {"down", ""}, {"left", ""}, {"tab", ""}, {"f1", ""}, {"delete", ""},
	{"0", "0"}, {"1", "1"}, {"2", "2"}, {"9", "9"}, {".", "."}, {",", ","}, {"+", "+"}, {"=", "="}, {"-", "-"}, {"?", "?"}, {"ä", "ä"},
	{"a", "a"}, {"b", "b"}, {"c", "c"}, {"e", "e"}, {"g", "g"}, {"k", "k"}, {"l", "l"}, {"L", "L"}, {"n", "n"}, {"o", "o"}, {"p", "p"}, {"q", "q"},
	{"r", "r"}, {"s", "s"}, {"t", "t"}, {"u", "u"}, {"v", "v"}, {"w", "w"}, {"x", "x"}, {"y", "y"}, {"paste", "q 12\n\x1b[2J"}, {"ctrl+c", ""}, {"ctrl+l", ""}, {"ctrl+z", ""},
}

// asks is what a key asks of the screen as it stands, which stays as it is: events, the
// mode that it leads to, the notice; "" where nothing comes of it.
func (b *bench) asks(k keystroke) string {
	d := *b.screen.desk
	s := *b.screen
	s.desk, s.notice, s.pressed = &d, "", keystroke{}
	before := modeWord(s.mode)
	entered, mark, snooze, names := s.entry.text, s.mark, s.snooze, d.names
	typed, asking := s.mode.(ask)
	do := s.key(k, b.hand.now())
	if a, still := s.mode.(ask); asking && still && k.text != "" && a.text == typed.text+printable(k.text) && a.wrong == "" && k.name != "paste" {
		return "types itself"
	}
	var parts []string
	for _, e := range do.events {
		parts = append(parts, eventWord(e, &s))
	}
	add := func(when bool, format string, args ...any) {
		if when {
			parts = append(parts, fmt.Sprintf(format, args...))
		}
	}
	add(do.in != "", "in an earlier session")
	add(do.takeUp != "", "take the session up")
	add(do.quit, "quit")
	add(do.suspend, "suspend")
	add(do.redraw, "redraw")
	add(s.entry.text != entered, "typed %q", s.entry.text)
	add(s.mark != mark, "mark %d", s.mark)
	add(s.snooze != snooze, "snooze %g s", s.snooze)
	add(d.names != names, "names %v", d.names)
	add(modeWord(s.mode) != before, "-> %s", modeWord(s.mode))
	add(s.notice != "", "(%s)", s.notice)
	return strings.Join(parts, ", ")
}

// modeWord is a mode in a few words.
func modeWord(m mode) string {
	switch m := m.(type) {
	case workMode:
		return "work"
	case pick:
		return fmt.Sprintf("pick %q, at %q of %d", m.question, strings.Join(strings.Fields(m.items[m.at].key+" "+m.items[m.at].text), " "), len(m.items))
	case ask:
		text := fmt.Sprintf("ask %q, typed %q", m.question, m.text)
		if m.wrong != "" {
			text += ", wrong: " + m.wrong
		}
		return text
	case toCopy:
		return "told " + m.what
	}
	return fmt.Sprintf("%T", m)
}

// eventWord is an event in a few words: its kind, of which reading, and what it gives.
func eventWord(e stopwatch.Event, s *screen) string {
	parts := []string{string(e.Kind)}
	for i, r := range s.state.Readings {
		if r.ID == e.Of {
			parts = append(parts, fmt.Sprintf("of %d", i+1))
		}
	}
	for _, text := range []string{e.Step, e.Grow, e.Workflow, e.Worker, e.Text} {
		if text != "" {
			parts = append(parts, fmt.Sprintf("%q", text))
		}
	}
	for _, n := range []study.Maybe{e.Count, e.Setups, e.People} {
		if n.Known {
			parts = append(parts, words.UpTo(n.Value, 2))
		}
	}
	if !e.End.IsZero() {
		parts = append(parts, e.End.Format("15:04:05.000"))
	}
	return strings.Join(parts, " ")
}

// Every key in every place: what it asks for and where it leads. A key that is in no row
// does nothing there; those that do the same stand together.
func TestEveryKeyEverywhere(t *testing.T) {
	var out strings.Builder
	place := func(name string, b *bench) {
		fmt.Fprintf(&out, "== %s\n", name)
		var does []string
		keys := map[string][]string{}
		for _, k := range anyKey {
			what := b.asks(k)
			if what != "" && keys[what] == nil {
				does = append(does, what)
			}
			keys[what] = append(keys[what], k.name)
		}
		for _, what := range does {
			fmt.Fprintf(&out, "%-11s %s\n", strings.Join(keys[what], " "), what)
		}
	}
	b := newBench(t, Names{})
	place("for whom", b)
	b.keys("g")
	place("which grow", b)
	b.keys("n", "'g")
	place("name of the grow", b)
	b.keys("esc", "w")
	place("which workflow", b)
	b.keys("esc", "k")
	place("which worker", b)
	b.keys("esc", "g", "n", "'g5", "enter", "b")
	place("ready", b)
	b.keys("space")
	place("running, of a known count", b)
	b.keys("x", "space")
	place("running", b)
	b.keys("4")
	place("running, a count is typed", b)
	b.keys("x", "p")
	place("paused", b)
	b.keys("p", "l")
	place("a lap, the one before counted", b)
	b.keys("e")
	place("stopped, a count is asked for", b)
	b.keys("3")
	place("stopped, a count is typed", b)
	b.keys("6", "x")
	place("stopped", b)
	b.keys("n")
	place("note", b)
	b.keys("esc", "v", "'2")
	place("void, with a digit typed", b)
	b.keys("esc", "t", "'8:1")
	place("when did it end", b)
	b.keys("backspace", "backspace", "backspace", "'never", "enter")
	place("when did it end, after a wrong answer", b)
	b.keys("esc", "a")
	place("which reading is to be put right", b)
	b.keys("1")
	place("what is to be put right", b)
	b.keys("c", "'4,")
	place("how many", b)
	b.keys("esc", "a", "1", "s")
	place("which step", b)
	b.keys("esc", "o")
	place("done otherwise", b)
	b.keys("1", "'lamp")
	place("what is new", b)
	b.keys("enter")
	place("to be copied", b)
	b.keys("enter", "down", "down", "down", "down", "down", "down", "down", "down", "space")
	b.hand.run(21 * time.Minute)
	place("forgotten", b)
	assertGolden(t, "keys.txt", out.String())
}
