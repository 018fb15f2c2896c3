package plots

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"headhours/timing/study"
)

// decimals is a number with so many decimals, never "-0".
func decimals(x float64, places int) string {
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// short is a number with two or three digits that count.
func short(x float64) string {
	switch size := math.Abs(x); {
	case size >= 1e6 || size < 0.01 && size > 0:
		return strconv.FormatFloat(x, 'g', 2, 64)
	case size >= 10:
		return decimals(x, 0)
	case size >= 1:
		return decimals(x, 1)
	default:
		return decimals(x, 2)
	}
}

// within is an interval in words, "" where it is not known or has no width.
func within(low, high study.Maybe, figure func(float64) string) string {
	if !low.Known || low.Value == high.Value {
		return ""
	}
	return " (" + figure(low.Value) + " to " + figure(high.Value) + ")"
}

// cents is an amount of money, or of minutes, to a hundredth.
func cents(x float64) string { return decimals(x, 2) }

// many is a number of things: "1 step", "12 steps".
func many(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// notDrawn says how many things of a kind there was no room for, and which.
func notDrawn(n int, thing, which string) string {
	are := "are"
	if n == 1 {
		are = "is"
	}
	return many(n, thing) + which + " " + are + " not drawn."
}

// maxNames is how many names are said in a row.
const maxNames = 20

// list is names in a row: "a", "a and b", "a, b and c", "a, b … and 7 more".
func list(names []string) string {
	var shown []string
	for i, n := range names {
		if i == maxNames {
			shown = append(shown, fmt.Sprintf("%d more", len(names)-i))
			break
		}
		shown = append(shown, show(n))
	}
	if len(shown) < 2 {
		return strings.Join(shown, "")
	}
	last := len(shown) - 1
	return strings.Join(shown[:last], ", ") + " and " + shown[last]
}

// quoted is a name in quotation marks.
func quoted(name string) string { return `"` + show(name) + `"` }

// percent is a share.
func percent(share float64) string { return strconv.FormatFloat(100*share, 'g', 4, 64) + " %" }

// countText is a count as a person writes it: whole where it is.
func countText(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
