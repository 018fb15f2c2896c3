package tasklog

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"headhours/timing/study"
	"headhours/timing/words"
)

// Write writes readings as a task log: CSV by RFC 4180, comma separated, with
// CRLF between rows, in the order given. Columns that no reading uses are left
// out, save step, time and count. Numbers are written in full, times in
// seconds, and notes, and why a reading is void, so that no spreadsheet takes them for formulas;
// what Read gives of the log is equal, places aside. The error is that of w.
//
// The log is for a study whose bare times are what Dialect's Times says: where those are not
// seconds, each time names its unit. With decimal commas semicolons part its cells.
func Write(w io.Writer, readings []study.Reading, times string, decimalCommas bool) error {
	unit := ""
	if times != "" && times != units["s"].name {
		unit = "s"
	}
	used := [columns]bool{stepColumn: true, timeColumn: true, countColumn: true}
	for _, r := range readings {
		for c, cell := range rowOf(r, unit) {
			used[c] = used[c] || cell != ""
		}
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if decimalCommas {
		out.Comma = ';'
	}
	row := make([]string, 0, columns)
	write := func(all [columns]string) {
		row = row[:0]
		for c, cell := range all {
			if !used[c] {
				continue
			}
			if decimalCommas && isFigure(column(c)) {
				cell = strings.Replace(cell, ".", ",", 1)
			}
			row = append(row, cell)
		}
		out.Write(row) // an error stays in out
	}
	write(columnNames)
	for _, r := range readings {
		write(rowOf(r, unit))
	}
	out.Flush()
	return out.Error()
}

// isFigure says whether numbers stand in a column, or times, and no text.
func isFigure(c column) bool {
	switch c {
	case peopleColumn, startColumn, endColumn, pausedColumn, timeColumn, countColumn, setupsColumn, ratingColumn:
		return true
	}
	return false
}

// rowOf is the cells of a reading, blank where a blank says the same, with a unit behind times.
func rowOf(r study.Reading, unit string) [columns]string {
	all := [columns]string{
		growColumn:     r.Grow,
		workflowColumn: r.Workflow,
		stepColumn:     r.Step,
		workerColumn:   r.Worker,
		peopleColumn:   unless(1, r.People),
		startColumn:    clockText(r.Start),
		endColumn:      clockText(r.End),
		timeColumn:     secondsText(r.Seconds) + unit,
		countColumn:    plainNumber(r.Count),
		ratingColumn:   unless(100, r.Rating),
		voidColumn:     guarded(r.Void),
		noteColumn:     guarded(r.Note),
		journalColumn:  r.Journal,
	}
	if !r.Date.IsZero() {
		all[dateColumn] = r.Date.Format(time.DateOnly)
	}
	if r.Paused != 0 {
		all[pausedColumn] = secondsText(r.Paused) + unit
	}
	if r.Setups.Known {
		all[setupsColumn] = plainNumber(r.Setups.Value)
	}
	if r.Source != study.Watch {
		all[sourceColumn] = string(r.Source)
	}
	return all
}

// guarded is a text that a spreadsheet does not take for a formula: with an apostrophe in front, where it may.
func guarded(text string) string {
	if mayBeFormula(text) {
		return "'" + text
	}
	return text
}

// unguarded is the text that was.
func unguarded(text string) string {
	if rest, ok := strings.CutPrefix(text, "'"); ok && mayBeFormula(rest) {
		return rest
	}
	return text
}

// mayBeFormula says so of a text, behind apostrophes of its own.
func mayBeFormula(text string) bool { return words.MayBeFormula(strings.TrimLeft(text, "'")) }

// plainNumber is a number in full, without an exponent.
func plainNumber(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func unless(blank, x float64) string {
	if x == blank {
		return ""
	}
	return plainNumber(x)
}

// secondsText is a time that Read does not take for minutes and seconds: two
// decimals below ten get a third.
func secondsText(x float64) string {
	text := plainNumber(x)
	if x < 10 && strings.IndexByte(text, '.') == len(text)-3 {
		text += "0"
	}
	return text
}

// clockText is a time of day as H:MM:SS, with no more decimals than it takes to
// read back as the same number.
func clockText(t study.Maybe) string {
	if !t.Known {
		return ""
	}
	minutes := math.Floor(t.Value / 60)
	rest := t.Value - 60*minutes // exact, so that its every decimal reads back
	text := plainNumber(rest)
	for decimals := range 10 {
		short := strconv.FormatFloat(rest, 'f', decimals, 64)
		if x, _ := strconv.ParseFloat(short, 64); 60*minutes+x == t.Value {
			text = short
			break
		}
	}
	if rest < 10 {
		text = "0" + text
	}
	return fmt.Sprintf("%d:%02d:%s", int(minutes)/60, int(minutes)%60, text)
}
