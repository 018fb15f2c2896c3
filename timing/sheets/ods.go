package sheets

import (
	"encoding/xml"
	"errors"
	"strconv"
	"strings"

	"headhours/timing/late"
)

var errRepeated = errors.New("repeats cells too often for a task log")

// odsRows is where the reading of an .ods workbook stands. Rows and cells that
// say the same may stand once with the number of their repetitions.
type odsRows struct {
	visit    func(Row) bool
	tables   int // open ones: a sheet, and what may stand within it
	sheets   int
	row      Row
	repeats  int // of the row
	column   int // the last that was filled
	cell     xml.StartElement
	inCell   bool
	inText   bool // within a paragraph of the cell
	aside    int  // open elements of the cell that are not its text: comments, drawings
	text     strings.Builder
	lines    int             // of the cell's text
	repeated int             // cells that stood for others
	style    string          // of a sheet, of those that are in hand
	hidden   map[string]bool // the styles of sheets that are hidden
}

// ods reads the sheets of an .ods workbook (OpenDocument 1.3 part 3, 9.1).
func (p *parts) ods(visit func(Row) bool) error {
	o := odsRows{visit: visit, hidden: map[string]bool{}}
	isBook := false
	for t, err := range p.tokens("content.xml") {
		if err != nil {
			return err
		}
		switch t := t.(type) {
		case xml.StartElement:
			isBook = isBook || t.Name.Local == "spreadsheet"
			o.start(t)
			if o.sheets > maxSheets {
				return tooMany(maxSheets, "sheets")
			}
		case xml.EndElement:
			if err := o.end(t); err != nil {
				return err
			}
		case xml.CharData:
			if o.inText && o.aside == 0 {
				o.write(string(t))
			}
		}
	}
	if !isBook {
		return errNoSheet
	}
	return nil
}

// isLocked tells of a password, by what the list of parts says of them.
func (p *parts) isLocked() error {
	const list = "META-INF/manifest.xml"
	if !p.has(list) {
		return nil
	}
	for t, err := range p.tokens(list) {
		if err != nil {
			return err
		}
		if e, ok := t.(xml.StartElement); ok && e.Name.Local == "encryption-data" {
			return errLocked
		}
	}
	return nil
}

func (o *odsRows) start(e xml.StartElement) {
	switch {
	case o.tables == 0 && e.Name.Local == "style":
		o.style = attr(e, "name")
	case o.tables == 0 && e.Name.Local == "table-properties":
		if attr(e, "display") == "false" && len(o.hidden) < maxSheets {
			o.hidden[o.style] = true
		}
	case e.Name.Local == "table":
		o.tables++
		if o.tables == 1 {
			o.row = Row{Sheet: attr(e, "name"), Hidden: o.hidden[attr(e, "style-name")]}
			o.sheets++
		}
	case o.tables != 1:
	case o.inCell:
		o.within(e)
	case e.Name.Local == "table-row":
		o.repeats = repeats(e, "number-rows-repeated")
		o.row.Cells, o.column = o.row.Cells[:0], 0
	case e.Name.Local == "table-cell":
		o.cell, o.inCell, o.aside, o.lines = e.Copy(), true, 0, 0
		o.text.Reset()
	case e.Name.Local == "covered-table-cell": // by a merged one
		o.column += repeats(e, "number-columns-repeated")
	}
}

// within reads an element of a cell: paragraphs, and blanks that XML would drop.
func (o *odsRows) within(e xml.StartElement) {
	switch name := e.Name.Local; {
	case o.aside > 0, name == "annotation", strings.Contains(e.Name.Space, ":drawing:"):
		o.aside++
	case name == "p":
		o.inText = true
		if o.lines++; o.lines > 1 {
			o.write("\n")
		}
	case name == "s":
		o.write(strings.Repeat(" ", min(repeats(e, "c"), 1000)))
	case name == "tab":
		o.write("\t")
	case name == "line-break":
		o.write("\n")
	}
}

// write adds to the cell's text; one that is too long already is not read anyway.
func (o *odsRows) write(text string) {
	if o.text.Len() <= maxText {
		o.text.WriteString(text)
	}
}

func (o *odsRows) end(e xml.EndElement) error {
	switch {
	case e.Name.Local == "table":
		o.tables--
	case o.tables != 1:
	case o.aside > 0:
		o.aside--
	case e.Name.Local == "p":
		o.inText = false
	case e.Name.Local == "table-cell" && o.inCell:
		o.inCell = false
		return o.endCell()
	case e.Name.Local == "table-row":
		return o.endRow()
	}
	return nil
}

func (o *odsRows) endCell() error {
	times := repeats(o.cell, "number-columns-repeated")
	cell := odsCell(o.cell, o.text.String())
	if cell.Text == "" && cell.Fault == "" {
		o.column = min(o.column+times, maxColumns)
		return nil
	}
	if o.column+times > maxColumns {
		return tooManyColumns(o.row.Sheet)
	}
	for range times {
		o.column++
		cell.Column = o.column
		o.row.Cells = append(o.row.Cells, cell)
	}
	return o.repeat(times - 1)
}

func (o *odsRows) endRow() error {
	if len(o.row.Cells) == 0 {
		o.row.Number = min(o.row.Number+o.repeats, maxRows)
		return nil
	}
	if o.row.Number+o.repeats > maxRows {
		return tooManyRows(o.row.Sheet)
	}
	if err := o.repeat((o.repeats - 1) * len(o.row.Cells)); err != nil {
		return err
	}
	for range o.repeats {
		o.row.Number++
		if !o.visit(o.row) {
			return errStop
		}
	}
	return nil
}

func (o *odsRows) repeat(cells int) error {
	if o.repeated += cells; o.repeated > maxRepeated {
		return errRepeated
	}
	return nil
}

// repeats is how often an element stands, by an attribute.
func repeats(e xml.StartElement, name string) int {
	n, err := strconv.Atoi(attr(e, name))
	if err != nil || n < 1 {
		return 1
	}
	return min(n, maxRows+1)
}

// odsCell is what a cell holds, by its attributes and the text that it shows
// (OpenDocument 1.3 part 3, 19.387 office:value-type).
func odsCell(e xml.StartElement, shown string) Cell {
	office := func(name string) (string, bool) {
		for _, a := range e.Attr {
			if a.Name.Local == name && strings.Contains(a.Name.Space, ":office:") {
				return a.Value, true
			}
		}
		return "", false
	}
	kind, _ := office("value-type")
	formula := attr(e, "formula") != ""
	if formula && isOdsError(e, shown) {
		return errorCell(shown)
	}
	switch kind {
	case "float", "currency", "percentage":
		value, _ := office("value")
		return odsNumber(value, shown, kind == "percentage")
	case "date":
		value, _ := office("date-value")
		return textCell(isoDate(value))
	case "time":
		value, _ := office("time-value")
		return odsTime(value, shown)
	case "boolean":
		value, _ := office("boolean-value")
		return textCell(strings.ToUpper(value))
	}
	if value, ok := office("string-value"); ok {
		return textCell(value)
	}
	if formula && kind == "" && shown == "" {
		return unworkedCell()
	}
	return textCell(shown)
}

// isOdsError knows the error of a formula by the type that some programs note,
// or by what is shown in place of a value.
func isOdsError(e xml.StartElement, shown string) bool {
	for _, a := range e.Attr {
		if a.Name.Local == "value-type" && a.Value == "error" {
			return true
		}
	}
	return strings.HasPrefix(shown, "#") || strings.HasPrefix(shown, "Err:")
}

var shownCents = late.Regexp(`[.,]\d\d$`)

func odsNumber(text, shown string, inPercent bool) Cell {
	x, ok := value(text)
	switch {
	case !ok:
		return textCell(text)
	case inPercent:
		return Cell{Text: percent(x)}
	case shownCents().MatchString(shown):
		return Cell{Text: twoDecimals(x)}
	}
	return Cell{Text: digits(x)}
}

var duration = late.Regexp(`^(-?)PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:[.,]\d+)?)S)?$`)

// odsTime is a time of day or a duration, which are one type.
func odsTime(value, shown string) Cell {
	parts := duration().FindStringSubmatch(value)
	if parts == nil {
		return textCell(value)
	}
	seconds := 0.0
	for _, part := range parts[2:] {
		x, _ := strconv.ParseFloat(strings.Replace(part, ",", ".", 1), 64)
		seconds = 60*seconds + x
	}
	if parts[1] == "-" {
		seconds = -seconds
	}
	days := seconds / (24 * 3600)
	text := timeText(days, true, false)
	minutes := text == shown+":00" || text == strings.TrimPrefix(shown, "0")+":00"
	return Cell{Text: text, Minutes: minutes}
}
