package sheets

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// written is a workbook that another program writes.
func written(t *testing.T, fill func(*excelize.File)) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	fill(f)
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

func TestXlsxOfAnotherProgram(t *testing.T) {
	data := written(t, func(f *excelize.File) {
		set := func(cell string, value any, code string) {
			require.NoError(t, f.SetCellValue("Sheet1", cell, value))
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
			require.NoError(t, err)
			require.NoError(t, f.SetCellStyle("Sheet1", cell, cell, style))
		}
		require.NoError(t, f.SetSheetRow("Sheet1", "B2", &[]any{"step", 24, 187.4, true, "Möhren\nlila"}))
		set("A3", time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), "dd/mm/yyyy")
		set("B3", 187.0/86400, "[h]:mm:ss")
		set("C3", 545.0/1440, "h:mm")
		set("D3", 0.95, "0%")
		set("E3", 1.3, "0.00")
		require.NoError(t, f.SetCellRichText("Sheet1", "F3", []excelize.RichTextRun{{Text: "so"}, {Text: "w", Font: &excelize.Font{Bold: true}}}))
		require.NoError(t, f.SetRowVisible("Sheet1", 3, false))
		require.NoError(t, f.AddComment("Sheet1", excelize.Comment{Cell: "A3", Author: "w1", Text: "no cell"}))
		require.NoError(t, f.MergeCell("Sheet1", "B5", "C6"))
		require.NoError(t, f.SetCellValue("Sheet1", "B5", "merged"))
		_, err := f.NewSheet("Empty")
		require.NoError(t, err)
		_, err = f.NewSheet("It's more")
		require.NoError(t, err)
		require.NoError(t, f.SetCellValue("It's more", "XFD5000", "last"))
		require.NoError(t, f.SetSheetVisible("It's more", false))
	})
	assert.Equal(t, []Row{
		{Sheet: "Sheet1", Number: 2, Cells: []Cell{
			{Column: 2, Text: "step"}, {Column: 3, Text: "24"}, {Column: 4, Text: "187.4"}, {Column: 5, Text: "TRUE"}, {Column: 6, Text: "Möhren\nlila"},
		}},
		{Sheet: "Sheet1", Number: 3, Cells: []Cell{
			{Column: 1, Text: "2026-03-02"}, {Column: 2, Text: "0:03:07"}, {Column: 3, Text: "9:05:00", Minutes: true},
			{Column: 4, Text: "95%"}, {Column: 5, Text: "1.30"}, {Column: 6, Text: "sow"},
		}},
		{Sheet: "Sheet1", Number: 5, Cells: []Cell{{Column: 2, Text: "merged"}}},
		{Sheet: "It's more", Hidden: true, Number: 5000, Cells: []Cell{{Column: maxColumns, Text: "last"}}},
	}, all(t, data))
}

// The last cell that a sheet has.
func TestLastCell(t *testing.T) {
	assert.Equal(t, []Row{{Sheet: "May", Number: maxRows, Cells: []Cell{{Column: maxColumns, Text: "7"}}}}, all(t, xlsxOf(t, `<row r="1048576"><c r="XFD1048576"><v>7</v></c></row>`, "")))
}

func TestXlsxFrom1904(t *testing.T) {
	data := written(t, func(f *excelize.File) {
		yes := true
		require.NoError(t, f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}))
		require.NoError(t, f.SetCellValue("Sheet1", "A1", time.Date(2026, 3, 2, 9, 5, 0, 0, time.UTC)))
		style, err := f.NewStyle(&excelize.Style{NumFmt: 14})
		require.NoError(t, err)
		require.NoError(t, f.SetCellStyle("Sheet1", "A1", "A1", style))
	})
	assert.Equal(t, "2026-03-02T09:05:00", all(t, data)[0].Cells[0].Text)
}

func TestXlsxCells(t *testing.T) {
	const texts = `<si><t>sow</t></si><si><r><t>to</t></r><r><rPr/><t xml:space="preserve">p up </t></r><rPh><t>toppu</t></rPh></si>` +
		`<si><t>a_x000D_` + "\n" + `b_x0041_</t></si><si/>`
	for _, c := range []struct {
		name, cell string
		want       Cell
	}{
		{"shared", `<c r="A1" t="s"><v>0</v></c>`, Cell{Text: "sow"}},
		{"shared, of runs, as it is pronounced", `<c r="A1" t="s"><v>1</v></c>`, Cell{Text: "top up "}},
		{"escaped", `<c r="A1" t="s"><v>2</v></c>`, Cell{Text: "a\nbA"}},
		{"inline", `<c r="A1" t="inlineStr"><is><r><t>so</t></r><r><t>w</t></r><rPh><t>x</t></rPh></is></c>`, Cell{Text: "sow"}},
		{"a number that a formula gave", `<c r="A1"><f>1+1</f><v>2</v></c>`, Cell{Text: "2"}},
		{"a text that a formula gave", `<c r="A1" t="str"><f>A2&amp;""</f><v>sow</v></c>`, Cell{Text: "sow"}},
		{"a formula without a value", `<c r="A1"><f>1+1</f></c>`, unworkedCell()},
		{"an error", `<c r="A1" t="e"><f>A2</f><v>#REF!</v></c>`, Cell{Fault: `holds the error "#REF!": mend its formula`}},
		{"a date", `<c r="A1" s="1"><v>46083</v></c>`, Cell{Text: "2026-03-02"}},
		{"a duration", `<c r="A1" s="2"><v>2.1643518518518518E-3</v></c>`, Cell{Text: "0:03:07"}},
		{"hours and minutes", `<c r="A1" s="3"><v>0.125</v></c>`, Cell{Text: "3:00:00", Minutes: true}},
		{"no such style", `<c r="A1" s="4"><v>2</v></c>`, Cell{Text: "2"}},
		{"a style below zero", `<c r="A1" s="-1"><v>2</v></c>`, Cell{Text: "2"}},
		{"a date in words", `<c r="A1" t="d"><v>2026-03-02T00:00:00</v></c>`, Cell{Text: "2026-03-02"}},
		{"true", `<c r="A1" t="b"><v>1</v></c>`, Cell{Text: "TRUE"}},
		{"no number", `<c r="A1"><v>NaN</v></c>`, Cell{Text: "NaN"}},
		{"in a namespace, with what else may stand in a cell", `<x:c xmlns:x="y" r="A1"><x:v>2</x:v><x:extLst><x:ext/></x:extLst></x:c>`, Cell{Text: "2"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.want.Column = 1
			assert.Equal(t, []Row{{Sheet: "May", Number: 1, Cells: []Cell{c.want}}}, all(t, xlsxOf(t, `<row r="1">`+c.cell+`</row>`, texts)))
		})
	}
	for _, blank := range []string{`<c r="A1"/>`, `<c r="A1"><v></v></c>`, `<c r="A1" t="s"><v>3</v></c>`, `<c r="A1" t="s"/>`, `<c r="A1" t="str"><f>""</f><v></v></c>`} {
		assert.Empty(t, all(t, xlsxOf(t, `<row r="1">`+blank+`</row>`, texts)), blank)
	}
}

// Rows and cells need not say where they stand.
func TestXlsxWithoutReferences(t *testing.T) {
	const rows = `<row><c><v>1</v></c><c><v>2</v></c></row><row/><row r="7"><c r="C7"><v>3</v></c><c><v>4</v></c></row><row><c><v>5</v></c></row>`
	assert.Equal(t, []Row{
		{Sheet: "May", Number: 1, Cells: []Cell{{Column: 1, Text: "1"}, {Column: 2, Text: "2"}}},
		{Sheet: "May", Number: 7, Cells: []Cell{{Column: 3, Text: "3"}, {Column: 4, Text: "4"}}},
		{Sheet: "May", Number: 8, Cells: []Cell{{Column: 1, Text: "5"}}},
	}, all(t, xlsxOf(t, rows, "")))
}

func TestColumnOf(t *testing.T) {
	for reference, want := range map[string]int{
		"A1": 1, "Z9": 26, "AA1": 27, "AB7": 28, "ZZ1": 702, "AAA1": 703, "XFD1048576": 16384, "": 0, "7": 0, "a1": 0,
	} {
		assert.Equal(t, want, columnOf(reference), reference)
	}
	assert.Greater(t, columnOf("ZZZZZZZZZZZZZZZZZZZZ1"), maxColumns)
}

// Sheets of charts have no cells, and a workbook may do without texts and styles.
func TestXlsxParts(t *testing.T) {
	data := zipped(t,
		part{"[Content_Types].xml", "<Types/>"},
		part{`_rels\.rels`, `<Relationships><Relationship Id="a" Type="http://x/core-properties" Target="docProps/core.xml"/>` +
			`<Relationship Id="b" Type="http://x/officeDocument" Target="/Book/Book.xml"/></Relationships>`},
		part{"book/book.xml", `<workbook xmlns:r="r"><workbookPr date1904="true"/><sheets><sheet id="9" name="Chart" r:id="c"/>` +
			`<sheet name="Log" r:id="l"/><sheet name="Gone" r:id="g"/></sheets></workbook>`},
		part{"book/_rels/book.xml.rels", `<Relationships><Relationship Id="c" Type="http://x/chartsheet" Target="chart.xml"/>` +
			`<Relationship Id="l" Type="http://x/worksheet" Target="../sheets/log.xml"/></Relationships>`},
		part{"sheets/LOG.xml", `<worksheet><sheetData><row><c s="1"><v>2</v></c></row></sheetData></worksheet>`},
		part{"xl/vbaProject.bin", "never looked at"},
	)
	assert.Equal(t, []Row{{Sheet: "Log", Number: 1, Cells: []Cell{{Column: 1, Text: "2"}}}}, all(t, data))
}
