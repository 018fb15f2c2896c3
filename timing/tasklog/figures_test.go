package tasklog

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/notation"
)

// A time of day that is read where it stands is what its decoder says, whatever byte is
// amiss; others may be left to that.
func TestClockAt(t *testing.T) {
	cell := part{end: ','}
	check := func(text string) {
		data := []byte(text + "," + strings.Repeat("7", 16))
		got, behind := clockAt(data, 0, &cell)
		want, err := notation.Clock(text, false)
		if behind > 0 {
			assert.NoError(t, err, text)
			assert.Equal(t, want, got, text)
			assert.Equal(t, len(text)+1, behind, text)
		} else if err == nil {
			assert.Contains(t, text, ".", "%s is of a form that nearly all have", text)
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
	for _, text := range []string{"9:05", "19:05", "9:05:07", "23:59:59", "9:05:07.5", "", "9", "9:", "9:0", "009:05", "9:05:", "9:05:0", "24:00", "30:00"} {
		check(text)
		for at := range text {
			for b := range 256 {
				if b != ',' {
					check(text[:at] + string([]byte{byte(b)}) + text[at+1:])
				}
			}
		}
	}
}
