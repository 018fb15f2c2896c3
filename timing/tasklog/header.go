package tasklog

import (
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// header finds the columns in the row in hand, which must name those that a log needs by
// our own names or as the dialect does. Columns of other names are kept out of the way.
func (r *reader) header() {
	l := layoutOf(r.record, r.dialect, false)
	r.arrange(l)
	r.notePause()
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
			`rename the heading of your durations to "time" (a number alone is seconds), or "minutes" if they are minutes, or those of your clock times to "start" and "end"`,
			found, timeColumn, startColumn, endColumn)
	}
}

// missing tells of needed columns that the header lacks, at the name that comes
// close to one of them where there is such a name, else with what to do.
func (r *reader) missing(what, do string, found []string, wanted ...column) {
	for _, c := range wanted {
		at := slices.IndexFunc(r.headings, func(name string) bool { return strings.EqualFold(name, c.String()) })
		if at >= 0 && r.at[c] < 0 {
			r.problem(r.place(at), "%s: %s stands there, but study.toml has it read otherwise or not at all, under [log.columns]: correct that line",
				what, words.Quote(r.headings[at]))
			return
		}
	}
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
	if at := slices.IndexFunc(r.headings, beginsWithTime); at >= 0 && slices.Contains(wanted, timeColumn) {
		r.problem(r.place(at), `%s: is %s meant? Head it "time (min)", "time (s)" or "time (h)", whichever its numbers are in`, what, words.Quote(r.headings[at]))
		return
	}
	if at := slices.IndexFunc(r.headings, hasUnitOfTime); at >= 0 && slices.Contains(wanted, timeColumn) {
		name := r.headings[at]
		r.problem(r.place(at), `%s: is %s meant? Head it %q, or write in study.toml, under [log.columns]: time = %s`,
			what, words.Quote(name), "time ("+foldHeading(name).unit+")", study.TOMLText(name))
		return
	}
	r.problem(r.place(0), "%s: %s", what, do)
}

// hasUnitOfTime says whether a heading, of whatever words, names a unit of time behind them.
func hasUnitOfTime(heading string) bool {
	_, ok := units[foldHeading(heading).unit]
	return ok
}

// beginsWithTime says whether a heading begins with a word for a time, whatever follows.
func beginsWithTime(heading string) bool {
	text := strings.ToLower(heading)
	word, _, _ := strings.Cut(strings.ReplaceAll(text, "(", " "), " ")
	return word == columnNames[timeColumn] || slices.Contains(synonyms[timeColumn], word) || slices.Contains(timeHeadings, word)
}

// counted is the heading of the counts, "" where there is none or several.
func (r *reader) counted() string {
	if at := r.at[countColumn]; at >= 0 && at < len(r.headings) && len(r.counts) == 0 {
		return r.headings[at]
	}
	return ""
}

// noteUnread shows how to have columns read whose headings look like one of ours, where
// the study says nothing of that.
func (r *reader) noteUnread() {
	for i, name := range r.headings {
		c, ok := foldHeading(name).mayBe()
		if _, isSaid := r.dialect.Columns[columnNames[c]]; !ok || isSaid || !slices.Contains(r.unused, name) {
			continue
		}
		noun := c.String()
		if c == pausedColumn {
			noun = "pause"
		}
		r.warn(r.place(i), "%s is not read: to have it read as the %s, write in study.toml, under [log.columns]: %s = %s",
			words.Quote(name), noun, c, study.TOMLText(name))
	}
}

// titleAbove notes the rows above the headings, which are not read.
func (r *reader) titleAbove(rows int) {
	switch {
	case rows == 1:
		r.warn(r.place(0), "the row above the headings is taken for a title and not read")
	case rows > 1:
		r.warn(r.place(0), "the %d rows above the headings are taken for a title and not read", rows)
	}
}
