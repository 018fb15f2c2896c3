package folder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const logStudy = small + `
[log]
dates = "day/month/year"
times = "minutes"
[log.columns]
step = "Arbeit"
count = ["Plants", "Trays"]
note = ""
[log.steps]
"Sowing seeds" = "sow"
[log.workers]
"J" = "w1"
`

func TestLogForm(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml":                   logStudy,
		"timings/a.csv":                "Date,Arbeit,Plants,Trays,Time,worker,note\n3/4/2026,sowing Seeds,4,,2,J,x\n3/4/2026,thin,,4,90s,w2,x\n",
		"journal/" + monday + ".jsonl": session(monday, begun, `"start","step":"Sowing seeds","count":4`, stopped),
	})
	o, err := Open(dir, nil, How{})
	require.NoError(t, err)
	readings, err := o.everyReading()
	require.NoError(t, err)
	require.Len(t, readings, 3)
	assert.Equal(t, []string{"sow", "thin", "sow"}, []string{readings[0].Step, readings[1].Step, readings[2].Step})
	assert.Equal(t, "2026-04-03", readings[0].Date.Format("2006-01-02"))
	assert.Equal(t, []float64{120, 90}, []float64{readings[0].Seconds, readings[1].Seconds})
	assert.Equal(t, "w1", readings[0].Worker)
	assert.Empty(t, readings[0].Note)
	assert.Equal(t, 2, o.Readings.Steps[0].Readings)
}

func TestLogFormMistakes(t *testing.T) {
	got := openProblems(t, studyIn(t, map[string]string{
		"study.toml": small + `
[log]
dates = "day-month-year"
times = "min"
form = 1
[log.columns]
stepp = "Arbeit"
time = ["a", "b"]
count = ["a", "a"]
worker = 3
[log.steps]
"Sowing seeds" = "seed"
thinning = 4
[log.workers]
J = ""
`,
		"timings/a.csv": header + "sow,4,9\n",
	}))
	line := func(n string) string { return "study.toml:" + n }
	for i, want := range []string{
		line(`7:9: dates: unknown word "day-month-year": is "day.month.year" meant?`),
		line(`8:9: times: unknown word "min": known are seconds, minutes, hours`),
		line(`9:1: unknown key "form" in [log]: known are dates, times, columns, steps, workflows, workers`),
		line(`11:1: unknown column "stepp" in [log.columns]: is "step" meant?`),
		line(`12:8: time: found a list, want a heading in quotes, or "" to read no column as this`),
		line(`13:15: count: "a" stands for count already`),
		line(`14:10: worker: found 3, want a heading in quotes, or "" to read no column as this`),
		line(`16:18: Sowing seeds: no [[step]] is named "seed": name one that is there, or add it`),
		line(`17:12: thinning: found 4, want a text in quotes`),
		line(`19:5: J: found "", want a name`),
		line(`13:10: [log.columns]: the heading "a" stands in no log: write it as it stands there, or take this out`),
	} {
		require.Greater(t, len(got), i, got)
		assert.Equal(t, want, got[i])
	}
	assert.Len(t, got, 11)
}

// A heading that one of several logs lacks is a warning.
func TestHeadingOfOneLog(t *testing.T) {
	dir := studyIn(t, map[string]string{
		"study.toml":    small + "[log.columns]\ntime = 'Dauer'\n",
		"timings/a.csv": "step,count,Dauer\nsow,4,9\n",
		"timings/b.csv": header + "sow,4,9\n",
	})
	o, err := Open(dir, nil, How{})
	require.NoError(t, err)
	require.Len(t, o.Warnings, 1)
	assert.ErrorContains(t, o.Warnings[0], `[log.columns]: the heading "Dauer" does not stand in "timings/b.csv"`)
}

// The order of day and month is found by a date further down, in a log and in a workbook,
// and by each log for itself.
func TestDatesThatShowTheirOrder(t *testing.T) {
	rows := "step,count,time,date\n" + strings.Repeat("sow,4,9,3/4/2026\n", 30_000)
	dir := studyIn(t, map[string]string{
		"study.toml":     small,
		"timings/a.csv":  rows + "sow,4,9,4/13/2026\n",
		"timings/b.csv":  "step,count,time,date\nsow,4,9,3/4/2026\nsow,4,9,13/4/2026\n",
		"timings/c.xlsx": string(sheet(t, []any{"step", "time", "count", "date"}, []any{"sow", 9.5, "4", "3/4/2026"}, []any{"sow", 9.5, "4", "4/13/2026"})),
	})
	o, err := Open(dir, nil, How{})
	require.NoError(t, err)
	require.Len(t, o.Warnings, 3)
	readings, err := o.everyReading()
	require.NoError(t, err)
	assert.Equal(t, "2026-03-04", readings[0].Date.Format("2006-01-02"))
	assert.Equal(t, "2026-04-03", readings[30_001].Date.Format("2006-01-02"))
	assert.Equal(t, "2026-03-04", readings[30_003].Date.Format("2006-01-02"))
	assert.Equal(t, 30_005, o.Readings.Steps[0].Readings)
}
