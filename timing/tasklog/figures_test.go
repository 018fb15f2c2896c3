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
