package tasklog

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/notation"
	"headhours/timing/study"
)

// readings reads a log by both ways of reading, which must agree, in chunks of any size.
func readings(t *testing.T, text string, dialect Dialect) ([]study.Reading, Log, error) {
	t.Helper()
	checkScan(t, text, dialect)
	log, err := Read(strings.NewReader(text), "monday.csv", dialect)
	return log.Readings, log, err
}

func TestColumnsOfTheForm(t *testing.T) {
	dialect := Dialect{
		Steps: []string{"sow", "transplant"}, Per: map[string]string{"sow": "tray", "transplant": "plant"},
		Times:     "minutes",
		Columns:   map[string][]string{"step": {"Arbeit"}, "count": {"Plants", "Trays"}, "time": {"Dauer"}, "note": {}},
		StepNames: map[string]string{"Sowing seeds": "sow"},
	}
	text := "Spring\nDate,Arbeit,Plants,Trays,Dauer,note\n" +
		"31.3.2026,Sowing seeds,48,2,6.5,\"one, two\"\n1.4.2026,transplant,48,,90s,\n2.4.2026,SOWING  seeds,,2,1:30,\n3.4.2026,transplant,48,2,3,\n"
	got, log, err := readings(t, text, dialect)
	require.NoError(t, err)
	require.Len(t, got, 4)
	for i, want := range []struct {
		step           string
		count, seconds float64
	}{{"sow", 2, 390}, {"transplant", 48, 90}, {"sow", 2, 90}, {"transplant", 48, 180}} {
		assert.Equal(t, want.step, got[i].Step)
		assert.Equal(t, want.count, got[i].Count)
		assert.Equal(t, want.seconds, got[i].Seconds)
		assert.Empty(t, got[i].Note)
	}
	require.Len(t, log.Warnings, 1, "%v", log.Warnings)
	assert.EqualError(t, log.Warnings[0], `monday.csv:2:1: the row above the headings is taken for a title and not read`)

	dialect.Per["sow"] = "seed"
	_, _, err = readings(t, text, dialect)
	assert.EqualError(t, err, `monday.csv:3:27: count "2" stands beside another in "Plants": leave one of the two blank, or head one like what step "sow" counts`)
	_, _, err = readings(t, "Arbeit,Plants,Trays,Dauer\nsow,,,3\n", dialect)
	assert.EqualError(t, err, `monday.csv:2:5: count is blank: how many units the time covered`)
	dialect.Per["sow"] = "visit"
	got, _, err = readings(t, "Arbeit,Plants,Dauer,Trays\r\nsow,,3,\r\nsow,,3,7\r\nsow,4,3,\r\n", dialect)
	require.NoError(t, err)
	assert.Equal(t, []float64{1, 7, 4}, []float64{got[0].Count, got[1].Count, got[2].Count})
}

// What the study says goes before our own names, and other logs are read as ever.
func TestFormBeforeOwnNames(t *testing.T) {
	dialect := Dialect{Columns: map[string][]string{"time": {"minutes"}, "worker": {"Initials"}, "grow": {}}}
	got, log, err := readings(t, "step,count,time,minutes,initials,grow\nsow,1,9,2,w1,g1\n", dialect)
	require.NoError(t, err)
	assert.Equal(t, 120.0, got[0].Seconds)
	assert.Equal(t, "w1", got[0].Worker)
	assert.Empty(t, got[0].Grow)
	assert.Empty(t, log.Warnings)
	got, _, err = readings(t, "step,count,time\nsow,1,9\n", dialect)
	require.NoError(t, err)
	assert.Equal(t, 9.0, got[0].Seconds)
	_, _, err = readings(t, "step,count,minutes,minutes\nsow,1,9,2\n", dialect)
	assert.EqualError(t, err, `monday.csv:1:20: column "minutes" stands twice: keep one of the two`)
}

func TestTimesOfTheForm(t *testing.T) {
	for times, want := range map[string][]float64{"": {4, 2}, "seconds": {4, 2}, "minutes": {360 - 120, 120}, "hours": {4 * 3600, 2 * 3600}} {
		got, _, err := readings(t, "step,count,start,end,paused,time\nsow,1,8:00,8:10,2,4\nsow,1,8:00,18:00,2,\n", Dialect{Times: times})
		require.NoError(t, err)
		assert.Equal(t, want, []float64{got[0].Seconds, got[0].Paused}, times)
		assert.Equal(t, 10*3600-want[1], got[1].Seconds)
	}
	got, _, err := readings(t, "step,count,time (s),paused (min)\nsow,1,9,2\n", Dialect{Times: "hours"})
	require.NoError(t, err)
	assert.Equal(t, []float64{9, 120}, []float64{got[0].Seconds, got[0].Paused})
	_, log, err := readings(t, "step,count,time,date,who,day\nsow,1,9,,a,\n", Dialect{})
	require.NoError(t, err)
	require.Len(t, log.Warnings, 2)
	assert.EqualError(t, log.Warnings[0], `monday.csv:1:22: "who" is not read: to have it read as the worker, write in study.toml, under [log.columns]: worker = "who"`)
	assert.EqualError(t, log.Warnings[1], `monday.csv:1:26: "day" is not read: to have it read as the date, write in study.toml, under [log.columns]: date = "day"`)
}

func TestOrdersOfDates(t *testing.T) {
	days := func(dialect Dialect, dates ...string) (days []string, log Log, err error) {
		text := "step,count,time,date\n"
		for _, date := range dates {
			text += "sow,1,9," + date + "\n"
		}
		order, err := OrderOfDates(strings.NewReader(text), "monday.csv", dialect)
		require.NoError(t, err)
		if dialect.Dates.Order == 0 {
			dialect.Dates = order
		}
		got, log, err := readings(t, text, dialect)
		for _, r := range got {
			days = append(days, r.Date.Format("2006-01-02"))
		}
		return days, log, err
	}
	said := func(order notation.Order) Dialect { return Dialect{Dates: DateOrder{Order: order}} }
	for _, c := range []struct {
		dialect Dialect
		dates   []string
		want    []string
	}{
		{said(notation.DayFirst), []string{"3/4/2026", "03-04-2026", "2026/04/03", "3.4.2026"}, []string{"2026-04-03", "2026-04-03", "2026-04-03", "2026-04-03"}},
		{said(notation.MonthFirst), []string{"3/4/2026", "03-04-2026", "3.4.2026"}, []string{"2026-03-04", "2026-03-04", "2026-04-03"}},
		{Dialect{}, []string{"3/4/2026", "", "13/4/2026"}, []string{"2026-04-03", "0001-01-01", "2026-04-13"}},
		{Dialect{}, []string{"3-4-2026", "4-13-2026"}, []string{"2026-03-04", "2026-04-13"}},
	} {
		got, log, err := days(c.dialect, c.dates...)
		require.NoError(t, err)
		assert.Equal(t, c.want, got)
		assert.Len(t, log.Warnings, 1-min(1, int(c.dialect.Dates.Order)))
	}
	_, log, _ := days(Dialect{}, "3-4-2026", "4-13-2026")
	assert.EqualError(t, log.Warnings[0], `monday.csv:3:9: dates are read month first, as "4-13-2026" in line 3 shows`)
	_, _, err := days(Dialect{}, "3/4/2026", "2026-01-01", "5/5/2026")
	assert.EqualError(t, err, `monday.csv:2:9: date "3/4/2026" may have its day or its month first (in 2 rows): `+
		`write in study.toml, under [log]: dates = "day/month/year" or dates = "month/day/year"`)
	_, _, err = days(Dialect{}, "14/4/2026", "4/13/2026", "4/15/2026")
	assert.EqualError(t, err, `monday.csv:3:9: date "4/13/2026" has its day and month the other way round than "14/4/2026" in line 2 (in 2 rows): `+
		`write all dates one way, and write in study.toml, under [log]: dates = "day/month/year" or dates = "month/day/year"`)
	_, _, err = days(said(notation.DayFirst), "4/13/2026", "31/2/2026", "3/4/26")
	assert.ErrorContains(t, err, `date "4/13/2026" is not a date`)
	assert.ErrorContains(t, err, `date "31/2/2026" is not a date`)
	assert.ErrorContains(t, err, `date "3/4/26" is not a date`)
}

// Names that the study lacks are listed once each, with how often.
func TestUnknownOnceEach(t *testing.T) {
	text := "step,count,time,workflow\n" + strings.Repeat("Sowing seeds,1,9,\nsoww,1,9,ways\n", 300) + "sow,x,9,\n"
	_, _, err := readings(t, text, Dialect{Steps: []string{"sow"}, Workflows: []string{"way"}})
	require.Error(t, err)
	assert.Equal(t, []string{
		`monday.csv:2:1: step "Sowing seeds" is not known (in 300 rows): known are "sow". Correct it, or write in study.toml, under [log.steps]: "Sowing seeds" = "…"`,
		`monday.csv:3:1: step "soww" is not known (in 300 rows): is "sow" meant? Correct it, or write in study.toml, under [log.steps]: "soww" = "sow"`,
		`monday.csv:3:10: workflow "ways" is not known (in 300 rows): is "way" meant? Correct it, or write in study.toml, under [log.workflows]: "ways" = "way"`,
		`monday.csv:602:5: count "x" is not a number: digits with at most one decimal point`,
	}, strings.Split(err.Error(), "\n"))
	var many strings.Builder
	many.WriteString("step,count,time\n")
	for i := range 3000 {
		many.WriteString("s" + strings.Repeat("x", i%500) + strings.Repeat("y", i/500) + ",1,9\n")
	}
	_, _, err = readings(t, many.String(), Dialect{Steps: []string{"sow"}})
	assert.ErrorContains(t, err, "more like these (in 2800 rows): put the others right first")
}

// A name may stand for one that itself, as a log's name, stands for another.
func TestNamesInAChain(t *testing.T) {
	dialect := Dialect{Steps: []string{"sow", "thin", "mix"}, StepNames: map[string]string{"sow": "thin", "thin": "mix"}}
	text := "step,count,time\nsow,1,20\nthin,1,21\nsow,1,22\nthin,1,23\nmix,1,24\n"
	checkScan(t, text, dialect)
	rows, _, err := scanned(text, chunkSize, dialect)
	require.NoError(t, err)
	var steps []string
	for _, r := range rows {
		steps = append(steps, r.names[condense.StepNames])
	}
	assert.Equal(t, []string{"thin", "mix", "thin", "mix", "mix"}, steps)
}

// What many rows have is put into words once: to look for a near name takes much longer
// than to read a row.
func TestWordedOnce(t *testing.T) {
	r := newCSVReader("monday.csv", &Dialect{}, ',')
	r.at, r.spots = [columns]int{}, []spot{{0, 1}}
	worded := 0
	for range 5 {
		r.badOften(stepColumn, &often{key: "sew", words: func() (what, do string) { worded++; return "step", "write another" }})
	}
	assert.Equal(t, 1, worded)
	require.Len(t, r.repeated, 1)
	assert.Equal(t, 5, r.repeated[0].rows)
}

// Grows of a log are the study's in any case and with any blanks, where one alone can be meant,
// exact ones first; others stay as they are written.
func TestGrowsOfTheStudy(t *testing.T) {
	dialect := Dialect{Grows: study.NamesOf([]string{"G 3", "Bed 1", "bed 1"})}
	text := "step,count,time,grow\n"
	cells := []string{"G 3", "g  3", " G   3 ", `"g 3"`, "bed 1", "BED 1", "Bed 1", "g4", "G4", "", "g  3", "G 3"}
	want := []string{"G 3", "G 3", "G 3", "G 3", "bed 1", "BED 1", "Bed 1", "g4", "G4", "", "G 3", "G 3"}
	for range 3 {
		for _, cell := range cells {
			text += "sow,1,9," + cell + "\n"
		}
	}
	got, _, err := readings(t, text, dialect)
	require.NoError(t, err)
	require.Len(t, got, 3*len(want))
	for i, r := range got {
		assert.Equal(t, want[i%len(want)], r.Grow, cells[i%len(want)])
	}
	rows, _, err := scanned(text, chunkSize, dialect)
	require.NoError(t, err)
	for i, r := range rows {
		assert.Equal(t, want[i%len(want)], r.names[condense.GrowNames], cells[i%len(want)])
	}
	got, _, err = readings(t, "step,count,time,grow\nsow,1,9,g  3\n", Dialect{})
	require.NoError(t, err)
	assert.Equal(t, "g  3", got[0].Grow)
}

// Thousands of grows, each written otherwise than in the study, are found as they come, and no
// more spellings are kept in mind than names.
func TestManyGrowsOfTheStudy(t *testing.T) {
	var names []string
	var text strings.Builder
	text.WriteString("grow,step,count,time\n")
	for i := range 3000 {
		names = append(names, fmt.Sprint("Grow ", i))
		for range 3 {
			fmt.Fprintf(&text, "grow  %d,sow,1,9\n", i)
		}
	}
	rows, _, err := scanned(text.String(), chunkSize, Dialect{Grows: study.NamesOf(names)})
	require.NoError(t, err)
	require.Len(t, rows, 9000)
	for i, r := range rows {
		require.Equal(t, names[i/3], r.names[condense.GrowNames])
	}
}

// A name that two of the study's may be is said to be either, not unknown.
func TestNameThatMayBeEither(t *testing.T) {
	_, _, err := readings(t, "step,count,time\nSow,1,9\n", Dialect{Steps: []string{"sow", "SOW", "thin"}})
	assert.EqualError(t, err, `monday.csv:2:1: step "Sow" may be "sow" or "SOW": write it exactly as one of them`)
}
