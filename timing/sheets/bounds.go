package sheets

import (
	"errors"
	"fmt"

	"headhours/timing/words"
)

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

func tooManyRows(sheet string) error {
	return fmt.Errorf("has too much in sheet %s: at most %d rows can be read", words.Quote(sheet), maxRows)
}

func tooManyColumns(sheet string) error {
	return fmt.Errorf("has too much in sheet %s: at most %d columns can be read", words.Quote(sheet), maxColumns)
}

// errStop ends a walk whose rows are no longer wanted.
var errStop = errors.New("stopped")
