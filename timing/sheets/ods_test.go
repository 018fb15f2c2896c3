package sheets

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestOdsCells(t *testing.T) {
	for _, c := range []struct {
		name, cell string
		want       Cell
	}{
		{"text", `<table:table-cell office:value-type="string"><text:p>sow</text:p></table:table-cell>`, Cell{Text: "sow"}},
		{"text of spans, blanks and lines", "<table:table-cell office:value-type=\"string\">\n <text:p>a<text:s text:c=\"2\"/><text:span>b</text:span><text:tab/>c</text:p>\n" +
			" <text:p>d<text:line-break/>e</text:p>\n</table:table-cell>", Cell{Text: "a  b\tc\nd\ne"}},
		{"text beside a comment and a drawing", `<table:table-cell office:value-type="string"><office:annotation><text:p>no</text:p><text:p>text</text:p></office:annotation>` +
			`<draw:frame><draw:text-box><text:p>nor this</text:p></draw:text-box></draw:frame><text:p>sow</text:p></table:table-cell>`, Cell{Text: "sow"}},
		{"text about a drawing", `<table:table-cell office:value-type="string"><text:p>so<draw:frame>no<text:p>text</text:p>here</draw:frame>w</text:p></table:table-cell>`, Cell{Text: "sow"}},
		{"text that the formula gave", `<table:table-cell table:formula="of:=A2" office:value-type="string" office:string-value="sow"><text:p>shown</text:p></table:table-cell>`, Cell{Text: "sow"}},
		{"text that looks like an error", `<table:table-cell office:value-type="string"><text:p>#3</text:p></table:table-cell>`, Cell{Text: "#3"}},
		{"number", `<table:table-cell office:value-type="float" office:value="187.4"><text:p>187</text:p></table:table-cell>`, Cell{Text: "187.4"}},
		{"number shown with two decimals", `<table:table-cell office:value-type="float" office:value="1.3"><text:p>1,30</text:p></table:table-cell>`, Cell{Text: "1.30"}},
		{"no number", `<table:table-cell office:value-type="float" office:value="NaN"/>`, Cell{Text: "NaN"}},
		{"money", `<table:table-cell office:value-type="currency" office:value="2"/>`, Cell{Text: "2"}},
		{"percent", `<table:table-cell office:value-type="percentage" office:value="0.95"/>`, Cell{Text: "95%"}},
		{"date", `<table:table-cell office:value-type="date" office:date-value="2026-03-02"><text:p>02/03/26</text:p></table:table-cell>`, Cell{Text: "2026-03-02"}},
		{"date and time", `<table:table-cell office:value-type="date" office:date-value="2026-03-02T09:05:00"/>`, Cell{Text: "2026-03-02T09:05:00"}},
		{"date and midnight", `<table:table-cell office:value-type="date" office:date-value="2026-03-02T00:00:00"/>`, Cell{Text: "2026-03-02"}},
		{"time", `<table:table-cell office:value-type="time" office:time-value="PT00H03M07S"><text:p>03:07</text:p></table:table-cell>`, Cell{Text: "0:03:07"}},
		{"time, not quite", `<table:table-cell office:value-type="time" office:time-value="PT00H03M06.999999999S"/>`, Cell{Text: "0:03:07"}},
		{"time with decimals", `<table:table-cell office:value-type="time" office:time-value="PT3M7,4S"/>`, Cell{Text: "0:03:07.4"}},
		{"time beyond a day", `<table:table-cell office:value-type="time" office:time-value="PT25H30M00S"/>`, Cell{Text: "25:30:00"}},
		{"time of a date", `<table:table-cell office:value-type="time" office:time-value="PT1106004H00M00S"/>`, Cell{Text: "2026-03-02T12:00:00"}},
		{"time below zero", `<table:table-cell office:value-type="time" office:time-value="-PT1M"/>`, Cell{Text: "-0:01:00"}},
		{"time in other words", `<table:table-cell office:value-type="time" office:time-value="P1Y"/>`, Cell{Text: "P1Y"}},
		{"hours and minutes", `<table:table-cell office:value-type="time" office:time-value="PT03H07M00S"><text:p>03:07</text:p></table:table-cell>`, Cell{Text: "3:07:00", Minutes: true}},
		{"minutes and no hours", `<table:table-cell office:value-type="time" office:time-value="PT00H07M00S"><text:p>0:07</text:p></table:table-cell>`, Cell{Text: "0:07:00", Minutes: true}},
		{"minutes and no seconds", `<table:table-cell office:value-type="time" office:time-value="PT00H03M00S"><text:p>03:00</text:p></table:table-cell>`, Cell{Text: "0:03:00"}},
		{"true", `<table:table-cell office:value-type="boolean" office:boolean-value="true"><text:p>WAHR</text:p></table:table-cell>`, Cell{Text: "TRUE"}},
		{"error", `<table:table-cell table:formula="of:=1/0" office:value-type="string" office:string-value="" calcext:value-type="error"><text:p>#DIV/0!</text:p></table:table-cell>`, errorCell("#DIV/0!")},
		{"error of another program", `<table:table-cell table:formula="of:=1/0" office:value-type="string"><text:p>Err:502</text:p></table:table-cell>`, errorCell("Err:502")},
		{"formula without a value", `<table:table-cell table:formula="of:=1/0"/>`, unworkedCell()},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.want.Column = 1
			data := odsOf(t, `<table:table table:name="May"><table:table-row>`+c.cell+`</table:table-row></table:table>`)
			assert.Equal(t, []Row{{Sheet: "May", Number: 1, Cells: []Cell{c.want}}}, all(t, data))
		})
	}
}

const odsOne = `<table:table-cell office:value-type="float" office:value="1"/>`

func TestOdsRepetition(t *testing.T) {
	data := odsOf(t, `<table:table table:name="May"><table:table-column table:number-columns-repeated="16384"/>
<table:table-header-rows><table:table-row><table:table-cell table:number-columns-repeated="2"/><table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="2"/>`+odsOne+`</table:table-row></table:table-header-rows>
<table:table-row table:number-rows-repeated="3"><table:covered-table-cell table:number-columns-repeated="4"/><table:table-cell table:number-columns-repeated="16379"/></table:table-row>
<table:table-row table:number-rows-repeated="2" table:visibility="collapse">`+odsOne+`</table:table-row>
<table:table-row table:number-rows-repeated="1000000"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
<table:table-row table:number-rows-repeated="1000000"><table:table-cell table:number-columns-repeated="16384"/></table:table-row></table:table>
<table:table table:name="Empty"><table:table-row><table:table-cell/></table:table-row></table:table>
<table:table table:name="June"><table:table-row>`+odsOne+`</table:table-row></table:table>`)
	assert.Equal(t, []Row{
		{Sheet: "May", Number: 1, Cells: []Cell{{Column: 3, Text: "2"}, {Column: 4, Text: "2"}, {Column: 5, Text: "1"}}},
		{Sheet: "May", Number: 5, Cells: []Cell{{Column: 1, Text: "1"}}},
		{Sheet: "May", Number: 6, Cells: []Cell{{Column: 1, Text: "1"}}},
		{Sheet: "June", Number: 1, Cells: []Cell{{Column: 1, Text: "1"}}},
	}, all(t, data))
}

// A table within a cell, as an embedded drawing has one, is no sheet.
func TestOdsTableInACell(t *testing.T) {
	data := odsOf(t, `<table:table table:name="May"><table:table-row><table:table-cell office:value-type="string"><draw:object>`+
		`<table:table table:name="local"><table:table-row>`+odsOne+`</table:table-row></table:table></draw:object><text:p>sow</text:p></table:table-cell></table:table-row>`+
		`<table:table-row>`+odsOne+`</table:table-row></table:table>`)
	assert.Equal(t, []Row{
		{Sheet: "May", Number: 1, Cells: []Cell{{Column: 1, Text: "sow"}}},
		{Sheet: "May", Number: 2, Cells: []Cell{{Column: 1, Text: "1"}}},
	}, all(t, data))
}

// A sheet is hidden by its style.
func TestOdsHidden(t *testing.T) {
	rows := `<table:table-row>` + odsOne + `</table:table-row></table:table>`
	data := odsOf(t, `<table:table table:name="Old" table:style-name="ta2">`+rows+`<table:table table:name="New" table:style-name="ta1">`+rows)
	styled := odsStyled(t, `<style:style style:name="ta1" style:family="table"><style:table-properties table:display="true"/></style:style>`+
		`<style:style style:name="ta2" style:family="table"><style:table-properties table:display="false"/></style:style>`,
		`<table:table table:name="Old" table:style-name="ta2">`+rows+`<table:table table:name="New" table:style-name="ta1">`+rows)
	cells := []Cell{{Column: 1, Text: "1"}}
	assert.Equal(t, []Row{{Sheet: "Old", Number: 1, Cells: cells}, {Sheet: "New", Number: 1, Cells: cells}}, all(t, data))
	assert.Equal(t, []Row{{Sheet: "Old", Number: 1, Cells: cells, Hidden: true}, {Sheet: "New", Number: 1, Cells: cells}}, all(t, styled))
}
