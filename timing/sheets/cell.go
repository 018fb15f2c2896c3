package sheets

import (
	"strings"

	"headhours/timing/words"
)

// Row is a row of a sheet that holds something.
type Row struct {
	Sheet  string
	Hidden bool   // the sheet is
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
