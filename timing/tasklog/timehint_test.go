package tasklog

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWrongTimes(t *testing.T) {
	const (
		blanks = "is not a time: write it without blanks: "
		other  = "is not a time: write "
	)
	all := errTime.Error()
	for _, c := range []struct{ text, point, comma string }{
		{"12 min", blanks + "12min", blanks + "12min"},
		{"12\u00a0min", blanks + "12min", blanks + "12min"}, // a blank that does not break
		{"5,5 min", blanks + "5.5min", blanks + "5,5min"},
		{"3 m 7 s", blanks + "3m7s", blanks + "3m7s"},
		{"1 h 3 min 7 sec.", blanks + "1h3min7s", blanks + "1h3min7s"},
		{"12 minutes", blanks + "12min", blanks + "12min"},
		{"2Hrs", other + "2h", other + "2h"},
		{"90secs", other + "90s", other + "90s"},
		{"1 hour 3 minutes", blanks + "1h3min", blanks + "1h3min"},
		{"3: 07", blanks + "3:07", blanks + "3:07"},
		// in doubt, or none at all
		{"3 07", all, all},
		{"1 234", all, all},
		{"3 min 7", all, all},
		{"7 s 3 m", all, all},
		{"1,234.5 s", all, all},
		{"1,234 s", all, blanks + "1,234s"},
		{"187,4s,", all, all},
		{"-3 min", all, all},
		{"about 3 min", all, all},
		{"minutes", all, all},
		{"3mn", all, all},
	} {
		assert.EqualError(t, wrongTime(c.text, false), c.point, c.text)
		assert.EqualError(t, wrongTime(c.text, true), c.comma, c.text)
	}
}
