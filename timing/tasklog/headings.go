package tasklog

import (
	"bytes"
	"headhours/timing/study"
	"headhours/timing/words"
	"slices"
	"strings"
	"unicode"
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
		isCount := words[0] == columnNames[countColumn] || words[0] == "quantity" || words[0] == "qty"
		if isUnit && isTime || !isUnit && isCount {
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
	u, ok := units[name]
	return u, ok
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
	return words.Singular(word), word != ""
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

// cellsOf are the cells of a line as headings stand there.
func cellsOf(line []byte, separator byte) []string {
	cells := strings.Split(string(bytes.TrimSuffix(line, []byte{'\r'})), string(rune(separator)))
	for i := range cells {
		cells[i] = strings.Trim(cells[i], `" `)
	}
	return cells
}

// fields are those of a row of headings that the dialect takes for a column, and whether it
// says anything of that.
func (f *Dialect) fields(c column, cells []string) (fields []int, isSaid bool) {
	headings, isSaid := f.Columns[columnNames[c]]
	for _, theirs := range headings {
		fields = append(fields, headed(theirs, cells)...)
	}
	return fields, isSaid
}

// Has says whether a heading that a dialect names is among those of a log.
func Has(headings []string, theirs string) bool { return len(headed(theirs, headings)) > 0 }

// headed are the fields of a heading that the dialect names, as it stands or without its unit.
func headed(theirs string, cells []string) (fields []int) {
	known := []string{theirs}
	for i, cell := range cells {
		if _, same := study.SameName(strings.TrimSpace(cell), known); same {
			fields = append(fields, i)
		}
	}
	if fields != nil {
		return fields
	}
	for i, cell := range cells {
		if _, same := study.SameName(foldHeading(cell).name, known); same {
			fields = append(fields, i)
		}
	}
	return fields
}
