package terminal

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// clock is a time as a stopwatch shows it.
func clock(seconds float64) string {
	s := int(max(0, math.Round(seconds)))
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// reading names a reading: "thin (3:05)", "sow".
func reading(r stopwatch.Reading) string {
	if r.Ended.IsZero() {
		return r.Step
	}
	return fmt.Sprintf("%s (%s)", r.Step, clock(r.Seconds))
}

func ofWhom(r stopwatch.Reading) string {
	text := ""
	for _, name := range []string{r.Grow, r.Worker} {
		if name != "" {
			text += ", " + name
		}
	}
	if text == "" {
		return ""
	}
	return " (" + text[2:] + ")"
}

// since is a past time as short as it is plain: the time of day, with the date
// where it is not today's.
func since(t, now time.Time) string {
	t = t.In(now.Location())
	if midnight(t).Equal(midnight(now)) {
		return t.Format("15:04")
	}
	return t.Format("2006-01-02 15:04")
}

// midnight is the day of a time as readings have it.
func midnight(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// lacksCount says whether a reading has ended and its count is wanted.
func lacksCount(r stopwatch.Reading) bool {
	return !r.Ended.IsZero() && !r.Counted.Known && r.Counts()
}

// ofNothing says whether a reading has ended with a count of 0 and was not getting ready
// alone.
func ofNothing(r stopwatch.Reading) bool {
	return !r.Ended.IsZero() && r.Counts() && r.Counted == study.Known(0) && r.Setups.Value == 0
}

func firstUncounted(s stopwatch.State) (stopwatch.Reading, bool) {
	for _, r := range s.Readings {
		if lacksCount(r) {
			return r, true
		}
	}
	return stopwatch.Reading{}, false
}

// lastChanged is the last complete reading that was not so before, or otherwise.
func lastChanged(before, after stopwatch.State) (changed stopwatch.Reading, ok bool) {
	old := map[string]study.Reading{}
	for _, r := range before.Readings {
		if r.Lacks() == "" {
			old[r.ID] = noteless(r)
		}
	}
	for _, r := range after.Readings {
		if r.Lacks() == "" && old[r.ID] != noteless(r) {
			changed, ok = r, true
		}
	}
	return changed, ok
}

// noteless is a reading but for its note, which changes nothing that is judged.
func noteless(r stopwatch.Reading) study.Reading {
	r.Note = ""
	return r.Reading
}

// countedLast is the ID of the reading whose count was given or changed last, else the
// one that was so before.
func countedLast(before, after stopwatch.State, last string) string {
	for _, r := range after.Readings {
		i := slices.IndexFunc(before.Readings, func(o stopwatch.Reading) bool { return o.ID == r.ID })
		if r.Counted.Known && (i < 0 || before.Readings[i].Counted != r.Counted) {
			last = r.ID
		}
	}
	return last
}

// listed is the readings of a session, a line each.
func listed(s stopwatch.State) string {
	var b strings.Builder
	for _, r := range s.Readings {
		fmt.Fprintf(&b, "  %s  %s  %s", r.Began.Format("15:04:05"), r.Step, clock(r.Seconds))
		if r.Counted.Known {
			b.WriteString("  of " + words.UpTo(r.Count, 2))
		}
		b.WriteByte('\n')
	}
	return b.String()
}
