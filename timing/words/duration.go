package words

import (
	"fmt"
	"math"
	"strings"
)

// Unit is a unit of time that answers are given in.
type Unit struct {
	one     string
	PerHour float64 // how many are in an hour
}

var (
	inSeconds = Unit{"second", 3600}
	inMinutes = Unit{"minute", 60}
	inHours   = Unit{"hour", 1}
)

// UnitFor is the unit in which a person would say so many hours.
func UnitFor(hours float64) Unit {
	switch h := math.Abs(hours); {
	case h*3600 < 89.5:
		return inSeconds
	case h*60 < 119.5:
		return inMinutes
	default:
		return inHours
	}
}

// Name is the unit for more than one: "minutes".
func (u Unit) Name() string { return Plural(u.one) }

// Of is a number of units in words: "61 minutes", "1 hour".
func (u Unit) Of(x float64, decimals int) string { return Numbered(Fixed(x, decimals), u.one) }

// Duration is so many hours in words, of unknown precision.
func Duration(hours float64) string {
	u := UnitFor(hours)
	x := hours * u.PerHour
	if x == 0 {
		return u.Of(0, 0)
	}
	return u.Of(x, PlainDecimals(x))
}

// lopsided is how much longer one arm of an interval may be than the other
// before it is no longer "give or take".
const lopsided = 1.1

// DurationWithin is so many hours with what is known of them: "61 minutes, give
// or take 4", "61 minutes (somewhere between 55 and 70)". of, where given,
// follows the figure: "61 minutes a grow, give or take 4".
func DurationWithin(hours, low, high float64, of ...string) string {
	suffix := strings.Join(append([]string{""}, of...), " ")
	u := UnitFor(hours)
	x, l, h := hours*u.PerHour, low*u.PerHour, high*u.PerHour
	d := Decimals((h - l) / 2)
	up, down := h-x, x-l
	if h == l {
		return u.Of(x, PlainDecimals(x)) + suffix
	}
	if l < 0 && x > 0 {
		return fmt.Sprintf("%s%s, on so few readings that it may be anything up to %s", u.Of(x, PlainDecimals(x)), suffix, Fixed(h, d))
	}
	if max(up, down) <= lopsided*min(up, down) && (x < 0 || up+down <= 2*x) {
		for d < 4 && l > 0 && Fixed((h-l)/2, d) == Fixed(x, d) { // it does not reach nothing
			d++
		}
		half := Fixed((h-l)/2, d)
		if half == Fixed(0, d) {
			half = "less than 0.01"
		}
		return fmt.Sprintf("%s%s, give or take %s", u.Of(x, d), suffix, half)
	}
	if x > 0 && Fixed(l, d) == Fixed(0, d) { // a time is never less: its limit was cut off there
		return fmt.Sprintf("%s%s (anything up to %s)", u.Of(x, d), suffix, Fixed(h, d))
	}
	return fmt.Sprintf("%s%s (somewhere between %s and %s)", u.Of(x, d), suffix, Fixed(l, d), Fixed(h, d))
}

// Alike is two durations, in hours, in the unit of the larger.
func Alike(a, b float64) (string, string) {
	u := UnitFor(max(a, b))
	d := Decimals(max(a, b) * u.PerHour / 2)
	return u.Of(a*u.PerHour, d), u.Of(b*u.PerHour, d)
}
