package tasklog

import (
	"encoding/json"
	"errors"
	"os"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// read reads a log that is right.
func read(t *testing.T, text string) Log {
	t.Helper()
	log, err := Read(strings.NewReader(text), "monday.csv", Dialect{})
	require.NoError(t, err)
	return log
}

// aReading is what the least row, "sow,24,96", reads as on line 2.
func aReading() study.Reading {
	return study.Reading{
		Place: study.Place{File: "monday.csv", Line: 2, Column: 1},
		Step:  "sow", Count: 24, Seconds: 96,
		People: 1, Source: study.Watch, Rating: 100,
	}
}

func TestLeastColumns(t *testing.T) {
	log := read(t, "step,count,time\nsow,24,96\n")
	assert.Equal(t, Log{Readings: []study.Reading{aReading()}}, log)
}

func TestEveryColumn(t *testing.T) {
	log := read(t, `Date, GROW ,workflow,step,worker,people,start,end,paused,time,count,setups,source,rating,void,note,journal,weather
2026-03-02, g1 ,by hand,sow,w1,2,9:05,9:15:30.5,1m,3:07,12.5,0,Film,95,"dropped a
tray",in the shade,phone.jsonl 7,rain
`)
	assert.Equal(t, []study.Reading{{
		Place:    study.Place{File: "monday.csv", Line: 2, Column: 1},
		Date:     time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC),
		Grow:     "g1",
		Workflow: "by hand",
		Step:     "sow",
		Worker:   "w1",
		People:   2,
		Start:    study.Known(9*3600 + 5*60),
		End:      study.Known(9*3600 + 15*60 + 30.5),
		Paused:   60,
		Seconds:  187, // the net time as given: start, end and paused are kept but not used
		Count:    12.5,
		Setups:   study.Known(0),
		Source:   study.Film,
		Rating:   95,
		Void:     "dropped a\ntray",
		Note:     "in the shade",
		Journal:  "phone.jsonl 7",
	}}, log.Readings)
	assert.Empty(t, log.Warnings)
}

func TestCells(t *testing.T) {
	for _, c := range []struct {
		name, log string
		change    func(*study.Reading)
	}{
		{"blank people and rating", "step,count,time,people,rating\nsow,24,96,,\n", func(*study.Reading) {}},
		{"blanks about cells", " step ,\u00a0COUNT, Time\n  sow\u00a0, 24 ,\t96 \n", func(*study.Reading) {}},
		{"columns in another order", "time,step,count\n96,sow,24\n", func(*study.Reading) {}},
		{"an unknown column, and one without a name", "step,,count,weather,time\nsow,x,24,-1,96\n", func(*study.Reading) {}},
		{"unknown columns of one name", "step,x,count,x,time\nsow,1,24,2,96\n", func(*study.Reading) {}},
		{"one setup", "step,count,time,setups\nsow,24,96,1\n", func(r *study.Reading) { r.Setups = study.Known(1) }},
		{"a lap", "step,count,time,setups\nsow,24,96,0\n", func(r *study.Reading) { r.Setups = study.Known(0) }},
		{"getting ready alone", "step,count,time,setups\nsow,0,96,1\n", func(r *study.Reading) { r.Count, r.Setups = 0, study.Known(1) }},
		{"judged", "step,count,time,source\nsow,24,96,JUDGED\n", func(r *study.Reading) { r.Source = study.ByJudgement }},
		{"void of blanks", "step,count,time,void\nsow,24,96,  \n", func(*study.Reading) {}},
		{"void", "step,count,time,void\nsow,24,96,x\n", func(r *study.Reading) { r.Void = "x" }},
		{"start alone, beside a time", "step,count,time,start\nsow,24,96,9:05\n", func(r *study.Reading) { r.Start = study.Known(32700) }},
		{"leap day", "step,count,time,date\nsow,24,96,2028-02-29\n", func(r *study.Reading) { r.Date = time.Date(2028, 2, 29, 0, 0, 0, 0, time.UTC) }},
		{"a line end of another system in a note", "step,count,time,note\r\nsow,24,96,\"a\r\nb\rc\"\r\n", func(r *study.Reading) { r.Note = "a\nb\nc" }},
		{"a pause of nothing", "step,count,time,paused\nsow,24,96,0\n", func(*study.Reading) {}},
		{"blank rows before the header", "\r\n  \n,,\nstep,count,time\nsow,24,96\n", func(r *study.Reading) { r.Place.Line = 5 }},
		{"blank rows between", "step,count,time\n\n,,\n , ,\n,\n,,,,\n\"\",,\nsow,24,96\n,,\n", func(r *study.Reading) { r.Place.Line = 8 }},
	} {
		t.Run(c.name, func(t *testing.T) {
			want := aReading()
			c.change(&want)
			assert.Equal(t, []study.Reading{want}, read(t, c.log).Readings)
		})
	}
}

func TestTimeFromStartAndEnd(t *testing.T) {
	for _, c := range []struct {
		start, end, paused string
		want               float64
	}{
		{"9:05", "9:15", "", 600},
		{"9:05:00", "9:15:30", "0:30", 600},
		{"9:05", "9:15", "1.5min", 510},
		{"9:05:00.1", "9:05:01.3", "", 1.2},
		{"23:50", "0:10", "", 1200},
		{"23:50", "0:10", "5m", 900},
		{"0:01", "0:00", "", 86340},
	} {
		log := read(t, "step,count,start,end,paused\nsow,24,"+c.start+","+c.end+","+c.paused+"\n")
		assert.Equal(t, c.want, log.Readings[0].Seconds, c)
		log = read(t, "step,count,start,end,paused,time\nsow,24,"+c.start+","+c.end+","+c.paused+",\n")
		assert.Equal(t, c.want, log.Readings[0].Seconds, c)
	}
}

// Every file of testdata that a spreadsheet may write of plain.csv reads as it.
func TestSpreadsheets(t *testing.T) {
	readFile := func(name string) []study.Reading {
		data, err := os.ReadFile("testdata/" + name)
		require.NoError(t, err)
		return read(t, string(data)).Readings
	}
	plain := readFile("plain.csv")
	require.Len(t, plain, 2)
	assert.Equal(t, "trays, two", plain[0].Note)
	assert.Equal(t, 187.4, plain[1].Seconds)
	assert.Equal(t, 12.5, plain[1].Count)
	assert.Equal(t, 30.0, plain[1].Paused)
	assert.Equal(t, "Möhren", plain[1].Note)
	for _, name := range []string{
		"byte_order_mark.csv", "crlf.csv", "no_last_line_end.csv", "blank_last_row.csv",
		"semicolon_decimal_comma.csv", "tab_decimal_comma.tsv", "spreadsheet.csv",
	} {
		assert.Equal(t, plain, readFile(name), name)
	}
}

func TestSeparator(t *testing.T) {
	for header, want := range map[string]rune{
		"step,count,time":                ',',
		"step;count;time":                ';',
		"step\tcount\ttime":              '\t',
		"step;a\tb":                      '\t',
		"a,b;c":                          ';',
		"\"a;\tb\",step,count":           ',',
		"\"a\n;\"\"\t\",step,count\n\t;": ',',
		"step,count\nsow;\t1":            ',',
		"\r\n \nstep;count\n\t":          ';',
		"step":                           ',',
		"":                               ',',
	} {
		separator, _ := separatorOf([]byte(header))
		assert.Equal(t, string(want), string(separator), header)
	}
}

func TestRFC4180(t *testing.T) {
	data, err := os.ReadFile("testdata/rfc4180.json")
	require.NoError(t, err)
	var file struct {
		Cases []struct {
			Rule, Text string
			Records    [][]string // nil: refused
		}
	}
	require.NoError(t, json.Unmarshal(data, &file))
	require.NotEmpty(t, file.Cases)
	for _, c := range file.Cases {
		t.Run(c.Rule, func(t *testing.T) {
			in := newChunker(strings.NewReader(c.Text), &Dialect{})
			all, err := in.begin()
			require.NoError(t, err)
			rows := newCSVReader("case.csv", &Dialect{}, in.separator)
			rows.line, rows.width = 1, 3
			if c.Records != nil {
				rows.width = len(c.Records[0])
			}
			var got [][]string
			for rest := all.data; len(rest) > 0; {
				row := all.firstRow(rest, in.separator)
				if rows.split(all.ended(row, rest)) && rows.isWhole() {
					got = append(got, append([]string(nil), rows.record...))
				}
				rest = rest[len(row):]
			}
			for _, record := range c.Records {
				for i := range record { // the csv reader hands a CRLF in a field on as LF
					record[i] = strings.ReplaceAll(record[i], "\r\n", "\n")
				}
			}
			if c.Records == nil {
				assert.NotEmpty(t, rows.problems)
				return
			}
			assert.Empty(t, rows.problems)
			assert.Equal(t, c.Records, got)
		})
	}
}

func TestHeaderAlone(t *testing.T) {
	for _, text := range []string{"step,count,time", "step,count,time\n", "\ufeffstep;count;start;end\r\n;;;\r\n"} {
		assert.Equal(t, Log{}, read(t, text))
	}
}

func TestKnownNames(t *testing.T) {
	names := Dialect{Steps: []string{"sow", "thin"}, Workflows: []string{"by hand"}}
	text := "step,count,time,workflow,grow\nsow,1,20,by hand,any\n thin ,1,20,,\n"
	log, err := Read(strings.NewReader(text), "", names)
	require.NoError(t, err)
	assert.Len(t, log.Readings, 2)
}

func TestWarnings(t *testing.T) {
	text, places := marks("step;count;time;paused\nsow;1;∑1.30;\nsow;1;∑9,99;∑0.05\nsow;1;10.00;1.3\nsow;1;1:30;1.300\nsow;1;∑.45;\nsow;1;∑1.60;\nsow;1;∑1.59;\n")
	log := read(t, text)
	assert.Len(t, log.Readings, 7)
	assert.Equal(t, 1.3, log.Readings[0].Seconds)
	assert.Equal(t, study.Problems{
		{Place: places[0], Text: `"1.30" is read as 1.30 seconds: write 1:30 or 1.3min if minutes were meant`},
		{Place: places[1], Text: `"9,99" is read as 9.99 seconds: write 9.99min if minutes were meant`},
		{Place: places[2], Text: `"0.05" is read as 0.05 seconds: write 0:05 or 0.05min if minutes were meant`},
		{Place: places[3], Text: `".45" is read as 0.45 seconds: write 0:45 or 0.45min if minutes were meant`},
		{Place: places[4], Text: `"1.60" is read as 1.60 seconds: write 1.6min if minutes were meant`},
		{Place: places[5], Text: `"1.59" is read as 1.59 seconds: write 1:59 or 1.59min if minutes were meant`},
	}, log.Warnings)
}

func TestWarningsOfABadLog(t *testing.T) {
	log, err := Read(strings.NewReader("step,count,time\nsow,1,1.30\nsow,x,20\n"), "", Dialect{})
	assert.Error(t, err)
	assert.Len(t, log.Warnings, 1)
	assert.Nil(t, log.Readings)
}

func TestReaderFails(t *testing.T) {
	gone := errors.New("gone")
	log, err := Read(iotest.ErrReader(gone), "monday.csv", Dialect{})
	assert.ErrorIs(t, err, gone)
	assert.Zero(t, log)
}
