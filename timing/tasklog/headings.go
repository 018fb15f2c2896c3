package tasklog

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"headhours/timing"
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
		if isUnit && (words[0] == "time" || words[0] == "duration") || !isUnit && words[0] == "count" {
			return heading{words[0], words[1]}
		}
	}
	return heading{name: text}
}

// is says whether a heading may stand for a column under another name than its own.
func (h heading) is(c column) bool {
	if slices.Contains(synonyms[c], h.name) {
		return true
	}
	return c == timeColumn && h.unit == "" && slices.Contains(timeHeadings, h.name)
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

// columnsOf are the fields that may be each of our columns: those under its own name, where
// there is one, else those under another name for it.
func columnsOf(cells []string) (fields [columns][]int) {
	var others [columns][]int
	for i, cell := range cells {
		h := foldHeading(cell)
		for c := range columns {
			if _, isTime := h.unitOf(); c == timeColumn && !isTime {
				continue
			}
			if h.name == columnNames[c] {
				fields[c] = append(fields[c], i)
			} else if h.is(c) {
				others[c] = append(others[c], i)
			}
		}
	}
	for c := range columns {
		if len(fields[c]) == 0 || c == timeColumn { // two that could be the time are asked about
			fields[c] = append(fields[c], others[c]...)
		}
	}
	return fields
}

// areHeadings says whether a row may be the headings of a log.
func areHeadings(fields *[columns][]int) bool {
	return len(fields[stepColumn]) > 0 && len(fields[countColumn]) > 0 &&
		(len(fields[timeColumn]) > 0 || len(fields[startColumn]) > 0 && len(fields[endColumn]) > 0)
}

// isExact says whether cells name what a log needs by our own names.
func isExact(cells []string) bool {
	has := func(c column) bool {
		return slices.ContainsFunc(cells, func(cell string) bool {
			return strings.EqualFold(strings.TrimSpace(cell), columnNames[c])
		})
	}
	return has(stepColumn) && has(countColumn) && (has(timeColumn) || has(startColumn) && has(endColumn))
}

// readHeadings takes the row in hand for the headings of a log, under whatever names;
// false where it cannot be, and then nothing is changed. Two that could be one column are
// a problem.
func (r *reader) readHeadings() bool {
	fields := columnsOf(r.record)
	if !areHeadings(&fields) {
		return false
	}
	var readAs []string
	used := make([]bool, len(r.record))
	for c, at := range fields {
		r.at[c] = -1
		if len(at) > 1 {
			r.problem(r.place(at[1]), "%s and %s could both be the %s: rename the one that is not",
				timing.Quote(r.heading(at[0])), timing.Quote(r.heading(at[1])), column(c))
		}
		if len(at) == 0 {
			continue
		}
		r.at[c] = at[0]
		used[at[0]] = true
		name := r.heading(at[0])
		if column(c) == timeColumn {
			r.unit, _ = foldHeading(name).unitOf()
		}
		if !strings.EqualFold(name, columnNames[c]) {
			readAs = append(readAs, r.meaning(name, column(c)))
		}
	}
	for i := range r.record {
		if name := r.heading(i); !used[i] && name != "" {
			r.unused = append(r.unused, name)
		}
	}
	if len(readAs) > 0 {
		r.warn(r.place(0), "read as headings: %s", strings.Join(readAs, ", "))
	}
	return true
}

func (r *reader) heading(field int) string { return strings.TrimSpace(r.record[field]) }

// meaning says what a heading was read as.
func (r *reader) meaning(name string, c column) string {
	text := fmt.Sprintf("%s as %s", timing.Quote(name), c)
	if c == timeColumn && r.unit.name != "" {
		text += " (a number alone is " + r.unit.name + ")"
	}
	return text
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
		}
		r.problems = before // rows of a title may stand as they like
		rest = rest[len(row):]
		r.line += bytes.Count(row, []byte{'\n'})
	}
	r.record, r.spots, r.line = record, spots, line
	return nil, false
}

// headingSeparator is what stands between the fields of the headings, where those are
// found under the separator of their own line; false where they are not.
func headingSeparator(data []byte) (separator byte, found bool) {
	for n := 0; n < maxTitle && len(data) > 0; n++ {
		var line []byte
		line, data, _ = bytes.Cut(data, []byte{'\n'})
		separator, _ = separatorOf(line)
		cells := strings.Split(string(bytes.TrimSuffix(line, []byte{'\r'})), string(rune(separator)))
		for i := range cells {
			cells[i] = strings.Trim(cells[i], `" `)
		}
		if fields := columnsOf(cells); areHeadings(&fields) {
			return separator, true
		}
	}
	return 0, false
}
