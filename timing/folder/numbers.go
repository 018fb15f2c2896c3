package folder

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

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
	all := make([]string, len(limits))
	for i, l := range limits {
		all[i] = l.words
	}
	return strings.TrimSpace(kind + " " + words.And(all))
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

// number reads a number, whole or not, up to study.MaxNumber.
func number(to *float64, limits ...limit) keyReader {
	return func(d *decoder, f field) {
		switch x, ok := f.value.decimal(); {
		case !ok || !within(x, limits):
			d.want(f, worded("a number", limits))
		case x > study.MaxNumber:
			d.tooMuch(f)
		default:
			*to = x
		}
	}
}

// tooMuch refuses a number above study.MaxNumber.
func (d *decoder) tooMuch(f field) {
	d.problem(f.value.at, "%s: found %s, more than any farm has, want at most %s", f.name, f.value.describe(), words.InFull(study.MaxNumber))
}

// divides refuses a number above 0 that is too small to divide others by, and leaves
// the rest to read.
func divides(read keyReader) keyReader {
	return func(d *decoder, f field) {
		if x, ok := f.value.decimal(); ok && 0 < x && x < study.MinDivisor {
			d.problem(f.value.at, "%s: found %s, as good as 0, want at least %s", f.name, f.value.describe(), words.InFull(study.MinDivisor))
			return
		}
		read(d, f)
	}
}

// maybe reads a number that is unknown where it is left out.
func maybe(to *study.Maybe, limits ...limit) keyReader {
	return func(d *decoder, f field) {
		x := math.NaN()
		number(&x, limits...)(d, f)
		*to = study.Known(x)
	}
}

// maxWhole is the largest whole number a study may hold; sums and products of
// days and counts then stay far from overflow.
const maxWhole = 1_000_000_000

// whole reads a whole number.
func whole(to *int, limits ...limit) keyReader {
	return func(d *decoder, f field) {
		switch i, ok := f.value.whole(); {
		case !ok || !within(float64(i), limits):
			d.want(f, worded("a whole number", limits))
		case i > maxWhole:
			d.want(f, fmt.Sprintf("a whole number up to %d", maxWhole))
		default:
			*to = int(i)
		}
	}
}

// wholeOrNil reads a whole number that is nil where it is left out.
func wholeOrNil(to **int, limits ...limit) keyReader {
	return func(d *decoder, f field) {
		n, before := 0, len(d.problems)
		if whole(&n, limits...)(d, f); len(d.problems) == before {
			*to = &n
		}
	}
}

// atMostOf refuses a number of a table that is above another of it.
func (d *decoder) atMostOf(n *node, key string, x study.Maybe, otherKey string, other study.Maybe) {
	if !x.Known || !other.Known || x.Value <= other.Value {
		return
	}
	f, _ := n.get(key)
	o, _ := n.get(otherKey)
	d.want(f, fmt.Sprintf("no more than %s, %s", otherKey, o.value.describe()))
}

// lastDay is the last day that a task, a loss or space may have: ten years from
// sowing, so that a mistyped day does not make a calendar without end.
const lastDay = 3660

func dayNumber(to *int) keyReader { return whole(to, atLeast(0), atMost(lastDay)) }
