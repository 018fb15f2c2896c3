package folder

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"headhours/timing"
	"headhours/timing/tasklog"
)

// want says that a value is not what its key wants.
func (d *decoder) want(f field, what string) {
	d.problem(f.value.at, "%s: found %s, want %s", f.name, f.value.describe(), what)
}

// longest is how many characters of a text a problem shows.
const longest = 60

// describe is a value in few words.
func (n *node) describe() string {
	switch {
	case n.kind == aTable:
		return "a table"
	case n.kind == aList && len(n.items) == 0:
		return "an empty list"
	case n.kind == aList:
		return "a list"
	case n.kind != aText:
		return n.text
	}
	if r := []rune(n.text); len(r) > longest {
		return fmt.Sprintf("%q", string(r[:longest])+"…")
	}
	return fmt.Sprintf("%q", n.text)
}

// limit is a bound on a number, and the words for it.
type limit struct {
	ok    func(x float64) bool
	words string
}

func above(a float64) limit {
	return limit{func(x float64) bool { return x > a }, fmt.Sprintf("above %v", a)}
}

func atLeast(a float64) limit {
	return limit{func(x float64) bool { return x >= a }, fmt.Sprintf("of %v or more", a)}
}

func below(a float64) limit {
	return limit{func(x float64) bool { return x < a }, fmt.Sprintf("below %v", a)}
}

func atMost(a float64) limit {
	return limit{func(x float64) bool { return x <= a }, fmt.Sprintf("up to %v", a)}
}

// within says whether a number keeps to the limits.
func within(x float64, limits []limit) bool {
	return !slices.ContainsFunc(limits, func(l limit) bool { return !l.ok(x) })
}

// worded is a kind of number with the words of its limits.
func worded(kind string, limits []limit) string {
	words := make([]string, len(limits))
	for i, l := range limits {
		words[i] = l.words
	}
	return strings.TrimSpace(kind + " " + strings.Join(words, " and "))
}

// decimal is the value of a number, whole ones too; false for all else, for
// infinity and for what is not a number.
func (n *node) decimal() (float64, bool) {
	switch n.kind {
	case aWhole:
		i, ok := n.whole()
		return float64(i), ok
	case aDecimal:
		x, err := strconv.ParseFloat(strings.ReplaceAll(n.text, "_", ""), 64)
		return x, err == nil && !math.IsInf(x, 0) && !math.IsNaN(x)
	}
	return 0, false
}

// whole is the value of a whole number; false for all else.
func (n *node) whole() (int64, bool) {
	if n.kind != aWhole {
		return 0, false
	}
	i, err := strconv.ParseInt(n.text, 0, 64) // base 0 reads 0x, 0o, 0b and _ as TOML does
	return i, err == nil
}

// number reads a number, whole or not.
func number(to *float64, limits ...limit) reader {
	return func(d *decoder, f field) {
		x, ok := f.value.decimal()
		if !ok || !within(x, limits) {
			d.want(f, worded("a number", limits))
			return
		}
		*to = x
	}
}

// maybe reads a number that is unknown where it is left out.
func maybe(to *timing.Maybe, limits ...limit) reader {
	return func(d *decoder, f field) {
		x := math.NaN()
		number(&x, limits...)(d, f)
		*to = timing.Known(x)
	}
}

// mostWhole is the largest whole number a study may hold; sums and products of
// days and counts then stay far from overflow.
const mostWhole = 1_000_000_000

// whole reads a whole number.
func whole(to *int, limits ...limit) reader {
	return func(d *decoder, f field) {
		switch i, ok := f.value.whole(); {
		case !ok || !within(float64(i), limits):
			d.want(f, worded("a whole number", limits))
		case i > mostWhole:
			d.want(f, fmt.Sprintf("a whole number up to %d", mostWhole))
		default:
			*to = int(i)
		}
	}
}

// wholeOrNil reads a whole number that is nil where it is left out.
func wholeOrNil(to **int, limits ...limit) reader {
	return func(d *decoder, f field) {
		n, before := 0, len(d.problems)
		if whole(&n, limits...)(d, f); len(d.problems) == before {
			*to = &n
		}
	}
}

// seconds reads a time: a text as in a task log, or a number of seconds.
func seconds(to *timing.Maybe) reader {
	return func(d *decoder, f field) {
		if f.value.kind != aText {
			maybe(to, atLeast(0))(d, f)
			return
		}
		s, doubtful, err := tasklog.ParseTime(strings.TrimSpace(f.value.text), false)
		if err != nil {
			d.problem(f.value.at, "%s: %v", f.name, err)
			return
		}
		if doubtful {
			d.warn(f.value.at, "%s: %q is read as seconds, write it as m:ss or with min if minutes were meant", f.name, f.value.text)
		}
		*to = timing.Known(s)
	}
}

// atMostOf refuses a number of a table that is above another of it.
func (d *decoder) atMostOf(n *node, key string, x timing.Maybe, otherKey string, other timing.Maybe) {
	if !x.Known || !other.Known || x.Value <= other.Value {
		return
	}
	f, _ := n.get(key)
	o, _ := n.get(otherKey)
	d.want(f, fmt.Sprintf("no more than %s, %s", otherKey, o.value.describe()))
}

// yesNo reads true or false.
func yesNo(to *bool) reader {
	return func(d *decoder, f field) {
		if f.value.kind != aBool {
			d.want(f, "true or false")
			return
		}
		*to = f.value.text == "true"
	}
}

// text reads free text.
func text(to *string) reader {
	return func(d *decoder, f field) {
		if f.value.kind != aText {
			d.want(f, "a text in quotes")
			return
		}
		*to = f.value.text
	}
}

// line reads a text of one line, blanks around it taken off.
func line(to *string) reader {
	return func(d *decoder, f field) {
		if strings.ContainsFunc(f.value.text, unicode.IsControl) {
			d.want(f, "a text of one line without control characters")
			return
		}
		text(to)(d, f)
		*to = strings.TrimSpace(*to)
	}
}

// oneOf reads one of some words.
func oneOf[T ~string](to *T, words []T) reader {
	return func(d *decoder, f field) {
		if f.value.kind == aText && slices.Contains(words, T(f.value.text)) {
			*to = T(f.value.text)
			return
		}
		known := make([]string, len(words))
		for i, w := range words {
			known[i] = string(w)
		}
		if f.value.kind != aText {
			d.want(f, "one of "+strings.Join(known, ", "))
			return
		}
		d.problem(f.value.at, "%s: unknown word %s: %s", f.name, f.value.describe(), meant(f.value.text, known))
	}
}
