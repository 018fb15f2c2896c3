package sheets

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// FuzzRows: whatever XML stands in a workbook, reading it never panics, and its
// rows are in bounds and hold something.
func FuzzRows(f *testing.F) {
	f.Add(`<row r="2"><c r="B2" s="1"><v>46083</v></c><c t="s"><v>0</v></c><c t="e"><v>#REF!</v></c><c><f>A1</f></c></row>`, `<si><t>a_x0041_</t></si>`, "[h]:mm")
	f.Add(`<table:table table:name="May"><table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="2"`+
		` office:value-type="time" office:time-value="PT1H2M3.4S"><text:p>1:02</text:p></table:table-cell></table:table-row></table:table>`, "", "")
	f.Fuzz(func(t *testing.T, body, texts, code string) {
		kindOf(code)
		for _, data := range [][]byte{xlsxOf(t, body, texts), odsOf(t, body), []byte(body)} {
			n := 0
			for row, err := range Rows(data) {
				if err != nil {
					require.NotEmpty(t, err.Error())
					break
				}
				require.True(t, 1 <= row.Number && row.Number <= maxRows)
				require.NotEmpty(t, row.Cells)
				for _, cell := range row.Cells {
					require.True(t, 1 <= cell.Column && cell.Column <= maxColumns)
					require.NotEqual(t, cell.Text == "", cell.Fault == "")
					require.True(t, utf8.ValidString(cell.Text))
				}
				if n++; n > 1000 {
					break
				}
			}
		}
	})
}
