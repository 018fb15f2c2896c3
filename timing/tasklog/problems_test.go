package tasklog

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// marks takes every mark ∑ out of a text and gives the places where they stood.
func marks(text string) (string, []study.Place) {
	var places []study.Place
	parts := strings.Split(text, "∑")
	for i := range parts[1:] {
		before := strings.Join(parts[:i+1], "")
		line := strings.Count(before, "\n") + 1
		column := utf8.RuneCountInString(before[strings.LastIndex(before, "\n")+1:]) + 1
		places = append(places, study.Place{File: "monday.csv", Line: line, Column: column})
	}
	return strings.Join(parts, ""), places
}

func TestProblems(t *testing.T) {
	const (
		notNumber  = "is not a number: digits with at most one decimal point"
		notTime    = "is not a time: seconds as 187 or 187.4, or one of 3:07, 1:03:07, 3m7s, 3.5min, PT3M7S"
		notMinutes = "is not a time: minutes as 3 or 3.5, or one of 3:07, 1:03:07, 3m7s, 187s, PT3M7S"
		commas     = " where commas part the columns: write "
		totals     = "step is blank, and the row looks like one of totals: take it out"
		orSave     = ", or save the file with ; or tabs between them, where a comma may be decimal"
		notClock   = "is not a time of day: H:MM or H:MM:SS, from 0:00 to 23:59:59"
		notDate    = "is not a date: YYYY-MM-DD, a day of the calendar"
		noCount    = "is not above 0: only a row whose setups are above 0 may do without"
		carriage   = "a carriage return alone ends no line: save the file as CSV UTF-8"
	)
	digits := strings.Repeat("9", 400)
	names := Dialect{
		Steps:     []string{"sow", "thin", "harvest", "a", "b", "c", "d", "e", "f", "g"},
		Workflows: []string{"by hand", "by machine"},
	}
	for _, c := range []struct {
		name, log string // a mark ∑ stands where each problem belongs
		texts     []string
	}{
		// the header
		{"no step", "∑count,time\n", []string{`no column "step" among "count", "time": rename the heading of the steps' names to "step", or say which it is in study.toml, under [log.columns]: step = "…"`}},
		{"no column at all", "∑∑∑a|b|c\n", []string{
			`no column "step" among "a|b|c": rename the heading of the steps' names to "step", or say which it is in study.toml, under [log.columns]: step = "…"`,
			`no column "count" among "a|b|c": rename the heading of your counts to "count", or say which it is in study.toml, under [log.columns]: count = "…"`,
			`no column "time", nor both "start" and "end" among "a|b|c": rename the heading of your durations to "time" (a number alone is seconds), or "minutes" if they are minutes, or those of your clock times to "start" and "end"`,
		}},
		{"a name close to one", "step,∑ counts ,time\n", []string{`no column "count" among "step", "counts", "time": is "counts" meant for "count"?`}},
		{"no time", "∑step,count\nsow,1\n", []string{`no column "time", nor both "start" and "end" among "step", "count": rename the heading of your durations to "time" (a number alone is seconds), or "minutes" if they are minutes, or those of your clock times to "start" and "end"`}},
		{"time with more said", "step,count,∑Time in minutes\n", []string{`no column "time", nor both "start" and "end" among "step", "count", "Time in minutes": is "Time in minutes" meant? Head it "time (min)", "time (s)" or "time (h)", whichever its numbers are in`}},
		{"another heading with a unit of time", "step,count,∑How long (min)\n", []string{`no column "time", nor both "start" and "end" among "step", "count", "How long (min)": is "How long (min)" meant? Head it "time (min)", or write in study.toml, under [log.columns]: time = "How long (min)"`}},
		{"time with a form", "step,count,∑Duration(mm:ss)\n", []string{`no column "time", nor both "start" and "end" among "step", "count", "Duration(mm:ss)": is "Duration(mm:ss)" meant? Head it "time (min)", "time (s)" or "time (h)", whichever its numbers are in`}},
		{"start without end", "step,count,start,∑ends\n", []string{`no column "time", nor both "start" and "end" among "step", "count", "start", "ends": is "ends" meant for "end"?`}},
		{"start twice, near enough, without end", "∑step,count,start,starts\n", []string{`no column "time", nor both "start" and "end" among "step", "count", "start", "starts": rename the heading of your durations to "time" (a number alone is seconds), or "minutes" if they are minutes, or those of your clock times to "start" and "end"`}},
		{"a column twice", "step,count,time,∑Count\nsow,x,y,z\n", []string{`column "count" stands twice: keep one of the two`}},
		{"an optional column twice", "note,step,count,time,∑ NOTE \n", []string{`column "note" stands twice: keep one of the two`}},
		{"quote in the header", "step,co∑\"unt,time\nsow,1,20\n", []string{"a quote in a field that does not start with one: put the field in quotes and write each quote inside it twice"}},
		{"unclosed in the header", "step,∑\"count,time\nsow,1,20\n", []string{"the quote opened here is never closed: close it; the rows behind it were not read"}},
		{"carriage returns alone", "step,count,time,∑note\rsow,1,20,x\rsow,1,20,x\r", []string{carriage}},
		{"bytes in the header", "step,count,time,∑M\xf6hre\n", []string{`"M\xf6hre" is not UTF-8: save the file as CSV UTF-8`}},

		// rows
		{"too few fields", "step,count,time\nsow,∑1\n", []string{"number of fields is 2, of names in the header 3: one field for each name, in quotes where it holds a separator"}},
		{"too many fields", "step,count,time\nsow,24,96,∑5,\n", []string{"number of fields is 5, of names in the header 3: one field for each name, in quotes where it holds a separator"}},
		{"one field", "step,count,time\n∑sow\n", []string{"number of fields is 1, of names in the header 3: one field for each name, in quotes where it holds a separator"}},
		{"bare quote", "step,count,time,note\nsow,1,20,5∑\" pot\nsow,∑x,20,\n", []string{
			"a quote in a field that does not start with one: put the field in quotes and write each quote inside it twice",
			`count "x" ` + notNumber,
		}},
		{"on after the quote", "step,count,time,note\nsow,1,20,\"5∑\" pot\"\nsow,∑x,20,\n", []string{
			"a field goes on after its closing quote: write each quote inside it twice",
			`count "x" ` + notNumber,
		}},
		{"on after the quote, lines below", "step,count,time,note\nsow,1,20,\"5\n\"\"\n∑\"pot\"\nsow,∑x,20,\n", []string{
			"a field goes on after its closing quote: write each quote inside it twice",
			`count "x" ` + notNumber,
		}},
		{"on after the quote, last line", "step,count,time,note\r\n\r\nsow,1,20,\"5∑\" pot\"", []string{
			"a field goes on after its closing quote: write each quote inside it twice",
		}},
		{"unclosed quote", "step,count,time,note\nsow,∑x,20,\n\n\"so\nw\",1,20,∑\"\"\"5\"\" pot,\nsow,1,20,\n\n", []string{
			`count "x" ` + notNumber,
			"the quote opened here is never closed: close it; the rows behind it were not read",
		}},
		{"unclosed quote, CRLF", "step,count,time,note\r\nsow,1,20,∑\"5\r\n", []string{"the quote opened here is never closed: close it; the rows behind it were not read"}},
		{"unclosed quote at the very end", "step,count,time,note\nsow,1,20,∑\"", []string{"the quote opened here is never closed: close it; the rows behind it were not read"}},
		{"bytes", "step,count,time,note\nsow,1,20,∑M\xf6hre\nM\u00f6hre,∑1\x000,20,\n", []string{
			`"M\xf6hre" is not UTF-8: save the file as CSV UTF-8`,
			`"1\x000" holds a NUL byte: save the file as CSV UTF-8`,
		}},

		// numbers
		{"count", "step,count,time\nsow,∑1o,20\nsow,∑-3,20\nsow,∑NaN,20\nsow,∑1e400,20\nsow,∑\"1,5\",20\nsow,∑inf,20\n", []string{
			`count "1o" ` + notNumber, `count "-3" is below 0: want it without a sign`, `count "NaN" ` + notNumber,
			`count "1e400" ` + notNumber, `count "1,5" is not a number` + commas + "1.5" + orSave, `count "inf" ` + notNumber,
		}},
		{"count where commas are decimal", "step;count;time\nsow;∑1.000,5;20\n", []string{`count "1.000,5" is not a number: digits with at most one decimal point or comma`}},
		{"400 digits", "step,count,time\nsow,∑" + digits + ",20\n", []string{`count "` + digits[:60] + `…" is too large: fewer than 309 digits`}},
		{"no count", "step,count,time\nsow,∑,20\n", []string{"count is blank: how many units the time covered"}},
		{"zero count", "step,count,time\nsow,∑0,20\nsow,∑.0,20\n", []string{`count "0" ` + noCount, `count ".0" ` + noCount}},
		{"zero count in a lap", "step,count,time,setups\nsow,∑0,20,0\nsow,∑0,20,\nsow,0,20,1\n", []string{`count "0" ` + noCount, `count "0" ` + noCount}},
		{"count blank beside a setup", "step,count,time,setups\nsow,∑,20,1\n", []string{"count is blank: how many units the time covered"}},
		{"setups", "step,count,time,setups\nsow,1,20,∑-1\n", []string{`setups "-1" is below 0: want it without a sign`}},
		{"people and rating", "step,count,time,people,rating\nsow,1,20,∑0,∑0\nsow,1,20,∑two,∑95%\n", []string{
			`people "0" is not above 0`, `rating "0" is not above 0`, `people "two" ` + notNumber, `rating "95%" is not a number: write 95, without the sign`,
		}},
		{"more than any farm has", "step,count,time,people,setups\nsow,1,∑1000000000001,∑" + digits[:300] + ",\nsow,1000000000000,1000000000000,1,1\nsow,∑0.0000000009,∑999999999:00:00,1,∑.0000000001\n", []string{
			`time "1000000000001" is more than any farm has: at most 1000000000000`, `people "` + digits[:60] + `…" is more than any farm has: at most 1000000000000`,
			`count "0.0000000009" is as good as 0: at least 0.000000001`, `time "999999999:00:00" is more than any farm has: at most 1000000000000`, `setups ".0000000001" is as good as 0: at least 0.000000001`,
		}},

		// times
		{"time", "step,count,time\nsow,1,∑1:5\nsow,1,∑-20\nsow,1,∑3 min\n", []string{`time "1:5" ` + notTime, `time "-20" ` + notTime, `time "3 min" is not a time: write it without blanks: 3min`}},
		{"time with a decimal comma", "step,count,time\nsow,1,∑\"187,4\"\n", []string{`time "187,4" is not a time` + commas + "187.4" + orSave}},
		{"decimal commas and thousands", "step,count,minutes,paused\nsow,1,∑\"3,5\",∑\"1,234\"\nsow,∑\"1,234\",∑\"3,5min\",0\n", []string{
			`time "3,5" is not a time` + commas + "3.5" + orSave, `paused "1,234" ` + notTime,
			`count "1,234" ` + notNumber, `time "3,5min" is not a time: write 3.5min`,
		}},
		{"time that is minutes", "step,count,minutes\nsow,1,∑x\nsow,1,∑-3\nsow,1,∑3 min\n", []string{
			`time "x" ` + notMinutes, `time "-3" ` + notMinutes, `time "3 min" is not a time: write it without blanks: 3min`,
		}},
		{"time that is hours", "step,count,hours\nsow,1,∑x\n", []string{`time "x" is not a time: hours as 1 or 1.5, or one of 1:03:07, 1h3m, 90min, PT1H3M`}},
		{"time of nothing", "step,count,time\nsow,1,∑0\nsow,1,∑0:00\n", []string{`time "0" is not above 0`, `time "0:00" is not above 0`}},
		{"no time in a row", "step,count,time\nsow,1,∑\n", []string{"time is blank: give it, or both start and end"}},
		{"start alone", "step,count,time,start,end\nsow,1,∑,9:05,\nsow,1,∑,,9:05\n", []string{"time is blank: give it, or both start and end", "time is blank: give it, or both start and end"}},
		{"start alone, no time column", "step,count,start,end\nsow,1,9:05,∑\nsow,1,∑,9:05\nsow,1,∑,\n", []string{
			"end is blank: without a time, both start and end are needed",
			"start is blank: without a time, both start and end are needed",
			"start is blank: without a time, both start and end are needed",
		}},
		{"bad clock", "step,count,start,end\nsow,1,∑24:00,9:05\nsow,1,9:05,∑9.10\nsow,1,∑x,∑y\n", []string{
			`start "24:00" ` + notClock, `end "9.10" ` + notClock, `start "x" ` + notClock, `end "y" ` + notClock,
		}},
		{"checked beside a time too", "step,count,time,start,end,paused\nsow,1,20,∑9.05,∑25:00,∑-1\n", []string{
			`start "9.05" ` + notClock, `end "25:00" ` + notClock, `paused "-1" ` + notTime,
		}},
		{"nothing left", "step,count,start,end,paused\nsow,1,9:05,∑9:05,\nsow,1,9:05,∑9:10,5m\nsow,1,9:05:00.1,∑9:05:00.3,0.2\nsow,1,9:05,9:10,∑x\n", []string{
			`end "9:05" leaves no time: later than start "9:05" by more than the pause`,
			`end "9:10" leaves no time: later than start "9:05" by more than the pause`,
			`end "9:05:00.3" leaves no time: later than start "9:05:00.1" by more than the pause`,
			`paused "x" ` + notTime,
		}},
		{"date", "step,count,time,date\nsow,1,20,∑2026-02-30\nsow,1,20,∑2/3/2026\nsow,1,20,∑2026-3-2\nsow,1,20,∑2027-02-29\nsow,1,20,∑0001-01-01\nsow,1,20,∑2026-03-02T09:05\n", []string{
			`date "2026-02-30" ` + notDate, `date "2/3/2026" may have its day or its month first: write in study.toml, under [log]: dates = "day/month/year" or dates = "month/day/year"`, `date "2026-3-2" is not a date of the form YYYY-MM-DD: write 2026-03-02`,
			`date "2027-02-29" ` + notDate, `date "0001-01-01" ` + notDate, `date "2026-03-02T09:05" is not a date of the form YYYY-MM-DD: write 2026-03-02`,
		}},

		// names
		{"totals", "step,count,time,note\nsow,1,20,\nsow,2,30,\n∑,∑,50,\n∑,3,∑,\n∑,7,99,Total:\n∑,7,99,total of it\n∑,2,30,\n", []string{
			totals, "count is blank: how many units the time covered", totals, "time is blank: give it, or both start and end",
			totals, "step is blank: name the step that was timed", "step is blank: name the step that was timed",
		}},
		{"totals for a step", "step,count,time\nsow,1,20\n∑Total:,3,50\n", []string{`step "Total:" is not known: it looks like a row of totals, which is to be taken out`}},
		{"no total of one", "step,count,time\nsow,1,20\n∑,1,20\n", []string{"step is blank: name the step that was timed"}},
		{"no step in a row", "step,count,time\n∑,1,20\n", []string{"step is blank: name the step that was timed"}},
		{"unknown step", "step,count,time\n∑hervest,1,20\n∑Soww,1,20\n∑watering,1,20\n", []string{
			`step "hervest" is not known: is "harvest" meant? Correct it, or write in study.toml, under [log.steps]: "hervest" = "harvest"`,
			`step "Soww" is not known: is "sow" meant? Correct it, or write in study.toml, under [log.steps]: "Soww" = "sow"`,
			`step "watering" is not known: known are "sow", "thin", "harvest", "a", "b", "c", "d", "e" and 2 more. Correct it, or write in study.toml, under [log.steps]: "watering" = "…"`,
		}},
		{"unknown workflow", "step,count,time,workflow\nsow,1,20,∑by hands\nsow,1,20,∑x\n", []string{
			`workflow "by hands" is not known: is "by hand" meant? Correct it, or write in study.toml, under [log.workflows]: "by hands" = "by hand"`,
			`workflow "x" is not known: known are "by hand", "by machine". Correct it, or write in study.toml, under [log.workflows]: "x" = "…"`,
		}},
		{"source", "step,count,time,source\nsow,1,20,∑video\n", []string{`source "video" is not a source: watch, film or judged`}},
		{"a voided row is checked", "step,count,time,void\nsow,∑x,20,dropped\n", []string{`count "x" ` + notNumber}},
		{"every bad cell of a row", "time,count,step\n∑x,∑y,∑zzz\n", []string{
			`time "x" ` + notTime, `count "y" ` + notNumber,
			`step "zzz" is not known: known are "sow", "thin", "harvest", "a", "b", "c", "d", "e" and 2 more. Correct it, or write in study.toml, under [log.steps]: "zzz" = "…"`,
		}},
		{"columns count letters", "step,note,count,time\nsow,Möhre,∑x,20\n", []string{`count "x" ` + notNumber}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text, places := marks(c.log)
			require.Len(t, places, len(c.texts))
			want := make(study.Problems, len(places))
			for i := range want {
				want[i] = study.Problem{Place: places[i], Text: c.texts[i]}
			}
			log, err := Read(strings.NewReader(text), "monday.csv", names)
			assert.Equal(t, want, err)
			assert.Nil(t, log.Readings)
		})
	}
}

// A byte-order mark is no part of the first line.
func TestPlaceBehindByteOrderMark(t *testing.T) {
	_, err := Read(strings.NewReader("\ufeffcount,time\n"), "monday.csv", Dialect{})
	assert.EqualError(t, err, `monday.csv:1:1: no column "step" among "count", "time": rename the heading of the steps' names to "step", or say which it is in study.toml, under [log.columns]: step = "…"`)
}

func TestWholeFileIsWrong(t *testing.T) {
	utf16, err := os.ReadFile("testdata/unicode_text.csv")
	require.NoError(t, err)
	const empty = "monday.csv: empty: the first line names the columns, at least step,count,time"
	const unicode = "monday.csv: holds UTF-16, not UTF-8: save it as CSV UTF-8"
	for text, want := range map[string]string{
		"":                            empty,
		"\ufeff":                      empty,
		"\r\n\n   \n,,,\n":            empty,
		string(utf16):                 unicode,
		string(utf16[2:]):             unicode, // without its byte-order mark
		"\xfe\xff\x00s\x00t":          unicode,
		"s":                           `monday.csv:1:1: no column "step" among "s": rename the heading of the steps' names to "step", or say which it is in study.toml, under [log.columns]: step = "…"`,
		"step,count,time\na\x00,1,20": `monday.csv:2:1: "a\x00" holds a NUL byte: save the file as CSV UTF-8`,
	} {
		_, err := Read(strings.NewReader(text), "monday.csv", Dialect{})
		first, _, _ := strings.Cut(err.Error(), "\n")
		assert.Equal(t, want, first)
	}
	latin, err := os.ReadFile("testdata/latin1.csv")
	require.NoError(t, err)
	_, err = Read(strings.NewReader(string(latin)), "monday.csv", Dialect{})
	assert.EqualError(t, err, `monday.csv:3:38: "M\xf6hren" is not UTF-8: save the file as CSV UTF-8`)
}

func TestNoNameIsKnown(t *testing.T) {
	_, err := Read(strings.NewReader("step,count,time,workflow\nsow,1,20,x\n"), "monday.csv", Dialect{Steps: []string{}})
	assert.EqualError(t, err, `monday.csv:2:1: step "sow" is not known: study.toml has no step yet. Write there [[step]], and below it name = "sow"; or have headhours init --from, in an empty folder, write all of them`)
	_, err = Read(strings.NewReader("step,count,time,workflow\nsow,1,20,x\nsow,1,20,x\n"), "monday.csv", Dialect{Steps: []string{"sow"}, Workflows: []string{}})
	assert.EqualError(t, err, `monday.csv:2:10: workflow "x" is not known (in 2 rows): study.toml has no workflow yet. Write there [[workflow]], and below it name = "x"`)
	_, err = Read(strings.NewReader("step,count,time\n"+strings.Repeat("sow ", 100)+",1,20\n"), "monday.csv", Dialect{Steps: []string{}})
	assert.ErrorContains(t, err, `and below it name = "…"; or`)
}

// Every bad row is told of, in order, however many there are; their text lists
// the first thousand and counts the rest.
func TestThousandsOfBadRows(t *testing.T) {
	const rows = 2500
	text := "step,count,time\n" + strings.Repeat("sow,x,20\n\nsow,1,20\n", rows)
	_, err := Read(strings.NewReader(text), "monday.csv", Dialect{})
	var problems study.Problems
	require.ErrorAs(t, err, &problems)
	require.Equal(t, rows, problems.Count())
	require.Len(t, problems, study.MaxProblems+1)
	for i, p := range problems[:study.MaxProblems] {
		require.Equal(t, study.Place{File: "monday.csv", Line: 2 + 3*i, Column: 5}, p.Place)
	}
	lines := strings.Split(err.Error(), "\n")
	require.Len(t, lines, study.MaxProblems+1)
	assert.Equal(t, fmt.Sprintf("and %d more", rows-study.MaxProblems), lines[study.MaxProblems])
}

// A field of very many letters, wherever it stands, is cut in what is told of
// it; in a note it is no problem.
func TestVeryManyLetters(t *testing.T) {
	long := strings.Repeat("ö", 100_000)
	names := Dialect{Steps: []string{"sow"}, Workflows: []string{"by hand"}}
	header := "step,count,time,date,workflow,start,paused,source,people\n"
	for _, text := range []string{
		long + "\n", "step,count," + long + "\n",
		header + long + ",1,20,,,,,,\n",
		header + "sow," + long + ",20,,,,,,\n",
		header + "sow,1," + long + ",,,,,,\n",
		header + "sow,1,20," + long + ",,,,,\n",
		header + "sow,1,20,," + long + ",,,,\n",
		header + "sow,1,20,,," + long + ",,,\n",
		header + "sow,1,20,,,," + long + ",,\n",
		header + "sow,1,20,,,,," + long + ",\n",
		header + "sow,1,20,,,,,," + long + "\n",
		header + "sow,1,20,,,,,," + strings.Repeat("9", 100_000) + "\n",
		header + "sow,1,20,,,,,," + long + "\xff\n",
		"step,count,start,end\nsow,1,9:05," + long + "\n",
	} {
		_, err := Read(strings.NewReader(text), "monday.csv", names)
		require.Error(t, err)
		assert.Less(t, len(err.Error()), 1500)
	}
	log := read(t, "step,count,time,note\nsow,1,20,"+long+"\n")
	assert.Equal(t, long, log.Readings[0].Note)
}
