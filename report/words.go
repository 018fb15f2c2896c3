package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"headhours/timing/study"
)

// unit is a unit of time that answers are given in.
type unit struct {
	one, many string
	perHour   float64
}

var (
	inSeconds = unit{"second", "seconds", 3600}
	inMinutes = unit{"minute", "minutes", 60}
	inHours   = unit{"hour", "hours", 1}
)

// unitFor is the unit in which a person would say so many hours.
func unitFor(hours float64) unit {
	switch h := math.Abs(hours); {
	case h*3600 < 89.5:
		return inSeconds
	case h*60 < 119.5:
		return inMinutes
	default:
		return inHours
	}
}

// decimals is how many decimals a figure deserves that is known to ± half.
func decimals(half float64) int {
	switch {
	case half >= 1.95:
		return 0
	case half >= 0.195:
		return 1
	default:
		return 2
	}
}

// plainDecimals is how many decimals a figure of unknown precision is given.
func plainDecimals(x float64) int {
	switch x := math.Abs(x); {
	case x >= 10:
		return 0
	case x >= 1:
		return 1
	default:
		return 2
	}
}

// maxDecimals is how many decimals a small amount gets at most.
const maxDecimals = 7

// enough is how many decimals, of so many at least, show two digits of each amount below
// a tenth that is not nothing.
func enough(decimals int, amounts ...study.Maybe) int {
	for _, m := range amounts {
		x := math.Abs(m.Value)
		if !m.Known || x == 0 || x >= 0.1 {
			continue
		}
		decimals = max(decimals, min(maxDecimals, 1-int(math.Floor(math.Log10(x)))))
	}
	return decimals
}

// visible is how many decimals, of so many at least, show something of each amount that
// is not nothing.
func visible(decimals int, amounts ...study.Maybe) int {
	most := decimals
	for _, m := range amounts {
		if x := math.Abs(m.Value); x > 1e-7 && x < 0.5*math.Pow10(-decimals) { // less is what rounding leaves of nothing
			most = max(most, enough(decimals, m))
		}
	}
	return most
}

// fixed is a number with so many decimals, never "-0".
func fixed(x float64, decimals int) string {
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// of is a number of units in words: "61 minutes", "1 hour".
func (u unit) of(x float64, decimals int) string {
	text := fixed(x, decimals)
	if text == "1" {
		return "1 " + u.one
	}
	return text + " " + u.many
}

// duration is so many hours in words, of unknown precision.
func duration(hours float64) string {
	u := unitFor(hours)
	x := hours * u.perHour
	if x == 0 {
		return u.of(0, 0)
	}
	return u.of(x, plainDecimals(x))
}

// lopsided is how much longer one arm of an interval may be than the other
// before it is no longer "give or take".
const lopsided = 1.1

// durationWithin is so many hours with what is known of them: "61 minutes, give
// or take 4", "61 minutes (somewhere between 55 and 70)". of, where given,
// follows the figure: "61 minutes a grow, give or take 4".
func durationWithin(hours float64, low, high study.Maybe, of ...string) string {
	suffix := strings.Join(of, " ")
	if suffix != "" {
		suffix = " " + suffix
	}
	if !low.Known {
		return duration(hours) + suffix
	}
	u := unitFor(hours)
	x, l, h := hours*u.perHour, low.Value*u.perHour, high.Value*u.perHour
	d := decimals((h - l) / 2)
	up, down := h-x, x-l
	if h == l {
		return u.of(x, plainDecimals(x)) + suffix
	}
	if l < 0 && x > 0 {
		return fmt.Sprintf("%s%s, on so few readings that it may be anything up to %s", u.of(x, plainDecimals(x)), suffix, fixed(h, d))
	}
	if max(up, down) <= lopsided*min(up, down) {
		half := fixed((h-l)/2, d)
		if half == fixed(0, d) {
			half = "less than 0.01"
		}
		return fmt.Sprintf("%s%s, give or take %s", u.of(x, d), suffix, half)
	}
	return fmt.Sprintf("%s%s (somewhere between %s and %s)", u.of(x, d), suffix, fixed(l, d), fixed(h, d))
}

// alike is two durations in the unit of the larger.
func alike(a, b float64) (string, string) {
	u := unitFor(max(a, b))
	d := decimals(max(a, b) * u.perHour / 2)
	return u.of(a*u.perHour, d), u.of(b*u.perHour, d)
}

// count is a count as a person writes it: whole where it is.
func count(x float64) string {
	switch {
	case math.Abs(x-math.Round(x)) <= 1e-9*math.Abs(x):
		return fixed(x, 0)
	case math.Abs(x) < 10:
		return strings.TrimSuffix(fixed(x, visible(2, study.Known(x))), "0")
	default:
		return fixed(x, 1)
	}
}

// apart is a number to three digits, and to as many more as show that it is not another.
func apart(x, other float64) string {
	digits := 3
	for digits < 7 && x != other && roundTo(x, digits) == roundTo(other, digits) {
		digits++
	}
	return strconv.FormatFloat(roundTo(x, digits), 'f', -1, 64)
}

// headsText is a number of heads that was worked out, not chosen, to two digits.
func headsText(x float64) string {
	if math.Abs(x) < 9.95 {
		return fixed(x, 0)
	}
	return strconv.FormatFloat(roundTo(x, 2), 'f', -1, 64)
}

// heads is such a number in words: "1 head", "92 heads"; of less than one, the first.
func heads(x float64) string {
	if x > 0 {
		x = max(x, 1)
	}
	return numbered(headsText(x), "head")
}

// alternatives is things to choose from: "a", "a or b", "a, b or c".
func alternatives(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

// roundTo rounds to so many significant digits.
func roundTo(x float64, digits int) float64 {
	if x == 0 {
		return 0
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil {
		return x // as large as a number gets
	}
	return rounded
}

// share is a share in percent.
func share(x float64) string { return fixed(100*x, 0) + " %" }

// list is names in a row: "a", "a and b", "a, b and c".
func list(names []string) string {
	shownNames := make([]string, len(names))
	for i, n := range names {
		shownNames[i] = show(n)
	}
	return join(shownNames)
}

// join is texts in a row, as they are.
func join(texts []string) string {
	if len(texts) < 2 {
		return strings.Join(texts, "")
	}
	return strings.Join(texts[:len(texts)-1], ", ") + " and " + texts[len(texts)-1]
}

// quoted is a name in quotation marks.
func quoted(name string) string { return `"` + show(name) + `"` }

// show is a name as people are shown it.
func show(name string) string { return study.Show(name) }

// were is the verb for a list of names.
func were(names []string) string {
	if len(names) == 1 {
		return "was"
	}
	return "were"
}
