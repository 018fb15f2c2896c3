package folder

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// sheet is a workbook of one sheet, row by row.
func sheet(t *testing.T, rows ...[]any) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i, row := range rows {
		at, err := excelize.CoordinatesToCellName(1, i+1)
		require.NoError(t, err)
		require.NoError(t, f.SetSheetRow("Sheet1", at, &row))
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

// A sheet is a log like any other: among the study's own, in order of file name,
// and by itself under any name.
func TestOpenSheets(t *testing.T) {
	may := sheet(t, []any{"step", "count", "time"}, []any{"sow", 4, 9.5}, []any{"thin", 3, "1:30"})
	dir := studyIn(t, map[string]string{
		"study.toml":           small,
		"timings/b.csv":        sowings,
		"timings/A.XLSX":       string(may),
		"timings/~$A.XLSX":     "open",
		"timings/.~lock.a.ods": "open",
	})
	o, err := Open(dir, nil, How{Sums: true})
	require.NoError(t, err)
	assert.Empty(t, o.Warnings)
	var places []string
	for _, r := range readingsOf(t, o) {
		places = append(places, filepath.Base(r.Place.String()))
	}
	assert.Equal(t, []string{"A.XLSX:Sheet1!A2", "A.XLSX:Sheet1!A3", "b.csv:2:1", "b.csv:3:1"}, places)
	assert.Equal(t, []File{
		{"study.toml", digest(small), 0, nil, 0}, {"timings/A.XLSX", digest(string(may)), 2, nil, 0}, {"timings/b.csv", digest(sowings), 2, nil, 0},
	}, o.Files)

	other := filepath.Join(t.TempDir(), "download")
	require.NoError(t, os.WriteFile(other, may, 0o644))
	o, err = Open(dir, []string{other}, How{Sums: true})
	require.NoError(t, err)
	assert.Equal(t, 90.0, readingsOf(t, o)[1].Seconds)
}

func TestOpenBadSheets(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml":       small,
		"timings/a.ods":    "no zip",
		"timings/may.xlsx": string(sheet(t, []any{"step", "time", "count"}, []any{"sow", 9.5, "4o"}, []any{"saw", 9.5, 4})),
	})
	assert.Equal(t, []string{
		"timings/a.ods: is not a spreadsheet: an .xlsx or .ods file is needed",
		`timings/may.xlsx:Sheet1!C2: count "4o" is not a number: digits with at most one decimal point or comma`,
		`timings/may.xlsx:Sheet1!A3: step "saw" is not known: is "sow" meant? Correct it, or write in study.toml, under [log.steps]: "saw" = "sow"`,
	}, openProblems(t, dir))
}

// A sheet and what it was saved as are the same log.
func TestSheetAndItsCopy(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml":       small,
		"timings/may.csv":  "step;time;count\nsow;9,5;4\nthin;1:30;3\n",
		"timings/may.xlsx": string(sheet(t, []any{"step", "count", "time"}, []any{"sow", 4, 9.5}, []any{"thin", 3, "1:30"})),
		"timings/one.csv":  "step;time;count\nsow;9,5;4\n",
	})
	o, err := Open(dir, nil, How{})
	require.NoError(t, err)
	assert.Equal(t, []string{
		"timings/may.xlsx: has the same 2 readings as timings/may.csv, and all of them count twice: take one of the two away",
	}, told(dir, o.Warnings))
	assert.Len(t, o.Cautions, 1)
}
