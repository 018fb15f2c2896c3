package tasklog

import (
	"fmt"
	"iter"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/notation"
)

// amiss are texts, and each with any byte in any place.
func amiss(texts ...string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for _, text := range texts {
			if !yield(text) {
				return
			}
			for at := range text {
				for b := range 256 {
					if b != ';' && !yield(text[:at]+string([]byte{byte(b)})+text[at+1:]) {
						return
					}
				}
			}
		}
	}
}

// cellOf is a cell in its row, with others behind it.
func cellOf(text string) []byte { return []byte(text + ";" + strings.Repeat("7", padding)) }

// A time of day that is read where it stands is what its decoder says, whatever byte is
// amiss; others may be left to that.
func TestClockAt(t *testing.T) {
	cell := part{end: ';'}
	check := func(text string) {
		got, behind := clockAt(cellOf(text), 0, &cell)
		want, err := notation.Clock(text, true)
		if behind > 0 {
			assert.NoError(t, err, text)
			assert.Equal(t, want, got, text)
			assert.Equal(t, len(text)+1, behind, text)
		} else if err == nil {
			assert.True(t, strings.ContainsAny(text, ".,"), "%s is of a form that nearly all have", text)
		}
	}
	for second := range 24 * 60 * 60 {
		hours, minutes := second/3600, second/60%60
		check(fmt.Sprintf("%d:%02d:%02d", hours, minutes, second%60))
		if second%60 == 0 {
			check(fmt.Sprintf("%02d:%02d:%02d", hours, minutes, second%60))
			check(fmt.Sprintf("%d:%02d", hours, minutes))
			check(fmt.Sprintf("%02d:%02d", hours, minutes))
		}
	}
	for text := range amiss("9:05", "19:05", "9:05:07", "23:59:59", "9:05:07.5", "", "9", "9:", "9:0", "009:05", "9:05:", "9:05:0", "24:00", "30:00") {
		check(text)
	}
}

// So are numbers, and times that can be meant in one way only.
func TestNumberAndTimeAt(t *testing.T) {
	for text := range amiss("", "0", "7", "48", "1234567", "12345678", "123456789", "6.5", "6,5", "12.25", "0.125", "1234567.1234567", "1.12345678", "6.", ".5", "1.2.3", "007", "-3", "1e3") {
		got, behind := numberAt(cellOf(text), 0, ';', ',')
		want, err := notation.Number(text, true)
		if behind > 0 {
			assert.NoError(t, err, text)
			assert.Equal(t, want, got, text)
			assert.Equal(t, len(text)+1, behind, text)
		}
	}
	cell := part{end: ';', mark: ',', unit: 1}
	for text := range amiss("", "101.5", "6,5", "1.30", "9.99", "10.00", "3:07", "12:34", "187:07", "1:03:07", "100:00:00", "3:60", "1:3:07", "3:07.5", "3m7s", "12345:00") {
		got, behind := timeAt(cellOf(text), 0, &cell, &cell)
		want, doubtful, err := notation.Duration(text, true)
		if behind > 0 {
			assert.NoError(t, err, text)
			assert.False(t, doubtful, text)
			assert.Equal(t, want, got, text)
			assert.Equal(t, len(text)+1, behind, text)
		}
	}
}

// Loops over many rows read what the decoders say, and leave the rest to them.
func TestUsualFigures(t *testing.T) {
	cell := part{end: ';', stop: lowest * ';', beyond: 1, mark: ',', unit: 1}
	taken := 0
	check := func(text string, want float64, err error, rows int, at uint32, got float64) {
		if rows == 1 {
			taken++
			assert.NoError(t, err, text)
			assert.Equal(t, want, got, text)
			assert.Equal(t, uint32(len(text)+1), at, text)
		}
	}
	for text := range amiss("", "0", "7", "48", "100", "0005", "1234567", "12345678", "6.5", "6,5", "05.3", "12345.6", "1.30", "12.25", "6.", ".5", ".", "1.2.3", "-3", "3:07", "12345,", "123456") {
		at, into := []uint32{0}, []float64{0}
		rows := cell.usualNumbers(cellOf(text), at, into)
		want, doubtful, err := notation.Duration(text, true)
		assert.False(t, rows == 1 && doubtful, text)
		check(text, want, err, rows, at[0], into[0])
	}
	for text := range amiss("9:05", "19:05", "9:05:07", "23:59:59", "24:00", "23:60", "9:5", "9", "") {
		at, into := []uint32{0}, []float64{0}
		rows := cell.usualClocks(cellOf(text), at, into)
		want, err := notation.Clock(text, true)
		check(text, want, err, rows, at[0], into[0])
	}
	assert.Greater(t, taken, 400)
}

// A return before a line end is a part of it; any other is not passed over.
func TestReturnsInNumbers(t *testing.T) {
	for _, row := range []string{"sow,1,12\r5\r\n", "sow,1,12\rsow,1,13\r\n", "sow,1,12\r5\n"} {
		text := "step,count,time\r\nsow,1,20\r\nsow,2,21.5\r\n" + row + "sow,3,22\n"
		_, err := Read(strings.NewReader(text), "monday.csv", Dialect{})
		assert.Error(t, err, "%q", row)
		checkScan(t, text, Dialect{})
	}
}
