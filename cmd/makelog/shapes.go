package main

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"
)

// shape is how a log is laid out: its columns in order, and how its rows are written.
type shape struct {
	columns   string // split by commas
	separator byte
	mark      string // in front of all
	end       string // of a row
	comma     bool   // decimal
	growEvery int    // rows of one grow
	grows     int    // so many, then anew
	mixed     bool   // days, grows and ways of working come in no order
	abreast   int    // so many grows are in hand at a time, each of a way of working, with long names
	varied    bool   // people, setups and ratings change from row to row
}

// shapes are logs as programs and growers write them.
var shapes = map[string]shape{
	"usual":      {columns: "date,grow,workflow,step,worker,people,count,time,setups,source"},
	"bare":       {columns: "date,grow,workflow,step,worker,count,time"},
	"notes":      {columns: "date,grow,workflow,step,worker,start,count,time,note"},
	"clocks":     {columns: "step,date,start,end,count,worker"},
	"semicolons": {columns: "date,grow,workflow,step,worker,count,time", separator: ';', mark: "\ufeff", end: "\r\n", comma: true},
	"note-first": {columns: "note,date,grow,workflow,step,worker,count,time"},
	"grows":      {columns: "date,grow,workflow,step,worker,count,time", growEvery: 48, grows: 1 << 40},
	"mixed":      {columns: "date,grow,workflow,step,worker,count,time", growEvery: 7, grows: 200, mixed: true},
	"abreast":    {columns: "date,grow,workflow,step,worker,count,time", growEvery: 500, grows: 1 << 40, abreast: 6},
	"varied": {columns: "date,grow,workflow,step,worker,people,start,end,count,time,setups,source,rating,note",
		growEvery: 500, grows: 1 << 40, abreast: 6, varied: true},
	"wide": {columns: "id,date,grow,workflow,step,worker,people,start,end,time,count,setups,source,rating,note," +
		"bed,weather,temperature"},
}

func shapeNamed(name string) (shape, error) {
	s, ok := shapes[name]
	if !ok {
		return s, fmt.Errorf("no shape is named %q: there are %s", name, strings.Join(slices.Sorted(maps.Keys(shapes)), ", "))
	}
	if s.separator == 0 {
		s.separator = ','
	}
	if s.end == "" {
		s.end = "\n"
	}
	if s.growEvery == 0 {
		s.growEvery, s.grows = 40, 5000
	}
	return s, nil
}

// reading is an invented one.
type reading struct {
	row     int
	step    string
	worker  int
	count   int
	seconds float64
}

var firstDay = time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)

// notes are invented.
var notes = []string{"", "", "", "slow, cold water", `the "good" trays`, "two visitors, one question", "as ever"}

// cell appends what a column holds.
func (s *shape) cell(row []byte, column string, r *reading) []byte {
	clock, at, mix := 8*3600+r.row*37%20000, r.row, int(uint64(r.row)*0x9e3779b97f4a7c15>>33)
	if s.mixed {
		at = mix
	}
	grow := at / s.growEvery % s.grows
	if s.abreast > 0 {
		grow += mix % s.abreast
	}
	switch column {
	case "date":
		return firstDay.AddDate(0, 0, at/2000%300).AppendFormat(row, "2006-01-02")
	case "grow":
		if s.abreast > 0 {
			return fmt.Appendf(row, "batch of trays %d", grow)
		}
		return strconv.AppendInt(append(row, 'g'), int64(grow), 10)
	case "workflow":
		if s.abreast > 0 {
			return append(row, []string{"tray", "in place", "tray and film"}[grow%3]...)
		}
		if s.mixed && at%2 > 0 {
			return append(row, "in place"...)
		}
		return append(row, "tray"...)
	case "step":
		return append(row, r.step...)
	case "worker":
		return strconv.AppendInt(append(row, 'w'), int64(r.worker), 10)
	case "people", "setups":
		if s.varied && mix/8%5 == len(column)%2 {
			return append(row, '2')
		}
		return append(row, '1')
	case "source":
		return append(row, "watch"...)
	case "rating":
		if s.varied {
			return strconv.AppendInt(row, int64(80+mix/64%41), 10)
		}
		return append(row, "100"...)
	case "count":
		return strconv.AppendInt(row, int64(r.count), 10)
	case "time":
		from := len(row)
		row = strconv.AppendFloat(row, r.seconds, 'f', 1, 64)
		if s.comma {
			row[from+strings.IndexByte(string(row[from:]), '.')] = ','
		}
		return row
	case "start":
		return appendClock(row, clock)
	case "end":
		return appendClock(row, clock+max(1, int(r.seconds)))
	case "note":
		return s.quoted(row, notes[r.row%len(notes)])
	case "id":
		return strconv.AppendInt(row, int64(r.row), 10)
	case "bed":
		return strconv.AppendInt(append(row, "bed "...), int64(r.row%14), 10)
	case "weather":
		return append(row, []string{"sun", "rain", "cloud"}[r.row%3]...)
	}
	return strconv.AppendFloat(row, 15+float64(r.row%90)/10, 'f', 1, 64) // a temperature
}

func (s *shape) quoted(row []byte, text string) []byte {
	if !strings.ContainsAny(text, `",`) {
		return append(row, text...)
	}
	row = append(row, '"')
	row = append(row, strings.ReplaceAll(text, `"`, `""`)...)
	return append(row, '"')
}

func appendClock(row []byte, seconds int) []byte {
	seconds %= 24 * 3600
	return fmt.Appendf(row, "%d:%02d:%02d", seconds/3600, seconds/60%60, seconds%60)
}
