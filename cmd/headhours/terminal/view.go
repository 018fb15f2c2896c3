package terminal

import (
	"fmt"
	"math"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/words"
)

// view is the screen as it stands at a moment, height lines of width columns at
// the most: for whom the work is, what goes on, the body of the mode, and at the
// foot every key that does something.
func (s *screen) view(width, height int, at stopwatch.Instant) []painted {
	width, height = max(width, 1), max(height, 1)
	foot := legend(s.mode.legend(s, at), width)
	foot = foot[:min(len(foot), max(1, height-3))] // on a very small screen the clock goes before the rest
	head := []painted{s.header(width), s.standing(width, at)}
	room := max(0, height-len(head)-len(foot))
	body := s.body(width, room, at)
	for len(body) < room {
		body = append(body, painted{})
	}
	lines := append(append(head, body[:room]...), foot...)
	if over := len(lines) - height; over > 0 {
		lines = lines[over:]
	}
	for i := range lines {
		lines[i] = lines[i].cut(width)
	}
	return lines
}

// header says for whom the work is.
func (s *screen) header(width int) painted {
	day := ""
	if s.dated && s.day >= 0 { // else the plan begins later than the clock
		day = fmt.Sprintf("day %d", s.day)
	}
	var parts []string
	for _, part := range []string{s.names.Grow, day, s.names.Worker, s.names.Workflow} {
		if part != "" {
			parts = append(parts, printable(part))
		}
	}
	return across(text(strings.Join(parts, " · ")), text(" "+s.peopleWord()), width)
}

func (s *screen) peopleWord() string { return words.Numbered(words.UpTo(s.people(), 2), "person") }

// standing says what goes on, in a word and the step.
func (s *screen) standing(width int, at stopwatch.Instant) painted {
	var left painted
	r, runs := s.state.Running()
	switch {
	case runs && s.state.Paused:
		left = painted{{" PAUSED " + clock(math.Floor(s.state.Interrupted(at).Seconds())) + " ", still}, {"  " + printable(r.Step), bold}}
	case runs:
		left = painted{{" RUNNING ", good}, {"  " + printable(r.Step), bold}}
	case len(s.state.Readings) > 0:
		left = painted{{" STOPPED ", bold}}
	default:
		left = painted{{" READY ", bold}}
	}
	right := painted{}
	if runs {
		right = styled(" "+s.countWord(r), bold)
	}
	if left[:1].width()+right.width() > width { // that it runs says more than of how many
		right = nil
	}
	return across(left, right, width)
}

// body is what stands between head and foot: the clock while something runs, what
// there is to say, and what the mode shows.
func (s *screen) body(width, room int, at stopwatch.Instant) []painted {
	facts := s.facts(width, at)
	_, runs := s.state.Running()
	_, working := s.mode.(workMode)
	if !runs || !working && len(s.mode.body(s, width, room)) >= room { // a question goes before the clock
		return s.under(facts, width, room)
	}
	gap := blank(room)
	below := min(7, max(1, room-5)) // always so much, that the clock does not change its size
	if !working {
		below = len(s.under(nil, width, room-1-gap))
	}
	lines := make([]painted, gap)
	time := clock(math.Floor(s.state.Elapsed(at).Seconds()))
	for _, l := range figures(time, width-1, room-below-gap) {
		lines = append(lines, styled(" "+l, bold))
	}
	if working {
		s.beside(lines[gap:], width)
	}
	return append(lines, s.under(facts, width, room-len(lines))...)
}

// blank is how many lines are left empty about the clock.
func blank(room int) int {
	if room >= 12 {
		return 1
	}
	return 0
}

// besideAtLeast is the columns that the list needs beside the clock, the gap
// between them included.
const besideAtLeast = 25

// figures is a time as large as it fits, leaving room for the list beside it
// unless that would make it small.
func figures(time string, width, height int) []string {
	if lines := large(time, width-besideAtLeast, height); len(lines) >= 10 {
		return lines
	}
	return large(time, width, height)
}

// beside puts the list of tasks beside the clock where there is room for it.
func (s *screen) beside(clock []painted, width int) {
	widest := 0
	for _, l := range clock {
		widest = max(widest, l.width())
	}
	room := width - widest - 3
	if room+3 < besideAtLeast || len(clock) < 5 {
		return
	}
	for i, l := range s.list(room, len(clock), false) {
		clock[i] = append(clock[i].filled(widest+3), l...)
	}
}

// under is what stands below the clock, or in its place: what there is to say
// and the mode's own lines, a question before the rest.
func (s *screen) under(facts []painted, width, room int) []painted {
	gap := blank(room + 5)
	_, working := s.mode.(workMode)
	factRoom := len(facts)
	if !working {
		factRoom = min(factRoom, room/3)
	}
	own := s.mode.body(s, width, max(0, room-factRoom-2*gap))
	parts := [][]painted{facts, own}
	if !working {
		parts = [][]painted{own, facts}
	}
	var lines []painted
	for _, part := range parts {
		if len(part) > 0 && len(lines)+gap < room {
			lines = append(append(lines, make([]painted, gap)...), part...)
		}
	}
	return lines
}

// facts is what there is to say, the most urgent first.
func (s *screen) facts(width int, at stopwatch.Instant) []painted {
	var lines []painted
	say := func(as style, format string, args ...any) {
		lines = append(lines, wrapped(fmt.Sprintf(format, args...), as, width-1)...)
	}
	if s.unsaved > 0 {
		say(alarm, " NOT SAVED: %d kept here and tried again. %s ", s.unsaved, s.trouble)
	}
	if _, working := s.mode.(workMode); working {
		if r, ok := s.openQuestion(at); ok {
			say(bold, "%s: how many%s? %s_%s", printable(reading(r)), perWord(s.per(r.Step)), s.typed(at), s.offered(r, at))
		} else if r, runs := s.state.Running(); runs && s.entering(at) {
			say(bold, "count of %s: %s_", printable(r.Step), s.entry.text)
		}
		if r, why := s.oddNow(at); why != "" {
			say(still, " %s? [y] that is right; else %s ", printable(why), s.putRight(r))
		}
		if q := s.question(at); q != "" {
			say(still, " %s ", q)
		}
	}
	if s.notice != "" {
		say(plain, "%s", s.notice)
	}
	if v := s.verdict; v.reading != "" && !(s.entering(at) && s.entry.ended) {
		say(plain, "last: %s; %s", v.reading, v.usual)
		if v.standsOut != "" {
			say(bold, "! this one stands out: %s", v.standsOut)
		}
	}
	if n := len(s.state.Warnings); n > 0 {
		say(plain, "note: %s", s.state.Warnings[n-1].Text)
	}
	return lines
}

// offered is what the plan leaves to a reading whose count is asked for, and the key
// that takes it; "" where that is not known or a count is being typed.
func (s *screen) offered(r stopwatch.Reading, at stopwatch.Instant) string {
	n, ok := s.planned(r)
	if !ok || s.typed(at) != "" || r.Counted.Known {
		return ""
	}
	return fmt.Sprintf("  [c] %s, as is due", printable(s.counted(n, r.Step)))
}

// putRight says how to give another count.
func (s *screen) putRight(r stopwatch.Reading) string {
	if of, ok := s.countOf(); ok && of.ID == r.ID {
		return "type it anew"
	}
	return "[a] puts it right"
}

func perWord(per string) string {
	if per == "" {
		return ""
	}
	return " " + words.Plural(printable(per))
}
