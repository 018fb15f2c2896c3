package sheets

import (
	"encoding/xml"
	"strconv"
	"strings"
)

// xlsxRows is where the reading of one sheet stands.
type xlsxRows struct {
	*xlsx
	row     Row
	column  int // of the cell in hand
	text    richText
	kind    string // the cell's type
	style   int
	formula bool
	valued  bool                   // the cell has a value, if only an empty one
	where   [maxColumns + 1]uint16 // in the row's cells, of each column, where that cell is of the column
}

// rows reads the rows of a sheet.
func (x *xlsx) rows(sheet xlsxSheet, visit func(Row) bool) error {
	s := xlsxRows{xlsx: x, row: Row{Sheet: sheet.name, Hidden: sheet.hidden}}
	inData := false
	for t, err := range x.tokens(sheet.part) {
		if err != nil {
			return err
		}
		switch e := t.(type) {
		case xml.StartElement:
			if e.Name.Local == "sheetData" {
				inData = true
			} else if inData {
				err = s.start(e)
			}
		case xml.EndElement:
			if e.Name.Local == "sheetData" {
				inData = false
			} else if inData {
				err = s.end(e, visit)
			}
		}
		if err != nil {
			return err
		}
		if inData {
			s.text.token(t)
		}
	}
	return nil
}

func (s *xlsxRows) start(e xml.StartElement) error {
	switch e.Name.Local {
	case "row":
		s.row.Number++
		if n, err := strconv.Atoi(attr(e, "r")); err == nil && n > 0 {
			s.row.Number = n
		}
		s.row.Cells, s.column = s.row.Cells[:0], 0
	case "c":
		s.text.take()
		s.column++
		if n := columnOf(attr(e, "r")); n > 0 {
			s.column = n
		}
		s.kind, s.formula, s.valued = attr(e, "t"), false, false
		s.style, _ = strconv.Atoi(attr(e, "s"))
	case "f":
		s.formula = true
	case "v", "is":
		s.valued = true
	}
	return nil
}

func (s *xlsxRows) end(e xml.EndElement, visit func(Row) bool) error {
	switch e.Name.Local {
	case "c":
		cell, err := s.cell()
		if err != nil || cell.Text == "" && cell.Fault == "" {
			return err
		}
		if s.column > maxColumns {
			return tooManyColumns(s.row.Sheet)
		}
		s.add(cell)
	case "row":
		if len(s.row.Cells) == 0 {
			return nil
		}
		if s.row.Number > maxRows {
			return tooManyRows(s.row.Sheet)
		}
		if !visit(s.row) {
			return errStop
		}
	}
	return nil
}

// add puts the cell in hand into its row.
func (s *xlsxRows) add(cell Cell) {
	at := int(s.where[s.column])
	if at < len(s.row.Cells) && s.row.Cells[at].Column == s.column {
		s.row.Cells[at].Fault = faultTwice
		return
	}
	s.where[s.column] = uint16(len(s.row.Cells))
	cell.Column = s.column
	s.row.Cells = append(s.row.Cells, cell)
}

// cell is what the cell in hand holds, by its type (ISO/IEC 29500-1, 18.18.11).
func (s *xlsxRows) cell() (Cell, error) {
	text := s.text.take()
	if s.formula && !s.valued {
		return unworkedCell(), nil
	}
	switch s.kind {
	case "s":
		if text == "" {
			return Cell{}, nil
		}
		n, err := strconv.Atoi(text)
		if err != nil || n < 0 || n >= len(s.strings) {
			return Cell{}, errShared
		}
		return s.strings[n], nil
	case "b":
		return Cell{Text: strings.ToUpper(strconv.FormatBool(isTrue(text)))}, nil
	case "e":
		return errorCell(text), nil
	case "d":
		return textCell(isoDate(text)), nil
	case "", "n":
		return s.numberCell(text), nil
	}
	return textCell(text), nil
}

func (s *xlsxRows) numberCell(text string) Cell {
	x, ok := value(text)
	if !ok { // blank, or no number after all
		return textCell(text)
	}
	var k kind
	if s.style >= 0 && s.style < len(s.kinds) {
		k = s.kinds[s.style]
	}
	return k.cell(x, s.from1904)
}

// columnOf is the column of a cell's reference, such as 28 of "AB7"; 0 where it
// has none.
func columnOf(reference string) int {
	n := 0
	for _, b := range []byte(reference) {
		if b < 'A' || b > 'Z' || n > maxColumns {
			break
		}
		n = 26*n + int(b-'A') + 1
	}
	return n
}

// xlsx reads the sheets of a workbook. Names of elements are taken without their
// namespace, so that strict workbooks read like transitional ones.
func (p *parts) xlsx(visit func(Row) bool) error {
	book, err := p.mainPart()
	if err != nil {
		return err
	}
	related, err := p.relations(book)
	if err != nil {
		return err
	}
	x := p.newXLSX()
	if err := x.workbook(book, related); err != nil {
		return err
	}
	for _, r := range related {
		switch r.kind {
		case "sharedStrings":
			err = x.sharedStrings(r.part)
		case "styles":
			err = x.styles(r.part)
		}
		if err != nil {
			return err
		}
	}
	for _, sheet := range x.sheets {
		if err := x.rows(sheet, visit); err != nil {
			return err
		}
	}
	return nil
}
