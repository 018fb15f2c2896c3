package tasklog

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// Which sheet of a workbook is read, and what is said of the others.

func TestWorkbookChoosesItsSheet(t *testing.T) {
	log := [][]any{{"step", "count", "time"}, {"sow", 24, 96}}
	readings, warnings, problems := readBook(workbook(t,
		page{"Notes", [][]any{{"Remarks of May"}, {"step", "count", "time"}, {"x", "y", "z"}}},
		page{"Empty", nil},
		page{"Near", [][]any{{"step", "counts", "time"}, {"sow", 1, 2}}},
		page{"The log", log},
		page{"It's June", log},
	), Dialect{})
	assert.Empty(t, problems)
	require.Len(t, readings, 1)
	assert.Equal(t, "may.xlsx:'The log'!A2", readings[0].Place.String())
	const save = ". To have it read too, save it as a file of its own"
	assert.Equal(t, []string{
		`may.xlsx:Notes: is not read: a file holds one log, and this one's is in "The log", whose first row has just the names step, count, and time or start and end` + save,
		"may.xlsx:Near: is not read: none of its first 30 rows has headings for what a log needs, step, count, and time or both start and end",
		`may.xlsx:'It''s June': is not read: a file holds one log, and this one's is in "The log"` + save,
	}, warnings)
}

// Where no sheet is a log, the first says what it lacks.
func TestWorkbookWithoutALog(t *testing.T) {
	_, _, problems := readBook(workbook(t, page{"Empty", nil}, page{"A", [][]any{{"step", "count"}}}, page{"B", [][]any{{"x"}}}), Dialect{})
	assert.Equal(t, []string{`may.xlsx:A!A1: no column "time", nor both "start" and "end" among "step", "count": rename the heading of your durations to "time" (a number alone is seconds), or "minutes" if they are minutes, or those of your clock times to "start" and "end"`}, problems)
}

func TestWorkbookWarnings(t *testing.T) {
	_, warnings, problems := readBook(workbook(t, page{"Log", [][]any{
		{"step", "count", "time", "paused", "start"},
		{"sow", 24, shown{187.0 / 1440, "h:mm"}, nil, shown{187.0 / 1440, "h:mm"}},
		{"sow", 24, shown{1.3, "0.00"}, shown{25.0 / 1440, "hh:mm"}},
	}}), Dialect{})
	assert.Empty(t, problems)
	assert.Equal(t, []string{
		`may.xlsx:Log!C2: "3:07" is read as hours and minutes: write it as 0:03:07 if minutes and seconds were meant`,
		`may.xlsx:Log!C3: "1.30" is read as 1.30 seconds: write 1:30 or 1.3min if minutes were meant`,
		`may.xlsx:Log!D3: "0:25" is read as hours and minutes: write it as 0:00:25 if minutes and seconds were meant`,
	}, warnings)
}

// Cells beyond the headings are not read, in a sheet as in the CSV file made of it, and are
// said in a number that agrees.
func TestWorkbookCellsBeyond(t *testing.T) {
	rows := [][]any{{"step", "count", "time"}, {"sow", 24, 60, nil, "a remark"}}
	for _, c := range []struct {
		more []any
		want string
	}{
		{nil, "stands beyond the last heading and is not read"},
		{[]any{nil, nil, nil, 216}, "stands beyond the last heading and is not read, nor is 1 more such cell"},
		{[]any{"thin", 1, 2, 216, 217}, "stands beyond the last heading and is not read, nor are 2 more such cells"},
	} {
		_, warnings, problems := readBook(workbook(t, page{"Log", append(rows[:2:2], c.more)}), Dialect{})
		assert.Empty(t, problems)
		assert.Equal(t, []string{"may.xlsx:Log!E2: " + c.want}, warnings)
	}
	_, err := Read(strings.NewReader("step,count,time,,\nsow,24,60,,a remark\n"), "may.csv", Dialect{})
	assert.NoError(t, err)
}

// A hidden sheet is not taken before a visible one, under whatever names that has its columns.
func TestWorkbookHiddenSheets(t *testing.T) {
	own, other := [][]any{{"step", "count", "time"}, {"sow", 24, 96}}, [][]any{{"Task", "Plants", "Minutes"}, {"sow", 24, 1.5}}
	hide := func(data []byte, sheets ...string) []byte {
		f, err := excelize.OpenReader(bytes.NewReader(data))
		require.NoError(t, err)
		defer f.Close()
		f.SetActiveSheet(1)
		for _, sheet := range sheets {
			require.NoError(t, f.SetSheetVisible(sheet, false, true))
		}
		var b bytes.Buffer
		require.NoError(t, f.Write(&b))
		return b.Bytes()
	}
	readings, warnings, problems := readBook(hide(workbook(t, page{"Old", own}, page{"New", other}), "Old"), Dialect{})
	assert.Empty(t, problems)
	require.Len(t, readings, 1)
	assert.Equal(t, "may.xlsx:New!A2", readings[0].Place.String())
	assert.Contains(t, warnings[0], `may.xlsx:Old: is not read: a file holds one log, and this one's is in "New", which is not hidden. To have it read too`)
	readings, warnings, problems = readBook(hide(workbook(t, page{"Old", own}, page{"Notes", [][]any{{"x"}}}), "Old"), Dialect{})
	assert.Empty(t, problems)
	require.Len(t, readings, 1)
	assert.Contains(t, strings.Join(warnings, "\n"), "may.xlsx:Old: is a hidden sheet, and read since no other is a log")
	_, _, problems = readBook(hide(workbook(t, page{"Old", [][]any{{"step", "time"}}}, page{"Notes", [][]any{{"x"}}}), "Old"), Dialect{})
	assert.Contains(t, problems[0], "may.xlsx:Notes!A1: ")
}
