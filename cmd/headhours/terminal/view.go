package terminal

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"headhours/timing/stopwatch"
)

// hint is a key and what it does, at length and, where that differs, in a word.
type hint struct{ key, does, short string }

// View is the screen as it stands at a moment, height lines of width columns at
// the most: for whom the work is, what goes on, the body of the mode, and at the
// foot every key that does something.
func (s *Screen) View(width, height int, at stopwatch.Instant) []Line {
	width, height = max(width, 1), max(height, 1)
	foot := legend(s.mode.legend(s, at), width)
	foot = foot[:min(len(foot), max(1, height-3))] // on a very small screen the clock goes before the rest
	head := []Line{s.header(width), s.standing(width, at)}
	room := max(0, height-len(head)-len(foot))
	body := s.body(width, room, at)
	for len(body) < room {
		body = append(body, Line{})
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
func (s *Screen) header(width int) Line {
	day := ""
	if s.known {
		day = fmt.Sprintf("day %d", s.day)
	}
	var parts []string
	for _, part := range []string{s.names.Grow, day, s.names.Worker, s.names.Workflow} {
		if part != "" {
			parts = append(parts, shown(part))
		}
	}
	return across(text(strings.Join(parts, " · ")), text(" "+s.peopleWord()), width)
}

// standing says what goes on, in a word and the step.
func (s *Screen) standing(width int, at stopwatch.Instant) Line {
	var left Line
	r, runs := s.state.Running()
	switch {
	case runs && s.state.Paused:
		left = Line{{" PAUSED " + clock(math.Floor(s.state.Interrupted(at).Seconds())) + " ", still}, {"  " + shown(r.Step), bold}}
	case runs:
		left = Line{{" RUNNING ", good}, {"  " + shown(r.Step), bold}}
	case len(s.state.Readings) > 0:
		left = Line{{" STOPPED ", bold}}
	default:
		left = Line{{" READY ", bold}}
	}
	right := Line{}
	if runs {
		right = styled(" "+s.countWord(r), bold)
	}
	return across(left, right, width)
}

// countWord is what is counted of the reading that runs, and of how many.
func (d *desk) countWord(r stopwatch.Reading) string {
	due := d.dueOf(r.Step)
	switch {
	case slices.ContainsFunc(d.tasks, func(t task) bool { return t.now && t.Fixed && t.Count == r.Counted }):
		return "" // it was known beforehand
	case r.Counted.Known && due.Known:
		return fmt.Sprintf("%s of %s", number(r.Count), d.counted(math.Round(due.Value), r.Step))
	case r.Counted.Known:
		return d.counted(r.Count, r.Step)
	case due.Known:
		return d.counted(math.Round(due.Value), r.Step) + " due"
	}
	return "no count yet"
}

// body is what stands between head and foot: the clock while something runs, what
// there is to say, and what the mode shows.
func (s *Screen) body(width, room int, at stopwatch.Instant) []Line {
	info := s.info(width, at)
	if _, runs := s.state.Running(); !runs {
		return s.under(info, width, room)
	}
	gap := blank(room)
	below := min(7, max(1, room-5)) // always so much, that the clock does not change its size
	_, working := s.mode.(work)
	if !working {
		below = len(s.under(nil, width, room-1-gap))
	}
	lines := make([]Line, gap)
	time := clock(math.Floor(s.state.Elapsed(at).Seconds()))
	for _, l := range figures(time, width-1, room-below-gap) {
		lines = append(lines, styled(" "+l, bold))
	}
	if working {
		s.beside(lines[gap:], width)
	}
	return append(lines, s.under(info, width, room-len(lines))...)
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
func (s *Screen) beside(clock []Line, width int) {
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
func (s *Screen) under(info []Line, width, room int) []Line {
	gap := blank(room + 5)
	own := s.mode.body(s, width, max(0, room-len(info)-2*gap))
	parts := [][]Line{info, own}
	if _, working := s.mode.(work); !working {
		parts = [][]Line{own, info}
	}
	var lines []Line
	for _, part := range parts {
		if len(part) > 0 && len(lines)+gap < room {
			lines = append(append(lines, make([]Line, gap)...), part...)
		}
	}
	return lines
}

// info is what there is to say, the most urgent first.
func (s *Screen) info(width int, at stopwatch.Instant) []Line {
	var lines []Line
	say := func(as style, format string, args ...any) {
		lines = append(lines, wrapped(fmt.Sprintf(format, args...), as, width-1)...)
	}
	if s.unsaved > 0 {
		say(alarm, " NOT SAVED: %d kept here and tried again. %s ", s.unsaved, s.trouble)
	}
	if _, working := s.mode.(work); working {
		if r, some := s.asked(at); some {
			say(bold, "%s: how many%s? %s_", shown(reading(r)), perWord(s.per(r.Step)), s.typed(at))
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

// asked is the reading whose count is asked for: the one that it is being typed
// for, if it has ended, else the first that lacks it.
func (s *Screen) asked(at stopwatch.Instant) (stopwatch.Reading, bool) {
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
func (s *Screen) typed(at stopwatch.Instant) string {
	if s.entering(at) && s.entry.ended {
		return s.entry.text
	}
	return ""
}

func perWord(per string) string {
	if per == "" {
		return ""
	}
	return " " + many(shown(per), 0)
}

func (w work) body(s *Screen, width, height int) []Line {
	if _, runs := s.state.Running(); runs {
		return nil // the list stands beside the clock
	}
	return s.list(width, height, true)
}

// list is the tasks about the marked one, as many as fit.
func (s *Screen) list(width, height int, whole bool) []Line {
	mark := s.marked()
	at := mark
	for i, t := range s.tasks {
		if t.now && mark < 0 {
			at = i
		}
	}
	from := max(0, min(at-height/2, len(s.tasks)-height))
	var lines []Line
	for i := from; i < len(s.tasks) && len(lines) < height; i++ {
		lines = append(lines, s.taskLine(s.tasks[i], i == mark, width, whole))
	}
	return lines
}

// taskLine is a task: a word for how it stands, the step, and where there is room
// what is due of it and when.
func (d *desk) taskLine(t task, marked bool, width int, whole bool) Line {
	word, as := "", plain
	switch {
	case t.now:
		word, as = "now", bold
	case marked:
		word, as = "next", bold
	case t.readings > 0:
		word, as = "done", faint
	}
	left := Line{{fmt.Sprintf("%-5s", word), as}, {shown(t.Step), as}}
	due := math.Round(t.Count.Value)
	right := ""
	switch {
	case t.Fixed: // nothing is counted
	case t.did > 0 && t.Count.Known:
		right = number(t.did) + " of " + number(due)
	case t.did > 0:
		right, due = number(t.did), t.did
	case t.Count.Known:
		right = number(due)
	}
	if !whole {
		return across(left, Line{{" " + right, as}}, width)
	}
	if per := shown(d.per(t.Step)); right != "" && per != "" {
		right += " " + many(per, due)
	}
	when := ""
	switch {
	case t.planned && width < narrow:
		when = fmt.Sprintf("day %-3d", t.Day)
	case t.planned:
		when = d.dayWord(t.Day)
	}
	room := 18
	if width < narrow {
		room = 7
	}
	return across(left, Line{{fmt.Sprintf(" %s  %-*s", right, room, when), as}}, width)
}

// dayWord is a day of the grow, and how far off it is.
func (d *desk) dayWord(day int) string {
	text := fmt.Sprintf("day %d", day)
	switch off := day - d.day; {
	case !d.known:
		return text
	case off == 0:
		return text + ", today"
	case off == 1:
		return text + ", tomorrow"
	case off > 1:
		return fmt.Sprintf("%s, in %d days", text, off)
	}
	return text
}

func (a ask) body(_ *Screen, width, _ int) []Line {
	lines := wrapped(shown(a.question), bold, width-1)
	for i, h := range a.hints {
		lines = append(lines, text(fmt.Sprintf("  %d  %s", i+1, h)))
	}
	answer := wrapped(a.text+"_", bold, width-3)
	for _, l := range answer {
		lines = append(lines, append(text("> "), l...))
	}
	if a.wrong != "" {
		lines = append(lines, wrapped(a.wrong, plain, width-1)...)
	}
	return lines
}

func (p pick) body(_ *Screen, width, height int) []Line {
	lines := wrapped(shown(p.question), bold, width-1)
	room := max(1, height-len(lines))
	from := max(0, min(p.at-room/2, len(p.items)-room))
	for i := from; i < len(p.items) && i < from+room; i++ {
		mark, as := "  ", plain
		if i == p.at {
			mark, as = "> ", bold
		}
		key := "   "
		if p.items[i].key != "" {
			key = "[" + p.items[i].key + "]"
		}
		lines = append(lines, styled(mark+key+" "+shown(p.items[i].text), as))
	}
	return lines
}

// narrow is a screen with room for words only.
const narrow = 60

// legend is the keys, in as many lines as they need.
func legend(hints []hint, width int) []Line {
	lines := []Line{{}}
	column := 0
	for _, h := range hints {
		if width < narrow && h.short != "" {
			h.does = h.short
		}
		key, does := "["+h.key+"]", " "+shown(h.does)
		w := ansi.StringWidth(key + does)
		if column > 0 && column+2+w > width {
			lines, column = append(lines, Line{}), 0
		}
		at := len(lines) - 1
		if column > 0 {
			lines[at] = append(lines[at], piece{"  ", plain})
			column += 2
		}
		lines[at] = append(lines[at], piece{key, bold}, piece{does, plain})
		column += w
	}
	return lines
}

// shown is a name with what a terminal would act on left out.
func shown(name string) string { return printable(name) }
