package tasklog

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"headhours/timing/study"
)

// page is a sheet of a workbook: its name, and its rows from the first on.
type page struct {
	name string
	rows [][]any
}

// shown is a value with a number format.
type shown struct {
	value any
	code  string
}

// days is a number of seconds as a duration of a spreadsheet.
func days(seconds float64) shown { return shown{seconds / 86400, "[h]:mm:ss"} }

// workbook writes an .xlsx file.
func workbook(t testing.TB, pages ...page) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetSheetName("Sheet1", pages[0].name))
	for _, p := range pages {
		_, err := f.NewSheet(p.name)
		require.NoError(t, err)
		for i, row := range p.rows {
			for j, value := range row {
				at, err := excelize.CoordinatesToCellName(j+1, i+1)
				require.NoError(t, err)
				if s, ok := value.(shown); ok {
					style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &s.code})
					require.NoError(t, err)
					require.NoError(t, f.SetCellStyle(p.name, at, at, style))
					value = s.value
				}
				require.NoError(t, f.SetCellValue(p.name, at, value))
			}
		}
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes()
}

// readBook reads a workbook, and gives its readings, warnings and problems, these
// as they are printed.
func readBook(data []byte, dialect Dialect) (readings []study.Reading, warnings, problems []string) {
	log, err := Read(bytes.NewReader(data), "may.xlsx", dialect)
	for _, w := range log.Warnings {
		warnings = append(warnings, w.Error())
	}
	if err != nil {
		problems = strings.Split(err.Error(), "\n")
	}
	return log.Readings, warnings, problems
}

// What an office program made of a CSV file reads as that file.
func TestWorkbooksOfAnOfficeProgram(t *testing.T) {
	readFile := func(name string) []study.Reading {
		data, err := os.ReadFile("testdata/workbook/" + name)
		require.NoError(t, err)
		log, err := Read(bytes.NewReader(data), name, Dialect{})
		require.NoError(t, err)
		require.Empty(t, log.Warnings)
		return log.Readings
	}
	want := readFile("may.csv")
	require.Len(t, want, 7)
	assert.Equal(t, 187.0, want[1].Seconds)
	for _, name := range []string{"may.ods", "may.xlsx"} {
		got := readFile(name)
		assert.Equal(t, withoutPlaces(want), withoutPlaces(got), name)
		for i, r := range got {
			assert.Equal(t, study.Place{File: name, Sheet: "may", Line: i + 2, Column: 1}, r.Place)
		}
	}
}

func TestWorkbookEveryColumn(t *testing.T) {
	data := workbook(t, page{"May 2026", [][]any{
		{"Date", " GROW ", "workflow", "step", "worker", "people", "start", "end", "paused", "time", "count", "setups", "source", "rating", "void", "note", "journal", "weather"},
		{},
		{
			shown{time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), "dd/mm/yyyy"}, "g1", "by hand", "sow", "w1", 2,
			shown{545.0 / 1440, "h:mm"}, "9:15:30.5", days(60), days(187), 12.5, 0, "Film", 95, "dropped a\ntray", "in the shade", "phone.jsonl 7", "rain",
		},
	}})
	readings, warnings, problems := readBook(data, Dialect{})
	assert.Empty(t, warnings)
	assert.Empty(t, problems)
	assert.Equal(t, []study.Reading{{
		Place:    study.Place{File: "may.xlsx", Sheet: "May 2026", Line: 3, Column: 1},
		Date:     time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC),
		Grow:     "g1",
		Workflow: "by hand",
		Step:     "sow",
		Worker:   "w1",
		People:   2,
		Start:    study.Known(9*3600 + 5*60),
		End:      study.Known(9*3600 + 15*60 + 30.5),
		Paused:   60,
		Seconds:  187,
		Count:    12.5,
		Setups:   study.Known(0),
		Source:   study.Film,
		Rating:   95,
		Void:     "dropped a\ntray",
		Note:     "in the shade",
		Journal:  "phone.jsonl 7",
	}}, readings)
}

// A time may stand in a cell in many ways.
func TestWorkbookTimes(t *testing.T) {
	for _, c := range []struct {
		cell any
		want float64
	}{
		{days(187), 187}, {days(187.4), 187.4}, {days(3787.000001), 3787.000001}, {days(100000), 100000},
		{shown{187.0 / 86400, "h:mm:ss"}, 187}, {shown{187.0 / 86400, "mm:ss"}, 187}, {shown{187.25 / 86400, "mm:ss.0"}, 187.25},
		{187, 187}, {187.4, 187.4}, {shown{187, "0.00"}, 187}, {"3:07", 187}, {"3,5min", 210}, {"187,4", 187.4}, {"187,4567", 187.4567}, {"PT3M7S", 187},
	} {
		readings, warnings, problems := readBook(workbook(t, page{"Log", [][]any{{"step", "count", "time"}, {"sow", 24, c.cell}}}), Dialect{})
		assert.Empty(t, warnings, c)
		assert.Empty(t, problems, c)
		assert.Equal(t, c.want, readings[0].Seconds, c)
	}
	readings, _, problems := readBook(workbook(t, page{"Log", [][]any{
		{"step", "count", "start", "end", "paused"},
		{"sow", 24, shown{1430.0 / 1440, "h:mm"}, shown{10.0 / 1440, "h:mm AM/PM"}, days(300)},
	}}), Dialect{})
	assert.Empty(t, problems)
	assert.Equal(t, 900.0, readings[0].Seconds)
}

// Every second up to three hours comes out of a fraction of a day as it was.
func TestWorkbookEverySecond(t *testing.T) {
	rows := [][]any{{"step", "count", "time"}}
	for s := 1; s < 3*3600; s++ {
		rows = append(rows, []any{"sow", 24, float64(s) / 86400})
	}
	f := excelize.NewFile()
	defer f.Close()
	style, err := f.NewStyle(&excelize.Style{NumFmt: 46})
	require.NoError(t, err)
	out, err := f.NewStreamWriter("Sheet1")
	require.NoError(t, err)
	for i, row := range rows {
		if i > 0 {
			row[2] = excelize.Cell{Value: row[2], StyleID: style}
		}
		at, err := excelize.CoordinatesToCellName(1, i+1)
		require.NoError(t, err)
		require.NoError(t, out.SetRow(at, row))
	}
	require.NoError(t, out.Flush())
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	readings, _, problems := readBook(b.Bytes(), Dialect{})
	assert.Empty(t, problems)
	require.Len(t, readings, len(rows)-1)
	for i, r := range readings {
		require.Equal(t, float64(i+1), r.Seconds)
	}
}

func TestWorkbookProblems(t *testing.T) {
	const (
		notNumber = "is not a number: digits with at most one decimal point or comma"
		notTime   = "is not a time: seconds as 187 or 187.4, or one of 3:07, 1:03:07, 3m7s, 3.5min, PT3M7S"
		notClock  = "is not a time of day: H:MM or H:MM:SS, from 0:00 to 23:59:59"
		notDate   = "is not a date: YYYY-MM-DD, a day of the calendar"
	)
	day := time.Date(2026, 3, 2, 9, 5, 0, 0, time.UTC)
	for _, c := range []struct {
		name string
		rows [][]any
		want []string
	}{
		{"nothing", nil, []string{`may.xlsx: empty: the first row of a sheet names the columns, at least step, count and time`}},
		{"blanks", [][]any{{" ", ""}}, []string{`may.xlsx: empty: the first row of a sheet names the columns, at least step, count and time`}},
		{"no step", [][]any{{}, {nil, "count", "time"}}, []string{`may.xlsx:Sheet1!A2: no column "step" among "count", "time": rename the heading of the steps' names to "step", or say which it is in study.toml, under [log.columns]: step = "…"`}},
		{"a name close to one", [][]any{{"step", "counts", "time"}}, []string{`may.xlsx:Sheet1!B1: no column "count" among "step", "counts", "time": is "counts" meant for "count"?`}},
		{"a column twice", [][]any{{"step", "count", "time", "Count"}, {"sow", "x", 1}}, []string{`may.xlsx:Sheet1!D1: column "count" stands twice: keep one of the two`}},
		{"bad cells", [][]any{{"count", "time", "step"}, {}, {"1o", -3, "hervest"}}, []string{
			`may.xlsx:Sheet1!A3: count "1o" ` + notNumber,
			`may.xlsx:Sheet1!B3: time "-3" ` + notTime,
			`may.xlsx:Sheet1!C3: step "hervest" is not known: is "harvest" meant? Correct it, or write in study.toml, under [log.steps]: "hervest" = "harvest"`,
		}},
		{"what a row lacks", [][]any{{"step", "count", "time"}, {"sow"}, {nil, 1, 1}}, []string{
			`may.xlsx:Sheet1!B2: count is blank: how many units the time covered`,
			`may.xlsx:Sheet1!C2: time is blank: give it, or both start and end`,
			`may.xlsx:Sheet1!A3: step is blank: name the step that was timed`,
		}},
		{"commas that may stand between thousands", [][]any{{"step", "count", "time"}, {"sow", "1,234", "3,5min"}, {"sow", "1,5", "120,000"}, {"sow", "12,34", "1,2345"}}, []string{
			`may.xlsx:Sheet1!B2: count "1,234" may be 1234 or 1.234: write the one that is meant`, `may.xlsx:Sheet1!C3: time "120,000" may be 120000 or 120.000: write the one that is meant`,
		}},
		{"a title above headings of which one is missing", [][]any{{"Timings of spring"}, {}, {"step", "Stück", "time"}, {"sow", 10, 60}}, []string{
			`may.xlsx:Sheet1!A3: no column "count" among "step", "Stück", "time": rename the heading of your counts to "count", or say which it is in study.toml, under [log.columns]: count = "…"`,
		}},
		{"a percentage", [][]any{{"step", "count", "time", "rating"}, {"sow", 1, 20, shown{0.95, "0%"}}}, []string{`may.xlsx:Sheet1!D2: rating "95%" is not a number: write 95, without the sign`}},
		{"a time where a number belongs", [][]any{{"step", "count", "time"}, {"sow", days(187), 20}}, []string{`may.xlsx:Sheet1!B2: count "0:03:07" ` + notNumber}},
		{"a date with its time", [][]any{{"step", "count", "time", "date", "start"}, {"sow", 1, 20, shown{day, "yyyy-mm-dd hh:mm"}, shown{day, "h:mm"}}}, []string{
			`may.xlsx:Sheet1!D2: date "2026-03-02T09:05:00" is not a date of the form YYYY-MM-DD: write 2026-03-02`, `may.xlsx:Sheet1!E2: start "2026-03-02T09:05:00" has its day too: write 09:05:00, and the day in the column date`,
		}},
		{"a date as a number", [][]any{{"step", "count", "time", "date"}, {"sow", 1, 20, shown{46083, "0"}}}, []string{`may.xlsx:Sheet1!D2: date "46083" ` + notDate}},
		{"a day that never was", [][]any{{"step", "count", "time", "date"}, {"sow", 1, 20, shown{60, "yyyy-mm-dd"}}}, []string{`may.xlsx:Sheet1!D2: date "1900-02-29" ` + notDate}},
		{"a date for a time", [][]any{{"step", "count", "time"}, {"sow", 1, shown{day, "h:mm:ss"}}}, []string{`may.xlsx:Sheet1!C2: time "2026-03-02T09:05:00" ` + notTime}},
		{"past midnight on its clock", [][]any{{"step", "count", "start", "end"}, {"sow", 1, "23:50", shown{1450.0 / 1440, "[h]:mm"}}}, []string{`may.xlsx:Sheet1!D2: end "24:10:00" ` + notClock}},
		{"a time below zero", [][]any{{"step", "count", "time"}, {"sow", 1, days(-1)}}, []string{`may.xlsx:Sheet1!C2: time "-0:00:01" ` + notTime}},
		{"true", [][]any{{"step", "count", "time"}, {"sow", true, 20}}, []string{`may.xlsx:Sheet1!B2: count "TRUE" ` + notNumber}},
	} {
		t.Run(c.name, func(t *testing.T) {
			readings, _, problems := readBook(workbook(t, page{"Sheet1", c.rows}), Dialect{Steps: []string{"sow", "harvest"}})
			assert.Equal(t, c.want, problems)
			assert.Nil(t, readings)
		})
	}
}

func TestWorkbookFormulas(t *testing.T) {
	data := workbook(t, page{"Sheet1", [][]any{{"step", "count", "time", "weather"}, {"sow", 24}, {"sow", 24, 20}}})
	f, err := excelize.OpenReader(bytes.NewReader(data))
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, f.SetCellFormula("Sheet1", "C2", "10+10"))
	require.NoError(t, f.SetCellFormula("Sheet1", "D3", "1/0")) // in a column of its own it does no harm
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	_, _, problems := readBook(b.Bytes(), Dialect{})
	assert.Equal(t, []string{"may.xlsx:Sheet1!C2: time holds a formula without its value: open the file in a spreadsheet and save it there"}, problems)
}

func TestNoWorkbook(t *testing.T) {
	for text, want := range map[string]string{
		"step,count,time\n":                "may.xlsx: is not a spreadsheet: an .xlsx or .ods file is needed",
		"PK\x03\x04 cut off":               "may.xlsx: is damaged: zip: not a valid zip file",
		"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1": "may.xlsx: is locked with a password, or an .xls of old: save it as .xlsx or .ods, without a password",
	} {
		_, _, problems := readBook([]byte(text), Dialect{})
		assert.Equal(t, []string{want}, problems)
	}
}

// A workbook of copies of bad rows does not fill the memory with problems.
func TestWorkbookOfBadRows(t *testing.T) {
	const cell = `<table:table-cell office:value-type="string"><text:p>`
	data := odsOf(t, `<table:table table:name="May"><table:table-row>`+
		cell+`step</text:p></table:table-cell>`+cell+`count</text:p></table:table-cell>`+cell+`time</text:p></table:table-cell></table:table-row>`+
		`<table:table-row table:number-rows-repeated="100000">`+cell+`x</text:p></table:table-cell></table:table-row></table:table>`)
	_, err := Read(bytes.NewReader(data), "may.ods", Dialect{})
	var found study.Problems
	require.ErrorAs(t, err, &found)
	assert.Len(t, found, study.MaxProblems+1)
	assert.Equal(t, "and 199000 more", found[study.MaxProblems].Error())
}

func TestHeadingsOfGrowersInWorkbook(t *testing.T) {
	rows := [][]any{{"Timings of spring"}, {}, {"Date", "Task", "Plants", "Minutes"}, {"31.3.2026", "sow", 48, 6.5}, {"2026-04-01", "thin", 48, "1:30"}}
	log, err := Read(bytes.NewReader(workbook(t, page{"spring", rows})), "may.xlsx", Dialect{})
	require.NoError(t, err)
	require.Len(t, log.Readings, 2)
	assert.Equal(t, 390.0, log.Readings[0].Seconds)
	assert.Equal(t, "2026-03-31", log.Readings[0].Date.Format(time.DateOnly))
	assert.Equal(t, 90.0, log.Readings[1].Seconds)
	assert.Contains(t, log.Warnings.Error(), `may.xlsx:spring!A3: read as headings: "Task" as step, "Minutes" as time (a number alone is minutes), "Plants" as count`)
	assert.Contains(t, log.Warnings.Error(), "the row above the headings is taken for a title and not read")

	// a sheet with our own names is the log, wherever it stands
	own := [][]any{{"step", "count", "time"}, {"sow", 1, 20}}
	log, err = Read(bytes.NewReader(workbook(t, page{"spring", rows}, page{"log", own})), "may.xlsx", Dialect{})
	require.NoError(t, err)
	require.Len(t, log.Readings, 1)
	assert.Equal(t, "log", log.Readings[0].Place.Sheet)
}

// A CSV file and a workbook of the same rows are wrong in the same ways at the same rows.
func TestWorkbookIsWrongLikeCSV(t *testing.T) {
	for _, text := range []string{
		"Timings of spring 2026\nstep,Stück,time\nsow,10,60\n", "Timings,,\nstep,Stück,time\nsow,10,60\n", "Timings\nby hand\nJob,Stück,Minutes,Who\nsow,10,60,w1\n",
		"Title\nnothing else\n", "step,count\nsow,1\n",
	} {
		var rows [][]any
		for line := range strings.Lines(text) {
			var row []any
			for _, cell := range strings.Split(strings.TrimSpace(line), ",") {
				row = append(row, cell)
			}
			rows = append(rows, row)
		}
		_, err := Read(strings.NewReader(text), "may.csv", Dialect{})
		var want study.Problems
		require.ErrorAs(t, err, &want)
		_, err = Read(bytes.NewReader(workbook(t, page{"May", rows})), "may.xlsx", Dialect{})
		var got study.Problems
		require.ErrorAs(t, err, &got, text)
		require.Len(t, got, len(want), "%s%v", text, err)
		for i := range got {
			assert.Equal(t, want[i].Text, got[i].Text)
			assert.Equal(t, want[i].Place.Line, got[i].Place.Line)
		}
	}
}
