package plots

import (
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// within is an interval in words, "" where it is not known or has no width.
func within(low, high study.Maybe, figure func(float64) string) string {
	if !low.Known || low.Value == high.Value {
		return ""
	}
	return " (" + figure(low.Value) + " to " + figure(high.Value) + ")"
}

// cents is an amount of money, or of minutes, to a hundredth.
func cents(x float64) string { return words.Fixed(x, 2) }

// notDrawn says how many things of a kind there was no room for, and which.
func notDrawn(n int, thing, which string) string {
	return words.Many(n, thing) + which + " " + words.Agree(n, "is", "are") + " not drawn."
}

// maxNames is how many names are said in a row.
const maxNames = 20

// list is names in a row, as they are drawn: "a", "a and b", "a, b and c", "a, b … and 7 more".
func list(names []string) string {
	var drawn []string
	for _, n := range names[:min(len(names), maxNames)] {
		drawn = append(drawn, show(n))
	}
	if more := len(names) - len(drawn); more > 0 {
		return words.UpToMore(strings.Join(drawn, ", "), more)
	}
	return words.And(drawn)
}

// quoted is a name in quotation marks, as it is drawn.
func quoted(name string) string { return `"` + show(name) + `"` }

// percent is a share.
func percent(share float64) string { return words.Percent(share, 4) }
