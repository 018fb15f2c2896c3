package terminal

import (
	"fmt"

	"headhours/timing/words"
)

func (w workMode) body(s *screen, width, height int) []painted {
	if _, runs := s.state.Running(); runs {
		return nil // the list stands beside the clock
	}
	return s.list(width, height, true)
}

// list is the tasks about the marked one, as many as fit.
func (s *screen) list(width, height int, whole bool) []painted {
	mark := s.marked()
	at := mark
	for i, t := range s.tasks {
		if t.now && mark < 0 {
			at = i
		}
	}
	from, to := window(at, len(s.tasks), height)
	var lines []painted
	for i := from; i < to; i++ {
		lines = append(lines, s.taskLine(s.tasks[i], i == mark, width, "✓", whole))
	}
	return marked(lines, from, len(s.tasks)-to, height)
}

// marked is the task that the big key goes on to; -1 where there is none.
func (s *screen) marked() int {
	if s.mark != noMark && s.mark < len(s.tasks) {
		return s.mark
	}
	return s.next()
}

// window is which of so many lines are shown about one of them.
func window(at, all, height int) (from, to int) {
	from = max(0, min(at-height/2, all-height))
	return from, min(all, from+max(0, height))
}

// minMarked is how many lines a list has in which the first and the last may say that
// there are more.
const minMarked = 4

// marked says of lines of a list how many more there are before and behind them.
func marked(lines []painted, before, behind, height int) []painted {
	if height < minMarked {
		return lines
	}
	if before > 0 {
		lines[0] = styled(fmt.Sprintf("  ↑ %d more", before+1), faint)
	}
	if behind > 0 {
		lines[len(lines)-1] = styled(fmt.Sprintf("  ↓ %d more", behind+1), faint)
	}
	return lines
}

// taskLine is a task: a word for how it stands, the step, and where there is room
// what is due of it and when. tick is the word for one that is done.
func (d *desk) taskLine(t task, marked bool, width int, tick string, whole bool) painted {
	word, as := "", plain
	switch {
	case t.now:
		word, as = "now", bold
	case marked:
		word, as = "next", bold
	case t.isDone() && t.uncounted > 0 && t.Count.Known && !t.Fixed:
		word = "?" // how much of it is done
	case t.isDone():
		word, as = tick, faint
	case t.readings > 0:
		word = "part"
	}
	left := painted{{fmt.Sprintf("%-5s", word), as}, {printable(t.Step), as}}
	due := d.shortly(t.Step, t.Count.Value)
	right := ""
	switch {
	case t.Fixed && !whole: // nothing is counted
	case t.Fixed && t.Count.Known:
		right = words.UpTo(due, 2)
	case t.count == 0 && t.uncounted > 0 && t.Count.Known:
		right = "? of " + words.UpTo(due, 2)
	case t.count > 0 && t.Count.Known:
		right = words.UpTo(t.count, 2) + " of " + words.UpTo(due, 2)
	case t.count > 0:
		right, due = words.UpTo(t.count, 2), t.count
	case t.Count.Known:
		right = words.UpTo(due, 2)
	}
	if !whole {
		return across(left, firstThatFits(left, width, painted{{" " + right, as}}), width)
	}
	if per := printable(d.per(t.Step)); right != "" && per != "" {
		right += " " + words.Noun(due, per)
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
	dated := painted{{fmt.Sprintf(" %s  %-*s", right, room, when), as}}
	return across(left, firstThatFits(left, width, dated, painted{{" " + right, as}}), width)
}

// minName is how many columns a task's word and step get before what is due of it.
const minName = 17

// firstThatFits is the first of some lines that leaves room for the name of a task; nil
// where none does.
func firstThatFits(name painted, width int, lines ...painted) painted {
	for _, l := range lines {
		if width-l.width() >= min(name.width(), minName) {
			return l
		}
	}
	return nil
}

// dayWord is a day of the grow, and how far off it is.
func (d *desk) dayWord(day int) string {
	text := fmt.Sprintf("day %d", day)
	switch off := day - d.day; {
	case !d.dated:
		return text
	case off == 0:
		return text + ", today"
	case off == 1:
		return text + ", tomorrow"
	case off > 1:
		return text + ", in " + words.Many(off, "day")
	}
	return text
}
