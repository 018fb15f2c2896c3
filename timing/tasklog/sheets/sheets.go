package sheets

import (
	"errors"
	"fmt"
	"iter"
	"path"
	"strings"

	"headhours/timing/words"
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
	maxBytes    = 256 << 20 // of XML, unpacked
	maxRows     = 1 << 20   // of a sheet, as many as spreadsheets have
	maxColumns  = 1 << 14   // likewise
	maxText     = 1 << 17   // bytes of a cell; spreadsheets have 32,767 letters
	maxRepeated = 4 << 20   // cells that stand for others by repetition
	deepest     = 100       // elements one within another

	maxToken  = 1 << 20  // bytes of an element's tag with all that stands in it, or of a text between two
	maxAttrs  = 1000     // of an element
	maxSheets = 1 << 12  // of a workbook
	maxLinks  = 1 << 16  // from one part to others
	maxStyles = 1 << 16  // number formats, and styles of cells; spreadsheets have 65,490
	maxShared = 1 << 20  // texts that cells share, as many as a sheet has rows
	maxTexts  = 64 << 20 // bytes of those
)

// What may be wrong with a file as a whole, to be written behind its name.
var (
	errNoSheet = errors.New("is not a spreadsheet: an .xlsx or .ods file is needed")
	errLocked  = errors.New("is locked with a password, or an .xls of old: save it as .xlsx or .ods, without a password")
	errLarge   = fmt.Errorf("unpacks to more than %d MiB: a task log is smaller", maxBytes>>20)
	errDeep    = errors.New("is damaged: its XML is nested too deep")
	errToken   = fmt.Errorf("is not read: holds an element or a text of more than %d MiB", maxToken>>20)
	errAttrs   = tooMany(maxAttrs, "attributes in an element")
	errTexts   = fmt.Errorf("is not read: holds more than %d MiB of shared texts", maxTexts>>20)
)

func tooMany(limit int, what string) error {
	return fmt.Errorf("is not read: holds more than %d %s", limit, what)
}

// damaged says what is wrong with a part.
func damaged(part string, err error) error {
	return fmt.Errorf("is damaged: %s: %s", words.Show(words.Short(part)), words.Cause(err))
}

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
	return fmt.Errorf("has too much in sheet %s: at most %d rows can be read", words.Quote(sheet), maxRows)
}

func tooManyColumns(sheet string) error {
	return fmt.Errorf("has too much in sheet %s: at most %d columns can be read", words.Quote(sheet), maxColumns)
}

// textCell is a cell with a text of its own.
func textCell(text string) Cell {
	if len(text) > maxText {
		return Cell{Fault: "holds a text longer than any spreadsheet's: shorten it"}
	}
	if strings.Contains(text, "\r") {
		text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	}
	return Cell{Text: text}
}

func errorCell(text string) Cell {
	return Cell{Fault: "holds the error " + words.Quote(text) + ": mend its formula"}
}

// faultTwice is of two cells of one place: one of them would be lost.
const faultTwice = "stands twice in the file: open it in a spreadsheet, mend the cell and save it there"

// unworkedCell is a cell whose formula has no value yet.
func unworkedCell() Cell {
	return Cell{Fault: "holds a formula without its value: open the file in a spreadsheet and save it there"}
}
