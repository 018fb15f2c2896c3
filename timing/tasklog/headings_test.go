package tasklog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/notation"
)

// read reads a log by both ways of reading, which must agree, and gives the times of its
// readings and what it warns of.
func readBoth(t *testing.T, text string) (seconds []float64, log Log, err error) {
	t.Helper()
	log, err = Read(strings.NewReader(text), "my.csv", Dialect{})
	var scanned []float64
	var days, scannedDays []condense.Day
	found, scanErr := Scan(strings.NewReader(text), "my.csv", Dialect{}, nil, func(b *condense.Batch) error {
		scanned, scannedDays = append(scanned, b.Rows.Seconds...), append(scannedDays, b.Rows.Day...)
		return nil
	})
	for i := range log.Readings {
		seconds, days = append(seconds, log.Readings[i].Seconds), append(days, condense.DayOf(log.Readings[i].Date))
	}
	assert.Equal(t, err, scanErr)
	if err == nil {
		assert.Equal(t, seconds, scanned)
		assert.Equal(t, days, scannedDays)
		assert.Equal(t, log.Warnings, found.Warnings)
	}
	return seconds, log, err
}

func TestHeadingsOfGrowers(t *testing.T) {
	seconds, log, err := readBoth(t, "Timings of spring 2026\n\nDate;Task;Plants;Minutes;Who\n31.3.2026;sow;48;6,5;w1\n1.4.2026;thin;48;1:30;w1\n")
	require.NoError(t, err)
	assert.Equal(t, []float64{390, 90}, seconds)
	assert.Equal(t, "2026-03-31", log.Readings[0].Date.Format("2006-01-02"))
	assert.Equal(t, "2026-04-01", log.Readings[1].Date.Format("2006-01-02"))
	assert.Equal(t, "w1", log.Readings[1].Worker)
	assert.Equal(t, 5, log.Readings[1].Place.Line)
	require.Len(t, log.Warnings, 2)
	assert.EqualError(t, log.Warnings[0], `my.csv:3:1: read as headings: "Task" as step, "Who" as worker, "Minutes" as time (a number alone is minutes), "Plants" as count`)
	assert.EqualError(t, log.Warnings[1], `my.csv:3:1: the row above the headings is taken for a title and not read`)
}

func TestUnitsOfHeadings(t *testing.T) {
	for header, want := range map[string][]float64{
		"step,count,time (min)":       {60, 390, 187},
		"Step,Count (cells),Time min": {60, 390, 187},
		"step,count,time [h]":         {3600, 23400, 187},
		"job,qty,mins":                {60, 390, 187},
		"step,count,duration (s)":     {1, 6.5, 187},
		"step,count,hours":            {3600, 23400, 187},
		"element,pieces,duration":     {1, 6.5, 187},
		"step,qty trays,time":         {1, 6.5, 187},
		"step,Quantity plants,time":   {1, 6.5, 187},
	} {
		seconds, _, err := readBoth(t, header+"\nsow,1,1\nsow,1,6.5\nsow,1,3m7s\n")
		require.NoError(t, err, header)
		assert.Equal(t, want, seconds, header)
	}
	_, _, err := readBoth(t, "step,count,hours\nsow,1,1:30\n")
	assert.EqualError(t, err, `my.csv:2:7: time "1:30" may be hours and minutes or minutes and seconds, since a number alone is hours there: write h:mm:ss, or as 90min`)
	_, log, err := readBoth(t, "step,count,minutes\nsow,1,1.30\n")
	require.NoError(t, err)
	assert.Contains(t, log.Warnings.Error(), `"1.30" is read as 1.30 minutes: write 1:30 if that was meant`)
}

func TestHeadingsInDoubt(t *testing.T) {
	_, _, err := readBoth(t, "task,plants,pieces,minutes\nsow,1,2,3\n")
	assert.EqualError(t, err, `my.csv:1:13: "plants" and "pieces" could both be the count: rename the one that is not, or write in study.toml, under [log.columns]: count = "plants", or count = "pieces"`)
	_, _, err = readBoth(t, "task,plants,time (min),seconds\nsow,1,2,3\n")
	assert.EqualError(t, err, `my.csv:1:24: "time (min)" and "seconds" could both be the time: rename the one that is not, or write in study.toml, under [log.columns]: time = "time (min)", or time = "seconds"`)
	// our own names in the first row: another column stays unread
	seconds, log, err := readBoth(t, "step,count,time,minutes,plants\nsow,1,2,3,4\n")
	require.NoError(t, err)
	assert.Equal(t, []float64{2}, seconds)
	require.Len(t, log.Warnings, 1)
	assert.EqualError(t, log.Warnings[0], `my.csv:1:17: "minutes" is not read: to have it read as the time, write in study.toml, under [log.columns]: time = "minutes"`)
}

func TestClocksInPlace(t *testing.T) {
	text := "step,date,start,end,count,worker,time\n" +
		"sow,2026-03-02,9:05,9:10:30,12,w1,\nsow,2026/03/02,23:59,0:01,12,w1,\nsow,,9:00,9:01,12,w1,\nsow,2026-03-02,09:00,,12,w1,77\n"
	seconds, log, err := readBoth(t, text)
	require.NoError(t, err)
	assert.Equal(t, []float64{330, 120, 60, 77}, seconds)
	found, err := Scan(strings.NewReader(text), "my.csv", Dialect{}, nil, func(*condense.Batch) error { return nil })
	require.NoError(t, err)
	assert.Equal(t, 2, found.Clocks)
	assert.Len(t, log.Readings, 4)
	_, _, err = readBoth(t, strings.ReplaceAll(text, "9:10:30", "9:65"))
	assert.Error(t, err)
}

// A time that may have been meant otherwise is never said to be written in a way that is an
// error, nor as a time that there is none of.
func TestAdviceOnDoubtfulTimes(t *testing.T) {
	for _, c := range []struct{ heading, time, want string }{
		{"time", "1.30", `"1.30" is read as 1.30 seconds: write 1:30 or 1.3min if minutes were meant`},
		{"time", "7.99", `"7.99" is read as 7.99 seconds: write 7.99min if minutes were meant`},
		{"minutes", "1.30", `"1.30" is read as 1.30 minutes: write 1:30 if that was meant`},
		{"minutes", "6.80", `"6.80" is read as 6.80 minutes: write 6.8s if seconds were meant`},
		{"hours", "1.30", `"1.30" is read as 1.30 hours: write 1h30m or 90min if that was meant`},
		{"hours", "0.05", `"0.05" is read as 0.05 hours: write 0h05m or 5min if that was meant`},
		{"hours", "3.99", `"3.99" is read as 3.99 hours: write 3.99min if minutes were meant`},
	} {
		_, log, err := readBoth(t, "step,count,"+c.heading+"\nsow,10,"+c.time+"\n")
		require.NoError(t, err)
		assert.Contains(t, log.Warnings.Error(), ":2:8: "+c.want)
		_, advice, _ := strings.Cut(c.want, "write ")
		for _, way := range strings.Split(strings.Split(advice, " if ")[0], " or ") {
			_, log, err := readBoth(t, "step,count,"+c.heading+"\nsow,10,"+way+"\n")
			assert.NoError(t, err, way)
			assert.NotContains(t, log.Warnings.Error(), "is read as "+way)
		}
	}
}

// A count with three digits behind a point, where a comma may be decimal, may be thousands.
func TestCountsThatMayBeThousands(t *testing.T) {
	for _, c := range []struct{ separator, count, want string }{
		{";", "1.200", `"1.200" is read as 1.2: write 1200 if that was meant`},
		{"\t", "120.000", `"120.000" is read as 120: write 120000 if that was meant`},
		{";", ` 1.250 `, `"1.250" is read as 1.25: write 1250 if that was meant`},
		{";", `"12.250"`, `"12.250" is read as 12.25: write 12250 if that was meant`},
		{",", "1.200", ""}, {";", "1,200", ""}, {";", "0.200", ""}, {";", "1.2", ""}, {";", "1.2000", ""}, {";", "1200.125", ""}, {";", ".125", ""},
	} {
		for _, header := range []string{"step,count,time\nsow,∑,90\n", "step,time,count\nsow,90,∑\n", "step,time,count\r\nsow,90,∑\r\nsow,90,10\r\n"} {
			text := strings.ReplaceAll(strings.ReplaceAll(header, ",", c.separator), "∑", c.count)
			_, log, err := readBoth(t, text)
			require.NoError(t, err)
			if c.want == "" {
				assert.Empty(t, log.Warnings, text)
			} else {
				assert.Contains(t, log.Warnings.Error(), c.want)
			}
		}
	}
}

// Pauses in another unit than times are noted where no heading says theirs.
func TestUnitOfPauses(t *testing.T) {
	const note = `a number alone is seconds under "paused", and minutes under "Minutes": head it "paused (min)" if minutes are meant there too`
	_, log, err := readBoth(t, "task,count,Minutes,start,end,paused\nthin,1,,8:00,8:10,1\n")
	require.NoError(t, err)
	assert.Contains(t, log.Warnings.Error(), "my.csv:1:30: "+note)
	for _, header := range []string{"task,count,Minutes,start,end,paused (s)", "task,count,Minutes,start,end,paused (min)", "task,count,time,start,end,paused", "step,count,time (s),start,end,paused"} {
		_, log, err := readBoth(t, header+"\nthin,1,,8:00,8:10,1\n")
		require.NoError(t, err)
		assert.NotContains(t, log.Warnings.Error(), "a number alone is seconds under", header)
	}
	_, log, err = readBoth(t, "step,count,start,end,paused (min)\nthin,1,8:00,8:10,1\n")
	require.NoError(t, err)
	assert.Contains(t, log.Warnings.Error(), `"paused (min)" is not read: to have it read as the pause, write in study.toml, under [log.columns]: paused = "paused (min)"`)
}

// A heading of the form that two of a log have but for their units is not the first of them.
func TestMappedTwice(t *testing.T) {
	_, err := Read(strings.NewReader("Job;Qty;Time (min);Time (s)\nsow;1;8;30\n"), "my.csv", Dialect{Columns: map[string][]string{"time": {"Time"}}})
	assert.EqualError(t, err, `my.csv:1:20: "Time (min)" and "Time (s)" could both be the time: rename the one that is not, or write in study.toml, under [log.columns]: time = "Time (min)", or time = "Time (s)"`)
	log, err := Read(strings.NewReader("Job;Qty;Time (min);Time (s)\nsow;1;8;30\n"), "my.csv", Dialect{Columns: map[string][]string{"time": {"time (S)"}}})
	require.NoError(t, err)
	assert.Equal(t, 30.0, log.Readings[0].Seconds)
}

// Names that are unknown are told once, in whatever case.
func TestUnknownInAnyCase(t *testing.T) {
	_, err := Read(strings.NewReader("step,count,time\nweeding,1,8\nWeeding,1,8\nweeding,1,8\n"), "my.csv", Dialect{Steps: []string{"sow"}})
	require.ErrorContains(t, err, `step "weeding" is not known (in 3 rows)`)
	assert.NotContains(t, err.Error(), "Weeding")
}

// A title may have quotes as it likes; what is wrong below it is told all the same.
func TestTitleWithQuotes(t *testing.T) {
	for _, title := range []string{"Sheet 5\" pots\n", "\"2026\" timings\n", "My \"best\" sheet\n5\" pots,,\n"} {
		seconds, log, err := readBoth(t, title+"Task,Qty,Minutes\nsow,3,4\n")
		require.NoError(t, err, title)
		assert.Equal(t, []float64{240}, seconds)
		assert.Contains(t, log.Warnings[1].Text, "above the headings", title)
		_, _, err = readBoth(t, title+"Task,Qty,Minutes\nsow,3,x\nsow,,4\n")
		require.ErrorContains(t, err, `time "x" is not a time`, title)
		require.ErrorContains(t, err, "count is blank", title)
	}
	_, _, err := readBoth(t, "step,count,time\"\nsow,3,4\n")
	assert.EqualError(t, err, "my.csv:1:16: "+bareQuote)
}

// A study file that has it otherwise is named where a heading or a date is as it should be.
func TestFormThatSaysOtherwise(t *testing.T) {
	_, err := Read(strings.NewReader("step,count,time\nsow,3,4\n"), "my.csv", Dialect{Columns: map[string][]string{"step": {}, "worker": {"count"}}})
	assert.EqualError(t, err, `my.csv:1:1: no column "step": "step" stands there, but study.toml has it read otherwise or not at all, under [log.columns]: correct that line
my.csv:1:6: no column "count": "count" stands there, but study.toml has it read otherwise or not at all, under [log.columns]: correct that line`)
	_, err = Read(strings.NewReader("date,step,count,time\n1/13/2026,sow,3,4\n"), "my.csv", Dialect{Dates: DateOrder{Order: notation.DayFirst}})
	assert.EqualError(t, err, `my.csv:2:1: date "1/13/2026" is not a date of the form YYYY-MM-DD: write 2026-01-13; or correct study.toml, which has dates = "day/month/year" under [log]`)
}
