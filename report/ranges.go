package report

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// enough is how many decimals, of so many at least, show two digits of each amount below
// a tenth that is not nothing.
func enough(decimals int, amounts ...study.Maybe) int {
	return decimalsFor(words.Enough, decimals, amounts)
}

// visible is how many decimals, of so many at least, show something of each amount that
// is not nothing.
func visible(decimals int, amounts ...study.Maybe) int {
	return decimalsFor(words.Visible, decimals, amounts)
}

func decimalsFor(show func(int, float64) int, decimals int, amounts []study.Maybe) int {
	needed := decimals
	for _, m := range amounts {
		if m.Known {
			needed = max(needed, show(decimals, m.Value))
		}
	}
	return needed
}

// durationWithin is so many hours with what is known of them, as words.DurationWithin has it;
// without a range where none is known.
func durationWithin(hours float64, low, high study.Maybe, of ...string) string {
	if !low.Known {
		return strings.Join(append([]string{words.Duration(hours)}, of...), " ")
	}
	return words.DurationWithin(hours, low.Value, high.Value, of...)
}

// somewhere is the range of an amount of money in words, "" where it has none.
func somewhere(low, high study.Maybe) string {
	d := visible(2, low, high)
	if !low.Known || words.Fixed(low.Value, d) == words.Fixed(high.Value, d) {
		return ""
	}
	return fmt.Sprintf(" (somewhere between %s and %s)", words.Fixed(low.Value, d), words.Fixed(high.Value, d))
}

// between is a range behind a figure, "" where none is known.
func between(low, high study.Maybe, decimals int) string {
	if !low.Known || low.Value == high.Value {
		return ""
	}
	return " (" + dashed(low, high, decimals) + ")"
}

// dashed is a range, "?" where it is not known. Where it begins below zero its ends are
// parted by a word.
func dashed(low, high study.Maybe, decimals int) string {
	switch {
	case !low.Known:
		return "?"
	case low.Value < 0:
		return words.Fixed(low.Value, decimals) + " to " + words.Fixed(high.Value, decimals)
	}
	return words.Fixed(low.Value, decimals) + "–" + words.Fixed(high.Value, decimals)
}

// whyLacking says why steps lack: they were not timed, or are chores of which no share of a
// grow can be told.
func whyLacking(gaps, unshared []string) string {
	untimed := slices.DeleteFunc(slices.Clone(gaps), func(name string) bool { return slices.Contains(unshared, name) })
	var reasons []string
	if len(untimed) > 0 {
		reasons = append(reasons, neverTimed(untimed))
	}
	if len(unshared) > 0 {
		reasons = append(reasons, fmt.Sprintf("without sow_every_days in the study a grow's share of %s is not known", words.Names(unshared)))
	}
	return strings.Join(reasons, "; ")
}

// neverTimed says of steps that they were not: "sow and cut were never timed".
func neverTimed(gaps []string) string {
	return fmt.Sprintf("%s %s not timed", words.Names(gaps), words.Agree(len(gaps), "was", "were"))
}
