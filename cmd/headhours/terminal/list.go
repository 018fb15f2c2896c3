package terminal

import (
	"fmt"
	"math"
)

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
