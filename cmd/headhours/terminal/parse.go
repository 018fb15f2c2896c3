package terminal

import (
	"fmt"
	"strings"
	"time"

	"headhours/timing/notation"
	"headhours/timing/study"
	"headhours/timing/words"
)

// units are those of a time that is told as so long ago.
var units = []struct {
	name string
	is   time.Duration
}{
	{"minutes", time.Minute}, {"minute", time.Minute}, {"mins", time.Minute}, {"min", time.Minute}, {"m", time.Minute},
	{"hours", time.Hour}, {"hour", time.Hour}, {"h", time.Hour}, {"seconds", time.Second}, {"sec", time.Second}, {"s", time.Second},
}

// parseWhen reads when something that began at one time had ended, as it is told
// at another: a time of day, which is the first after the beginning save where that is yet
// to come, or minutes before now.
func parseWhen(text string, began, now time.Time) (time.Time, bool) {
	ago := strings.TrimSuffix(strings.ToLower(text), " ago")
	unit := time.Minute
	for _, u := range units {
		if less, ok := strings.CutSuffix(ago, u.name); ok {
			ago, unit = strings.TrimSpace(less), u.is
			break
		}
	}
	text = strings.TrimPrefix(text, "at ")
	if n, ok := parseNumber(ago); ok && n.Value < 1e6 {
		return now.Add(-time.Duration(n.Value * float64(unit))).Truncate(time.Millisecond), true
	}
	for _, layout := range []string{"15:04", "15:04:05"} {
		if t, err := time.Parse(layout, text); err == nil {
			b := began.In(now.Location())
			end := time.Date(b.Year(), b.Month(), b.Day(), t.Hour(), t.Minute(), t.Second(), 0, now.Location())
			if next := end.AddDate(0, 0, 1); !end.After(began) && !next.After(now) {
				end = next
			}
			return end, true
		}
	}
	return time.Time{}, false
}

// numberIn is a number that a worker typed. The error says what is wrong with it: that it is
// none, or that it may be thousands, as in 1,000, or parts of one.
func numberIn(text string) (study.Maybe, error) {
	x, err := notation.Number(text, true)
	if err != nil {
		what, _, _ := strings.Cut(err.Error(), ":")
		return study.Maybe{}, fmt.Errorf("%q %s", text, what)
	}
	n := study.Known(x)
	before, behind, marked := strings.Cut(text, ",")
	if !marked {
		before, behind, _ = strings.Cut(text, ".")
	}
	if len(behind) == 3 && strings.Trim(before, "0") != "" && (marked || behind == "000") {
		return study.Maybe{}, fmt.Errorf("%q may be %s or %s: write one of these", text, strings.TrimLeft(before, "0")+behind, words.InFull(n.Value))
	}
	return n, nil
}

// parseNumber reads a count: digits with at most one point or comma.
func parseNumber(text string) (study.Maybe, bool) {
	x, err := notation.Number(text, true)
	if err != nil {
		return study.Maybe{}, false
	}
	return study.Known(x), true
}
