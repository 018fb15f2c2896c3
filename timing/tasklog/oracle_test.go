package tasklog

import (
	"encoding/csv"
	"errors"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
)

// plainLog is a log read in the plainest way: taken apart by package encoding/csv, each
// cell by itself, slowly, with nothing kept from row to row.
type plainLog struct {
	comma  bool
	at     map[string]int
	rows   []row
	clocks int  // how many have a date, a start and an end
	wrong  bool // a row of it is
}

// readPlainly reads a log whose first row has our own names; false of any other.
func readPlainly(text string) (log plainLog, ok bool) {
	text = strings.TrimPrefix(text, "\ufeff")
	first := regexp.MustCompile(`"[^"]*"`).ReplaceAllString(strings.SplitN(strings.TrimLeft(text, " \r\n"), "\n", 2)[0], "")
	if strings.ContainsAny(first, "\"") {
		return log, false // a heading of several lines
	}
	in := csv.NewReader(strings.NewReader(text))
	in.FieldsPerRecord = -1
	for _, separator := range "\t;" {
		if strings.ContainsRune(first, separator) {
			in.Comma, log.comma = separator, true
			break
		}
	}
	header, err := in.Read()
	if err != nil || strings.TrimSpace(strings.Join(header, "")) == "" || strings.ContainsAny(strings.Join(header, ""), "\x00\r") ||
		!utf8.ValidString(strings.Join(header, "")) {
		return log, false
	}
	log.at = map[string]int{}
	for i, name := range header {
		name = strings.ToLower(strings.TrimSpace(name))
		if _, twice := log.at[name]; twice {
			return log, false
		}
		log.at[name] = i
	}
	_, hasStep := log.at["step"]
	_, hasCount := log.at["count"]
	_, hasTime := log.at["time"]
	_, hasStart := log.at["start"]
	_, hasEnd := log.at["end"]
	if !hasStep || !hasCount || !hasTime && !(hasStart && hasEnd) {
		return log, false
	}
	for {
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			return log, true
		}
		if err != nil {
			log.wrong = true
			continue
		}
		if strings.TrimSpace(strings.Join(record, "")) != "" {
			log.take(record, len(header))
		}
	}
}

func (l *plainLog) take(record []string, width int) {
	all := strings.Join(record, "")
	r := row{Day: condense.NoDay, How: condense.How{People: 1, Rating: 100}}
	if len(record) != width || strings.Contains(all, "\x00") || !utf8.ValidString(all) {
		l.wrong = true
		return
	}
	cell := func(name string) string {
		if at, has := l.at[name]; has {
			return strings.TrimSpace(record[at])
		}
		return ""
	}
	name := func(name string) string {
		return strings.ReplaceAll(strings.ReplaceAll(cell(name), "\r\n", "\n"), "\r", "\n")
	}
	bad := func(is bool) { l.wrong = l.wrong || is }
	number := func(name string, blank float64, read func(string) (float64, bool)) float64 {
		if cell(name) == "" {
			return blank
		}
		x, ok := read(cell(name))
		bad(!ok || x > 1e12 || 0 < x && x < 1e-9)
		return x
	}
	if text := cell("date"); text != "" {
		day, ok := plainDay(text)
		bad(!ok)
		r.Day = condense.DayOf(day)
	}
	r.names = [nameKinds]string{name("step"), name("workflow"), name("grow"), name("worker")}
	bad(r.names[0] == "")
	r.People, r.Rating = number("people", 1, l.number), number("rating", 100, l.number)
	bad(r.People == 0 || r.Rating == 0)
	if setups := number("setups", -1, l.number); setups >= 0 {
		r.Setups, r.HasSetups = setups, true
	}
	switch strings.ToLower(cell("source")) {
	case "", "watch", "film":
	case "judged":
		r.Judged = true
	default:
		bad(true)
	}
	r.void = name("void")
	start, end, paused := number("start", -1, l.clock), number("end", -1, l.clock), number("paused", 0, l.time)
	if start >= 0 && end >= 0 && r.Day != condense.NoDay {
		l.clocks++
	}
	switch r.seconds = number("time", -1, l.time); {
	case r.seconds >= 0:
	case start < 0 || end < 0:
		bad(true)
	default:
		span := end - start
		if span < 0 {
			span += 86400
		}
		r.seconds = math.Round((span-paused)*1e9) / 1e9
	}
	r.count = number("count", -1, l.number)
	bad(r.seconds <= 0 || r.count < 0 || r.count == 0 && r.Setups == 0)
	l.rows = append(l.rows, r)
}

func (l *plainLog) number(text string) (float64, bool) {
	if l.comma {
		text = strings.Replace(text, ",", ".", 1)
	}
	if strings.Trim(text, "0123456789.") != "" {
		return 0, false
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil
}

// part reads a part of a time that may be absent.
func (l *plainLog) part(text string) (x float64, isWhole, ok bool) {
	if text == "" {
		return 0, true, true
	}
	x, ok = l.number(text)
	return x, strings.Trim(text, "0123456789") == "", ok
}

func (l *plainLog) time(text string) (float64, bool) {
	if x, ok := l.number(text); ok {
		return x, true
	}
	if parts := strings.Split(text, ":"); len(parts) == 2 || len(parts) == 3 {
		total := 0.0
		for i, part := range parts {
			x, isWhole, ok := l.part(part)
			last := i == len(parts)-1
			if !ok || part == "" || !isWhole && !last || i > 0 && (x >= 60 || strings.IndexAny(part+".", ".,") != 2) {
				return 0, false
			}
			total = 60*total + x
		}
		return total, true
	}
	for _, dialect := range []string{`^([0-9.,]+[hH])?([0-9.,]+(?:[mM]|[mM][iI][nN]))?([0-9.,]+[sS])?$`, `^PT([0-9.,]+H)?([0-9.,]+M)?([0-9.,]+S)?$`} {
		parts := regexp.MustCompile(dialect).FindStringSubmatch(text)
		if parts == nil {
			continue
		}
		total, closed := 0.0, false
		for i, unit := range []float64{3600, 60, 1} {
			x, isWhole, ok := l.part(strings.TrimRight(parts[i+1], "hHmMiInNsS"))
			if !ok || closed && parts[i+1] != "" {
				return 0, false
			}
			total, closed = total+unit*x, closed || !isWhole
		}
		return total, true
	}
	return 0, false
}

func (l *plainLog) clock(text string) (float64, bool) {
	mark := `[.]`
	if l.comma {
		mark = `[.,]`
	}
	parts := regexp.MustCompile(`^([0-9]{1,2}):([0-5][0-9])(?::([0-5][0-9](?:` + mark + `[0-9]*)?))?$`).FindStringSubmatch(text)
	if parts == nil {
		return 0, false
	}
	hours, _ := strconv.Atoi(parts[1])
	minutes, _ := strconv.Atoi(parts[2])
	seconds, _, ok := l.part(parts[3])
	return float64(60*(60*hours+minutes)) + seconds, ok && hours < 24
}

// plainDay reads the forms of a date that mean one day only.
func plainDay(text string) (time.Time, bool) {
	forms := []string{"2006-01-02", "2006/01/02"}
	if regexp.MustCompile(`^[0-9]{1,2}\.[0-9]{1,2}\.[0-9]{4}$`).MatchString(text) {
		forms = []string{"2.1.2006"}
	}
	for _, dialect := range forms {
		if day, err := time.Parse(dialect, text); err == nil && len(text) <= 10 {
			return day, !day.IsZero()
		}
	}
	return time.Time{}, false
}

// checkPlainly holds Scan to the plainest way of reading; false where that cannot read the
// log.
func checkPlainly(t *testing.T, text string) bool {
	t.Helper()
	want, ok := readPlainly(text)
	if !ok {
		return false
	}
	for _, size := range []int{32, chunkSize} {
		got, found, err := scanned(text, size, Dialect{})
		require.Equal(t, want.wrong, err != nil, err)
		if err != nil {
			continue
		}
		require.Len(t, got, len(want.rows))
		require.Equal(t, want.clocks, found.Clocks)
		for i := range got {
			got[i].place = want.rows[i].place
			require.Equal(t, want.rows[i], got[i], i)
		}
	}
	return true
}

func TestScanIsPlainReading(t *testing.T) {
	read := 0
	for _, text := range logTexts(t) {
		if checkPlainly(t, text) {
			read++
		}
	}
	require.Greater(t, read, 15)
	require.True(t, checkPlainly(t, manyRows(3000)))
}

// Rows of every kind of cell, right and wrong, are read as the plainest reader reads them.
func TestCellsAsReadPlainly(t *testing.T) {
	for column, cells := range map[string][]string{
		"count": {"1", "12", "1.5", ".5", "5.", ".", "", "0", "1e3", "-1", "+1", "12345678", "123456789", "1234567.1234567", "0.0000001", "1,5", "1.2.3", " 7 ", `"7"`, `"7`, `"7"7`, "7\x00", "\xff", "999999999999999999", "0.00000000001"},
		"time": {"1", "1.5", "12.34", "0", "0.0", "3:07", "3:7", "3:60", "1:03:07", "1:60:07", "1.5:00", "3:07.5", ":07", "3:", "3m7s", "3.5min", "3.5m7s", "1h", "1H2M3S", "PT3M7S", "PT3,5M", "pt3m", "h",
			"123456789.5", "99999:59", "1:2:3:4", `"3:07"`, `"90"`, `" 90 "`, "90 s", "9e1"},
		"start":    {"9:05", "09:05", "9:05:10", "24:00", "23:59:59", "9:5", "9", "", "9:05:10.5", "9:05:60", `"9:05"`, "9:05:", "009:05"},
		"paused":   {"", "5", "1m", "1:00", "x", `"5"`, "599.5", "700"},
		"date":     {"2026-03-02", "2026/03/02", "2.3.2026", "02.03.2026", "2026-3-2", "2026-02-30", "", "0001-01-01", "2.3.26", "today", `"2026-03-02"`},
		"people":   {"", "2", "0", "0.5", "x", `"2"`},
		"rating":   {"", "95", "0", "95.5", "-5"},
		"setups":   {"", "0", "1", "1.5", "x"},
		"source":   {"", "watch", "FILM", "judged", "Judged", "seen", `"judged"`},
		"step":     {"sow", `"sow"`, "", `""`, " sow ", `"a,b"`, `"a ""b"""`, `a"b`, "sow\r", "\u00fcber", "a step of a name that is longer than is remembered"},
		"worker":   {"w1", "", `"w1"`, `"w` + "\n" + `1"`, "w\r1"},
		"note":     {"", "wet", `"a, b"`, `"a` + "\r\n" + `b"`, `"`, `x"y`, `""""`},
		"void":     {"", "spilt", `"a` + "\r\n" + `b"`, `""`},
		"journal":  {"", "phone.jsonl 7", `""`},
		"weather":  {"", "rain", `"a;b"`, "x\ty"},
		"workflow": {"by hand", "", " by hand"},
	} {
		others := []string{"date", "grow", "step", "worker", "end", "count", "time", "note"}
		header := append(slices.Clone(others[:4]), slices.Concat([]string{column}, others[4:])...)
		if at := slices.Index(others, column); at >= 0 {
			header = slices.Clone(others)
		}
		fill := map[string]string{"date": "2026-03-01", "grow": "g1", "step": "sow", "worker": "w1", "end": "9:20", "count": "4", "time": "", "note": "n", "start": "9:00"}
		if column != "start" {
			fill["time"] = "60"
		}
		for _, separator := range []string{",", ";", "\t"} {
			for _, end := range []string{"\n", "\r\n"} {
				for _, cell := range cells {
					text := strings.Join(header, separator) + end
					for range 2 { // the second meets what the first has
						var row []string
						for _, name := range header {
							if name == column {
								row = append(row, cell)
							} else {
								row = append(row, fill[name])
							}
						}
						text += strings.Join(row, separator) + end
					}
					require.True(t, checkPlainly(t, text), text)
				}
			}
		}
	}
}

// FuzzPlainly holds Scan to the plainest way of reading.
func FuzzPlainly(f *testing.F) {
	for _, text := range logTexts(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) { checkPlainly(t, text) })
}
