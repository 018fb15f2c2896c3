package sheets

import (
	"archive/zip"
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// part is a file within a workbook.
type part struct{ name, text string }

// zipped is a workbook of parts, in order.
func zipped(t testing.TB, parts ...part) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range parts {
		w, err := z.Create(p.name)
		require.NoError(t, err)
		_, err = w.Write([]byte(p.text))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

const (
	packageRels = `<Relationships><Relationship Id="rId1" Type="http://x/officeDocument" Target="xl/workbook.xml"/></Relationships>`
	bookOfOne   = `<workbook xmlns:r="r"><workbookPr/><sheets><sheet name="May" sheetId="1" r:id="rId1"/></sheets></workbook>`
	bookRels    = `<Relationships><Relationship Id="rId1" Type="http://x/worksheet" Target="worksheets/sheet1.xml"/>` +
		`<Relationship Id="rId2" Type="http://x/sharedStrings" Target="/xl/sharedStrings.xml"/>` +
		`<Relationship Id="rId3" Type="http://x/styles" Target="styles.xml"/></Relationships>`
	someStyles = `<styleSheet><numFmts><numFmt numFmtId="165" formatCode="yyyy\-mm\-dd"/></numFmts>` +
		`<cellStyleXfs><xf numFmtId="9"/><xf numFmtId="9"/></cellStyleXfs>` +
		`<cellXfs><xf numFmtId="0"/><xf numFmtId="165"/><xf numFmtId="46"/><xf numFmtId="20"/></cellXfs><other><xf numFmtId="9"/></other></styleSheet>`
)

// xlsxOf is a workbook with one sheet, of these rows and these shared texts.
func xlsxOf(t testing.TB, rows, texts string, more ...part) []byte {
	t.Helper()
	return zipped(t, append([]part{
		{"_rels/.rels", packageRels}, {"xl/workbook.xml", bookOfOne}, {"xl/_rels/workbook.xml.rels", bookRels},
		{"xl/styles.xml", someStyles}, {"xl/sharedStrings.xml", "<sst>" + texts + "</sst>"},
		{"xl/worksheets/sheet1.xml", "<worksheet><cols><col/></cols><sheetData>" + rows + "</sheetData><c><v>9</v></c></worksheet>"},
	}, more...)...)
}

const odsHead = `<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"` +
	` xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"` +
	` xmlns:draw="urn:oasis:names:tc:opendocument:xmlns:drawing:1.0" xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0">` +
	`<office:body><office:spreadsheet>`

// odsOf is a workbook of these tables.
func odsOf(t testing.TB, tables string, more ...part) []byte {
	t.Helper()
	text := odsHead + tables + `</office:spreadsheet></office:body></office:document-content>`
	return zipped(t, append([]part{{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}, {"content.xml", text}}, more...)...)
}

// all reads a workbook that is right.
func all(t *testing.T, data []byte) []Row {
	t.Helper()
	var rows []Row
	for row, err := range Rows(data) {
		require.NoError(t, err)
		row.Cells = append([]Cell(nil), row.Cells...)
		rows = append(rows, row)
	}
	return rows
}

// fault is what is wrong with a workbook.
func fault(data []byte) string {
	for _, err := range Rows(data) {
		if err != nil {
			return err.Error()
		}
	}
	return ""
}

// odsStyled is a workbook with styles of its own.
func odsStyled(t testing.TB, styles, tables string) []byte {
	t.Helper()
	head := strings.Replace(odsHead, "<office:body>", `<office:automatic-styles xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0">`+styles+`</office:automatic-styles><office:body>`, 1)
	return zipped(t, part{"content.xml", head + tables + `</office:spreadsheet></office:body></office:document-content>`})
}
