package sheets

import (
	"iter"
	"path"
	"strings"
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
