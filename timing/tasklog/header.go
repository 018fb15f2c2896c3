package tasklog

import (
	"bytes"
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// header finds the columns in the row in hand, which must name those that a log needs by
// our own names or as the dialect does. Columns of other names are kept out of the way.
func (r *reader) header() {
	l := layoutOf(r.record, r.dialect, false)
	r.settle(l)
	r.checkNeeded()
	r.noteUnread()
}

// isLog says whether the header names the columns that a log needs.
func (r *reader) isLog() bool {
	return r.at[stepColumn] >= 0 && r.at[countColumn] >= 0 && r.isTimed()
}

func (r *reader) isTimed() bool {
	return r.at[timeColumn] >= 0 || r.at[startColumn] >= 0 && r.at[endColumn] >= 0
}

// checkNeeded tells of needed columns that the headings lack, under whatever name.
func (r *reader) checkNeeded() {
	var found []string
	for _, name := range r.headings {
		if name != "" {
			found = append(found, name)
		}
	}
	understood := layoutOf(r.record, r.dialect, true)
	if len(understood.fields[stepColumn]) == 0 {
		r.missing(`no column "step"`, `rename the heading of the steps' names to "step", or say which it is in study.toml, under [log.columns]: step = "…"`, found, stepColumn)
	}
	if len(understood.fields[countColumn]) == 0 {
		r.missing(`no column "count"`, `rename the heading of your counts to "count", or say which it is in study.toml, under [log.columns]: count = "…"`, found, countColumn)
	}
	if !understood.isTimed() {
		r.missing(`no column "time", nor both "start" and "end"`,
			`rename the heading of your durations to "time" (a number alone is seconds), or those of your clock times to "start" and "end"`,
			found, timeColumn, startColumn, endColumn)
	}
}

// missing tells of needed columns that the header lacks, at the name that comes
// close to one of them where there is such a name, else with what to do.
func (r *reader) missing(what, do string, found []string, wanted ...column) {
	what += " among " + words.QuoteList(found, 20)
	for _, c := range wanted {
		if r.at[c] >= 0 {
			continue
		}
		if near := study.Nearest(c.String(), r.unused); near != "" && !strings.EqualFold(near, c.String()) {
			r.problem(r.place(slices.Index(r.headings, near)), "%s: is %s meant for %q?", what, words.Quote(near), c)
			return
		}
	}
	r.problem(r.place(0), "%s: %s", what, do)
}

// headingSeparator is what stands between the fields of the headings, where those are
// found under the separator of their own line, or below a title of one cell those of the
// line with most cells; false where neither is.
func headingSeparator(data []byte, dialect *Dialect) (separator byte, found bool) {
	var widest byte
	maxCells, isTitle := 1, false
	for n := 0; n < maxTitle && len(data) > 0; n++ {
		var line []byte
		line, data, _ = bytes.Cut(data, []byte{'\n'})
		separator, _ = separatorOf(line)
		cells := cellsOf(line, separator)
		if l := layoutOf(cells, dialect, true); l.isLog() {
			return separator, true
		}
		if n == 0 {
			isTitle = len(cells) == 1
		}
		if len(cells) > maxCells {
			widest, maxCells = separator, len(cells)
		}
	}
	return widest, isTitle && maxCells > 1
}
