package sheets

import (
	"errors"
	"fmt"
	"iter"
	"path"
	"strings"
)

// Row is a row of a sheet that holds something.
type Row struct {
	Sheet  string
	Number int    // from 1
	Cells  []Cell // those that hold something, as they stand; good until the next row
}

// Cell is what a cell holds.
type Cell struct {
	Column  int    // from 1
	Text    string // see the package
	Fault   string // why it has no text, to be written behind its name; "" where it has
	Minutes bool   // a time that is shown as hours and minutes, without seconds
}

// At is the cell in a column; empty where the row has none.
func (r Row) At(column int) Cell {
	for _, cell := range r.Cells {
		if cell.Column == column {
			return cell
		}
	}
	return Cell{Column: column}
}

// Bounds of what a workbook may hold.
const (
	mostBytes    = 256 << 20 // of XML, unpacked
	mostRows     = 1 << 20   // of a sheet, as many as spreadsheets have
	mostColumns  = 1 << 14   // likewise
	mostText     = 1 << 17   // bytes of a cell; spreadsheets have 32,767 letters
	mostRepeated = 4 << 20   // cells that stand for others by repetition
	deepest      = 100       // elements one within another
)

// What may be wrong with a file as a whole, to be written behind its name.
var (
	errNoSheet = errors.New("is not a spreadsheet: an .xlsx or .ods file is needed")
	errLocked  = errors.New("is locked with a password, or an .xls of old: save it as .xlsx or .ods, without a password")
	errLarge   = fmt.Errorf("unpacks to more than %d MiB: a task log is smaller", mostBytes>>20)
	errDeep    = errors.New("is damaged: its XML is nested too deep")
)

// Is says whether a file is a workbook, or is to be taken for one: by the ending
// of its name or by its first bytes.
func Is(file string, data []byte) bool {
	switch strings.ToLower(path.Ext(file)) {
	case ".xlsx", ".ods":
		return true
	}
	return isZip(data) || isCompound(data)
}

// Rows are the rows of all sheets of a workbook, sheet by sheet, rows that hold
// nothing left out. An error is the last that is yielded; it says what is wrong
// with the file, to be written behind its name.
func Rows(data []byte) iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		if err := walk(data, func(r Row) bool { return yield(r, nil) }); err != nil && err != errStop {
			yield(Row{}, err)
		}
	}
}

// errStop ends a walk whose rows are no longer wanted.
var errStop = errors.New("stopped")

func walk(data []byte, visit func(Row) bool) error {
	p, err := unzip(data)
	if err != nil {
		return err
	}
	if err := p.isLocked(); err != nil {
		return err
	}
	if p.has("content.xml") {
		return p.ods(visit)
	}
	return p.xlsx(visit)
}

func tooManyRows(sheet string) error {
	return fmt.Errorf("has too much in sheet %q: at most %d rows can be read", sheet, mostRows)
}

func tooManyColumns(sheet string) error {
	return fmt.Errorf("has too much in sheet %q: at most %d columns can be read", sheet, mostColumns)
}

// textCell is a cell with a text of its own.
func textCell(text string) Cell {
	if len(text) > mostText {
		return Cell{Fault: "holds a text longer than any spreadsheet's: shorten it"}
	}
	if strings.Contains(text, "\r") {
		text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	}
	return Cell{Text: text}
}

func errorCell(text string) Cell {
	return Cell{Fault: fmt.Sprintf("holds the error %q: mend its formula", text)}
}

// unworkedCell is a cell whose formula has no value yet.
func unworkedCell() Cell {
	return Cell{Fault: "holds a formula without its value: open the file in a spreadsheet and save it there"}
}
