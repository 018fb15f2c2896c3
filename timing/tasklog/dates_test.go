package tasklog

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/notation"
)

// A date that is read where it stands is what its decoder says, whatever byte is amiss; others are left to that.
func TestDateAt(t *testing.T) {
	decoder := dates{dialect: &Dialect{}}
	column := datesColumn{field: fieldOf(dateColumn, ';', false), dates: &decoder}
	check := func(text string) {
		row := []byte(text + ";" + strings.Repeat("7", padding))
		want, ok := notation.Date(text)
		if day, usual := dateAt(row, 0); usual && len(text) == len(time.DateOnly) {
			require.True(t, ok, text)
			require.Equal(t, condense.DayOf(want), day, text)
		} else {
			require.False(t, ok && len(text) == len(time.DateOnly) && strings.Count(text, "-") == 2 && want.Year() > 1, text)
		}
		if text == "" {
			return
		}
		got, err := decoder.of(text)
		day, behind := column.anyDayAt(append(row, make([]byte, padding)...), 0)
		require.Equal(t, ok, err == nil, text)
		if !strings.ContainsAny(text, "\n\"") && strings.TrimSpace(text) == text {
			require.Equal(t, ok, behind > 0, text)
		}
		if ok {
			require.Equal(t, condense.DayOf(want), got, text)
			require.Equal(t, got, day, text)
			require.Equal(t, len(text)+1, behind, text)
		}
	}
	for day := time.Date(1890, 1, 1, 0, 0, 0, 0, time.UTC); day.Year() < 2110; day = day.AddDate(0, 0, 1) {
		check(day.Format(time.DateOnly))
	}
	for year := 0; year < 10_000; year += 3 {
		for _, day := range []string{"01-01", "02-28", "02-29", "03-01", "12-31"} {
			check(fmt.Sprintf("%04d-%s", year, day))
		}
	}
	for month := range 20 {
		for day := range 40 {
			check(fmt.Sprintf("2027-%02d-%02d", month, day))
			check(fmt.Sprintf("2028-%02d-%02d", month, day))
		}
	}
	for text := range amiss("2026-03-02", "1999-12-31", "2028-02-29", "2.3.2026", "2026/03/02", "", "2026", "2026-3-2", "2026-03-021", "0001-01-01") {
		check(text)
	}
}

// Dates and figures in quotes are passed with their quotes: where those of a chunk are not all counted it is read
// with care.
func TestDatesAndFiguresInQuotes(t *testing.T) {
	var text strings.Builder
	text.WriteString("date,step,count,time\n")
	for i := range 2000 {
		fmt.Fprintf(&text, "\"2026-03-%02d\",sow,\" 4 \",\"90\"\n", 1+i/100)
	}
	p, c := parsedOnce(t, text.String())
	assert.Equal(t, c.quotes, p.quotes)
	assert.False(t, p.parsed.strays)
	assert.Equal(t, 2000, p.parsed.batch.Rows.Len())
}

// Dates are read in whatever order they come and whatever form they have, also at the end of lines, and those that
// are wrong told of.
func TestReadDates(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 30))
	day := func(i int) string {
		d := time.Date(2026, 2, 20, 0, 0, 0, 0, time.UTC).AddDate(0, 0, i)
		switch r.IntN(12) {
		case 0:
			return ""
		case 1:
			return d.Format("2.1.2006")
		case 2:
			return d.Format("2006/01/02")
		case 3:
			return d.Format(`"2006-01-02"`)
		case 4:
			return d.Format(" 2006-01-02 ")
		}
		return d.Format(time.DateOnly)
	}
	for _, header := range []string{"date,step,count,time", "step,count,time,date", "step,date,count,time", "step,date,time,note,count"} {
		for _, ending := range []string{"\n", "\r\n"} {
			var text strings.Builder
			text.WriteString(header + ending)
			last := ""
			for i := range 4000 {
				if i < 2000 && r.IntN(40) == 0 || i >= 2000 {
					last = day(r.IntN(50))
				}
				cells := map[string]string{"date": last, "step": "sow", "count": "4", "time": "90", "note": "n"}
				for k, name := range strings.Split(header, ",") {
					if k > 0 {
						text.WriteByte(',')
					}
					text.WriteString(cells[name])
				}
				text.WriteString(ending)
			}
			_, log, err := readBoth(t, text.String())
			require.NoError(t, err)
			assert.Len(t, log.Readings, 4000)
			_, _, err = readBoth(t, strings.Replace(text.String(), "2026-02-28", "2026-02-30", 1))
			assert.ErrorContains(t, err, "2026-02-30")
		}
	}
}
