package tasklog

import (
	"archive/zip"
	"bytes"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// odsOf is an .ods workbook of these tables.
func odsOf(t testing.TB, tables string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	w, err := z.Create("content.xml")
	require.NoError(t, err)
	_, err = w.Write([]byte(`<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"` +
		` xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0">` +
		`<office:body><office:spreadsheet>` + tables + `</office:spreadsheet></office:body></office:document-content>`))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	return b.Bytes()
}

// FuzzReadSheet: reading a workbook never panics, it is either right or has
// problems at cells of it, and what is read, written as CSV and read again is
// equal.
func FuzzReadSheet(f *testing.F) {
	const text = `<table:table-cell office:value-type="string"><text:p>`
	const end = `</text:p></table:table-cell>`
	f.Add(true, []byte(`<table:table table:name="May"><table:table-row>`+text+`step`+end+text+`count`+end+text+`time`+end+text+`note`+end+`</table:table-row>`+
		`<table:table-row table:number-rows-repeated="2">`+text+`sow`+end+`<table:table-cell office:value-type="float" office:value="1.3"/>`+
		`<table:table-cell office:value-type="time" office:time-value="PT00H03M07S"><text:p>03:07</text:p></table:table-cell>`+text+`a<text:s/>b`+end+`</table:table-row></table:table>`))
	for _, name := range []string{"may.xlsx", "may.ods"} {
		data, err := os.ReadFile("testdata/workbook/" + name)
		require.NoError(f, err)
		f.Add(false, data)
	}
	f.Fuzz(func(t *testing.T, isTable bool, data []byte) {
		if isTable {
			data = odsOf(t, string(data))
		}
		log, err := Read(bytes.NewReader(data), "may.ods", Dialect{})
		if err != nil {
			require.Nil(t, log.Readings)
			for _, p := range err.(study.Problems) {
				checkCell(t, p.Place)
			}
			return
		}
		for _, r := range log.Readings {
			require.False(t, math.IsNaN(r.Basic()) || math.IsInf(r.Basic(), 0))
			require.Greater(t, r.Seconds, 0.0)
			checkCell(t, r.Place)
		}
		checkRoundTrip(t, log.Readings)
	})
}

// checkCell holds a place to be a cell, a sheet or the file.
func checkCell(t *testing.T, p study.Place) {
	t.Helper()
	if p.Line == 0 {
		require.Zero(t, p.Column)
		return
	}
	require.LessOrEqual(t, p.Line, 1<<20)
	require.True(t, 1 <= p.Column && p.Column <= 1<<14, p)
}
