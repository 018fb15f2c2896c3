package notation

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestClock(t *testing.T) {
	const refused = -1
	for _, c := range []struct {
		text         string
		point, comma float64
	}{
		{"0:00", 0, 0},
		{"9:05", 32700, 32700},
		{"09:05", 32700, 32700},
		{"9:05:07", 32707, 32707},
		{"9:05:07.25", 32707.25, 32707.25},
		{"9:05:07,25", refused, 32707.25},
		{"23:59:59", 86399, 86399},
		{"23:59:59.999", 86399.999, 86399.999},
		{"23:59:59.99999999999999", refused, refused}, // is 24:00 to a float64
		{"24:00", refused, refused},
		{"25:00", refused, refused},
		{"009:05", refused, refused},
		{"9:5", refused, refused},
		{"9:60", refused, refused},
		{"9:05:60", refused, refused},
		{"9:05.5", refused, refused},
		{"9.05", refused, refused},
		{"905", refused, refused},
		{"9h05", refused, refused},
		{"9:05 am", refused, refused},
		{"9:05pm", refused, refused},
		{"-9:05", refused, refused},
		{"9", refused, refused},
		{"", refused, refused},
		{":", refused, refused},
		{"1:02:03:04", refused, refused},
		{"T09:05", refused, refused},
		{"09:05Z", refused, refused},
	} {
		for comma, want := range map[bool]float64{false: c.point, true: c.comma} {
			seconds, err := Clock(c.text, comma)
			if want == refused {
				assert.Error(t, err, c.text)
				continue
			}
			assert.NoError(t, err, c.text)
			assert.Equal(t, want, seconds, c.text)
		}
	}
}

// What is nearly a time of day is told of with the way to write it.
func TestWrongClock(t *testing.T) {
	const (
		none = "is not a time of day: H:MM or H:MM:SS, from 0:00 to 23:59:59"
		half = "is not on a clock of 24 hours: write "
	)
	withDay := func(clock string) string {
		return "has its day too: write " + clock + ", and the day in the column date"
	}
	for text, want := range map[string]string{
		"2026-03-02 09:05:00": withDay("09:05:00"), "2026-03-02T09:05": withDay("09:05"), "2.3.2026 9:05": withDay("9:05"), "3/2/26  9:05": withDay("9:05"),
		"9:05 AM": half + "9:05", "9:05pm": half + "21:05", "12:05 a.m.": half + "0:05", "12:30 PM": half + "12:30", "1:02:03 P.M.": half + "13:02:03",
		"2026-03-02 25:00": none, "2026-03-02": none, "13:05 PM": none, "0:05 AM": none, "9 AM": none, "9:65 AM": none, "-1:05 pm": none, "AM": none, "9:05 at noon": none,
		"9:05T10:05": none, "a day 9:05": none, "9:05 9:10": none,
	} {
		_, err := Clock(text, false)
		assert.EqualError(t, err, want, text)
	}
	_, err := Clock("2026-03-02 09:05:00"+strings.Repeat(" ", 10_000), false)
	assert.EqualError(t, err, none)
}
