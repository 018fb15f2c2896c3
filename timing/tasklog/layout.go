package tasklog

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// layout is which fields of a row of headings are which column.
type layout struct {
	fields [columns][]int
	byForm [columns]bool // the form says it
	mapped []string      // headings that it names
}

// layoutOf finds the columns of a row of headings: those that the dialect names, then those
// under our own names, then, with anyNames, those under another name or with a unit.
func layoutOf(cells []string, dialect *Dialect, anyNames bool) layout {
	var l layout
	used := make([]bool, len(cells))
	silent := [columns]bool{} // the form wants none read as this
	for c := range columns {
		fields, isSaid := dialect.fields(c, cells)
		silent[c] = isSaid && len(dialect.Columns[columnNames[c]]) == 0
		l.byForm[c] = len(fields) > 0
		l.fields[c] = fields
		for _, at := range fields {
			used[at] = true
			l.mapped = append(l.mapped, strings.TrimSpace(cells[at]))
		}
	}
	var others [columns][]int
	for i, cell := range cells {
		if used[i] {
			continue
		}
		own := slices.Index(columnNames[:], strings.ToLower(strings.TrimSpace(cell)))
		h := foldHeading(cell)
		for c := range columns {
			switch {
			case silent[c] || l.byForm[c]:
			case int(c) == own, anyNames && h.isOwn(c):
				l.fields[c] = append(l.fields[c], i)
			case anyNames && h.is(c):
				others[c] = append(others[c], i)
			}
		}
	}
	for c := range columns {
		if len(l.fields[c]) == 0 || c == timeColumn && !l.byForm[c] { // two that could be the time are asked about
			l.fields[c] = append(l.fields[c], others[c]...)
		}
	}
	return l
}

// isLog says whether the columns that a log needs are there.
func (l *layout) isLog() bool {
	return len(l.fields[stepColumn]) > 0 && len(l.fields[countColumn]) > 0 && l.isTimed()
}

// needed is how many of those there are.
func (l *layout) needed() (n int) {
	for _, has := range []bool{len(l.fields[stepColumn]) > 0, len(l.fields[countColumn]) > 0, l.isTimed()} {
		if has {
			n++
		}
	}
	return n
}

func (l *layout) isTimed() bool {
	return len(l.fields[timeColumn]) > 0 || len(l.fields[startColumn]) > 0 && len(l.fields[endColumn]) > 0
}

// isExact says whether cells name what a log needs by our own names.
func isExact(cells []string) bool {
	l := layoutOf(cells, &Dialect{}, false)
	return l.isLog()
}

// readHeadings takes the row in hand for the headings of a log, under whatever names;
// false where it cannot be, and then nothing is changed.
func (r *reader) readHeadings() bool {
	l := layoutOf(r.record, r.dialect, true)
	if !l.isLog() {
		return false
	}
	r.arrange(l)
	var readAs []string
	for c := range columns {
		if r.at[c] >= 0 && !l.byForm[c] && !strings.EqualFold(r.headings[r.at[c]], columnNames[c]) {
			readAs = append(readAs, r.readAs(r.headings[r.at[c]], c))
		}
	}
	if len(readAs) > 0 {
		r.warn(r.place(0), "read as headings: %s", strings.Join(readAs, ", "))
	}
	r.notePause()
	return true
}

// arrange has the rows read by a layout of the headings in hand. Two that could be one
// column are a problem.
func (r *reader) arrange(l layout) {
	r.headings = r.headings[:0]
	for _, cell := range r.record {
		r.headings = append(r.headings, strings.Clone(strings.TrimSpace(cell)))
	}
	r.mapped, r.counts = l.mapped, nil
	used := make([]bool, len(r.headings))
	for c := range columns {
		r.at[c] = -1
		fields := l.fields[c]
		if len(fields) == 0 {
			continue
		}
		r.at[c] = fields[0]
		if len(fields) > 1 {
			r.several(c, fields, l.byForm[c])
		}
		for _, at := range fields {
			used[at] = true
		}
		r.units[c] = r.unitOf(c)
	}
	for i, name := range r.headings {
		if !used[i] && name != "" {
			r.unused = append(r.unused, name)
		}
	}
	if r.at[dateColumn] >= 0 && r.dialect.Dates.Shown != "" {
		r.warn(r.dialect.Dates.At, "%s", r.dialect.Dates.note())
	}
}

// several are fields that may each be one column: counts, where the form says so, else a
// problem.
func (r *reader) several(c column, fields []int, byForm bool) {
	if byForm && c == countColumn {
		r.counts = fields
		return
	}
	first := r.headings[fields[0]]
	for _, at := range fields[1:] {
		switch other := r.headings[at]; {
		case strings.EqualFold(first, other):
			r.problem(r.place(at), "column %q stands twice: keep one of the two", strings.ToLower(other))
		default:
			r.problem(r.place(at), "%s and %s could both be the %s: rename the one that is not, or write in study.toml, under [log.columns]: %s = %s, or %s = %s",
				words.Quote(first), words.Quote(other), c, c, study.TOMLText(first), c, study.TOMLText(other))
		}
	}
}

// unitOf is what bare numbers of a column are: what its heading says, else the form.
func (r *reader) unitOf(c column) unit {
	if c != timeColumn && c != pausedColumn {
		return unit{}
	}
	if u, ok := foldHeading(r.headings[r.at[c]]).unitOf(); ok && u.name != "" {
		return u
	}
	return units[r.dialect.Times]
}

// notePause tells of pauses whose heading names no unit beside times whose heading does: a
// number alone is not the same in both.
func (r *reader) notePause() {
	at := r.at[pausedColumn]
	if at < 0 || r.at[timeColumn] < 0 {
		return
	}
	pauses, times := r.units[pausedColumn], r.units[timeColumn]
	said, _ := foldHeading(r.headings[at]).unitOf()
	if said.name != "" || max(1, pauses.seconds) == max(1, times.seconds) {
		return
	}
	r.warn(r.place(at), "a number alone is %s under %s, and %s under %s: head it %q if %s are meant there too",
		cmp.Or(pauses.name, "seconds"), words.Quote(r.headings[at]), cmp.Or(times.name, "seconds"), words.Quote(r.headings[r.at[timeColumn]]),
		fmt.Sprintf("paused (%s)", shortUnit(times)), cmp.Or(times.name, "seconds"))
}

// shortUnit is a unit as headings put it.
func shortUnit(u unit) string {
	switch u.seconds {
	case 3600:
		return "h"
	case 60:
		return "min"
	}
	return "s"
}

// readAs says what a heading was read as.
func (r *reader) readAs(name string, c column) string {
	text := fmt.Sprintf("%s as %s", words.Quote(name), c)
	if c == timeColumn && r.units[c].name != "" {
		text += " (a number alone is " + r.units[c].name + ")"
	}
	return text
}
