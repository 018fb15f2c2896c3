package tasklog

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"headhours/timing/study"
)

// maxTitle is among how many rows of a log the headings are looked for.
const maxTitle = 30

// synonyms are what growers call a column, where its own name is missing.
var synonyms = [columns][]string{
	stepColumn:     {"task", "job", "work", "activity", "element", "operation"},
	countColumn:    {"quantity", "qty", "pieces", "plants", "units"},
	timeColumn:     {"duration"},
	dateColumn:     {"day"},
	startColumn:    {"begin"},
	endColumn:      {"finish"},
	workerColumn:   {"who", "person"},
	noteColumn:     {"notes", "remark", "remarks", "comment", "comments"},
	workflowColumn: {"method", "way"},
	growColumn:     {"batch", "lot"},
}

// unit is what a bare number of a time column counts.
type unit struct {
	name    string // in the plural; "" where no heading says it: seconds
	seconds float64
}

var units = map[string]unit{
	"s": {"seconds", 1}, "sec": {"seconds", 1}, "secs": {"seconds", 1}, "second": {"seconds", 1}, "seconds": {"seconds", 1},
	"min": {"minutes", 60}, "mins": {"minutes", 60}, "minute": {"minutes", 60}, "minutes": {"minutes", 60},
	"h": {"hours", 3600}, "hr": {"hours", 3600}, "hrs": {"hours", 3600}, "hour": {"hours", 3600}, "hours": {"hours", 3600},
}

// timeHeadings are the units that stand for the time as a heading of their own.
var timeHeadings = []string{"minutes", "mins", "seconds", "sec", "hours"}

// heading is a heading in one case, and the unit that it names.
type heading struct{ name, unit string }

// foldHeading takes a heading's unit off: in brackets, or after a blank behind the
// words for a time or a count.
func foldHeading(text string) heading {
	text = strings.ToLower(strings.TrimSpace(text))
	if n := len(text) - 1; n > 0 && (text[n] == ')' || text[n] == ']') {
		if at := strings.LastIndexByte(text, map[byte]byte{')': '(', ']': '['}[text[n]]); at > 0 {
			return heading{strings.TrimSpace(text[:at]), strings.TrimSpace(text[at+1 : n])}
		}
	}
	if words := strings.FieldsFunc(text, unicode.IsSpace); len(words) == 2 {
		_, isUnit := units[words[1]]
		isTime := words[0] == "time" || words[0] == "duration" || words[0] == columnNames[pausedColumn]
		if isUnit && isTime || !isUnit && words[0] == "count" {
			return heading{words[0], words[1]}
		}
	}
	return heading{name: text}
}

// isOwn says whether a heading is a column's own name, with a unit or without.
func (h heading) isOwn(c column) bool { return h.name == columnNames[c] && h.fits(c) }

// is says whether a heading may stand for a column under another name than its own.
func (h heading) is(c column) bool {
	return h.fits(c) && (slices.Contains(synonyms[c], h.name) ||
		c == timeColumn && h.unit == "" && slices.Contains(timeHeadings, h.name))
}

// fits says whether the unit of a heading, if any, may be that of a column.
func (h heading) fits(c column) bool {
	_, isTime := h.unitOf()
	return isTime || c != timeColumn && c != pausedColumn
}

// unitOf is what the bare numbers under a heading of a time count; false where it names
// another unit than one of time.
func (h heading) unitOf() (unit, bool) {
	if h.unit == "" && !slices.Contains(timeHeadings, h.name) {
		return unit{}, true
	}
	name := h.unit
	if name == "" {
		name = h.name
	}
	u, known := units[name]
	return u, known
}

// layout is which fields of a row of headings are which column.
type layout struct {
	fields [columns][]int
	byForm [columns]bool // the form says it
	mapped []string      // headings that it names
}

// layoutOf finds the columns of a row of headings: those that the form names, then those
// under our own names, then, with anyNames, those under another name or with a unit.
func layoutOf(cells []string, form *Form, anyNames bool) layout {
	var l layout
	used := make([]bool, len(cells))
	silent := [columns]bool{} // the form wants none read as this
	for c := range columns {
		fields, isSaid := form.fields(c, cells)
		silent[c] = isSaid && len(form.Columns[columnNames[c]]) == 0
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

func (l *layout) isTimed() bool {
	return len(l.fields[timeColumn]) > 0 || len(l.fields[startColumn]) > 0 && len(l.fields[endColumn]) > 0
}

// isExact says whether cells name what a log needs by our own names.
func isExact(cells []string) bool {
	l := layoutOf(cells, &Form{}, false)
	return l.isLog()
}

// readHeadings takes the row in hand for the headings of a log, under whatever names;
// false where it cannot be, and then nothing is changed.
func (r *reader) readHeadings() bool {
	l := layoutOf(r.record, r.form, true)
	if !l.isLog() {
		return false
	}
	r.settle(l)
	var readAs []string
	for c := range columns {
		if r.at[c] >= 0 && !l.byForm[c] && !strings.EqualFold(r.headings[r.at[c]], columnNames[c]) {
			readAs = append(readAs, r.meaning(r.headings[r.at[c]], c))
		}
	}
	if len(readAs) > 0 {
		r.warn(r.place(0), "read as headings: %s", strings.Join(readAs, ", "))
	}
	return true
}

// settle has the rows read by a layout of the headings in hand. Two that could be one
// column are a problem.
func (r *reader) settle(l layout) {
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
	if r.at[dateColumn] >= 0 && r.form.Dates.Shown != "" {
		r.warn(r.form.Dates.At, "%s", r.form.Dates.note())
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
				study.Quote(first), study.Quote(other), c, c, study.TOMLText(first), c, study.TOMLText(other))
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
	return units[r.form.Times]
}

// meaning says what a heading was read as.
func (r *reader) meaning(name string, c column) string {
	text := fmt.Sprintf("%s as %s", study.Quote(name), c)
	if c == timeColumn && r.units[c].name != "" {
		text += " (a number alone is " + r.units[c].name + ")"
	}
	return text
}

// mayBe are the columns that a heading which is not read looks like, of those that are
// easily missed.
func (h heading) mayBe() (column, bool) {
	for _, c := range []column{timeColumn, dateColumn, workerColumn, startColumn, endColumn, pausedColumn} {
		if h.isOwn(c) || h.is(c) {
			return c, true
		}
	}
	return 0, false
}

// LooksLike is the column that an unread heading looks like, "" where it looks like none.
func LooksLike(heading string) string {
	if c, ok := foldHeading(heading).mayBe(); ok {
		return columnNames[c]
	}
	return ""
}

// counted is the heading of the counts, "" where there is none or several.
func (r *reader) counted() string {
	if at := r.at[countColumn]; at >= 0 && at < len(r.headings) && len(r.counts) == 0 {
		return r.headings[at]
	}
	return ""
}

// CountedBy is the word for one of what a heading says that counts are of: tray of
// "Count (trays)", plant of "Plants"; false where it does not say.
func CountedBy(heading string) (per string, ok bool) {
	h := foldHeading(heading)
	word := h.name
	switch {
	case h.unit != "":
		word = h.unit
	case h.name == columnNames[countColumn] || h.name != "plants" && h.name != "pieces" && slices.Contains(synonyms[countColumn], h.name):
		return "", false
	}
	if stem, isY := strings.CutSuffix(word, "ies"); isY {
		return stem + "y", word != ""
	}
	return strings.TrimSuffix(word, "s"), word != ""
}

// noteUnread shows how to have columns read whose headings look like one of ours, where
// the study says nothing of that.
func (r *reader) noteUnread() {
	for i, name := range r.headings {
		c, ok := foldHeading(name).mayBe()
		if _, isSaid := r.form.Columns[columnNames[c]]; !ok || isSaid || !slices.Contains(r.unused, name) {
			continue
		}
		r.warn(r.place(i), "%s is not read: to have it read as the %s, write in study.toml, under [log.columns]: %s = %s",
			study.Quote(name), c, c, study.TOMLText(name))
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

// seekHeadings looks for the headings among the first rows, where the first that is not
// blank has not our own names, and gives what stands behind them. It is false where none
// are, and then nothing is changed.
func (r *csvReader) seekHeadings(c chunk, rest []byte) (behind []byte, ok bool) {
	record, spots, line := slices.Clone(r.record), slices.Clone(r.spots), r.line
	likely := filled(record) // of the row that most looks like headings
	title := 0
	for n := 0; n < maxTitle && len(rest) > 0 && !c.unread; n++ {
		row := c.row(rest, r.separator)
		before := r.problems
		if r.split(c.ended(row, rest)) {
			if r.isText() && r.readHeadings() {
				r.titleAbove(title)
				r.line += bytes.Count(row, []byte{'\n'})
				return rest[len(row):], true
			}
			title++
			if n := filled(r.record); n > likely && r.isText() {
				record, spots, likely = slices.Clone(r.record), slices.Clone(r.spots), n
				line = r.line
			}
		}
		r.problems = before // rows of a title may stand as they like
		rest = rest[len(row):]
		r.line += bytes.Count(row, []byte{'\n'})
	}
	r.record, r.spots, r.line = record, spots, line
	return nil, false
}

// filled is how many cells of a row are words.
func filled(cells []string) int {
	n := 0
	for _, cell := range cells {
		if strings.ContainsFunc(cell, unicode.IsLetter) {
			n++
		}
	}
	return n
}

// headingSeparator is what stands between the fields of the headings, where those are
// found under the separator of their own line, or below a title of one cell those of the
// line with most cells; false where neither is.
func headingSeparator(data []byte, form *Form) (separator byte, found bool) {
	var widest byte
	most, isTitle := 1, false
	for n := 0; n < maxTitle && len(data) > 0; n++ {
		var line []byte
		line, data, _ = bytes.Cut(data, []byte{'\n'})
		separator, _ = separatorOf(line)
		cells := strings.Split(string(bytes.TrimSuffix(line, []byte{'\r'})), string(rune(separator)))
		for i := range cells {
			cells[i] = strings.Trim(cells[i], `" `)
		}
		if l := layoutOf(cells, form, true); l.isLog() {
			return separator, true
		}
		if n == 0 {
			isTitle = len(cells) == 1
		}
		if len(cells) > most {
			widest, most = separator, len(cells)
		}
	}
	return widest, isTitle && most > 1
}
