package tasklog

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"headhours/timing/study"
	"headhours/timing/words"
)

// DateOrder is the order of day and month in dates such as 3/4/2026 and 3-4-2026.
type DateOrder struct {
	Order Order
	Shown string      // the date that shows it, "" where it was said
	At    study.Place // of that
}

// Order says which of day and month stands first; the zero Order is unknown.
type Order int

// The orders that people write.
const (
	dayFirst Order = iota + 1
	monthFirst
)

// Forms of dates, as a study file names them.
const (
	dotted     = "day.month.year"
	dayForm    = "day/month/year"
	monthForm  = "month/day/year"
	writeOrder = `write in study.toml, under [log]: dates = "` + dayForm + `" or dates = "` + monthForm + `"`
)

// Pattern is the word for an order of dates.
func (o DateOrder) Pattern() string {
	if o.Order == monthFirst {
		return monthForm
	}
	return dayForm
}

// DatePatterns are the words for an order of dates, and what each says.
var DatePatterns = map[string]Order{dotted: dayFirst, dayForm: dayFirst, monthForm: monthFirst}

// yearLast are the two numbers in front of a year of four digits, between strokes or
// hyphens; false of any other text.
func yearLast(text string) (first, second int, year string, ok bool) {
	mark := strings.IndexAny(text, "/-")
	if mark < 1 || len(text) > len("DD/MM/YYYY") {
		return 0, 0, "", false
	}
	pieces := strings.Split(text, text[mark:mark+1])
	if len(pieces) != 3 || len(pieces[2]) != 4 || len(pieces[0]) > 2 || len(pieces[1]) > 2 {
		return 0, 0, "", false
	}
	numbers := [3]int{}
	for i, figure := range pieces {
		n, err := strconv.ParseUint(figure, 10, 16)
		if err != nil {
			return 0, 0, "", false
		}
		numbers[i] = int(n)
	}
	return numbers[0], numbers[1], pieces[2], true
}

// orderOf is the order that a date shows by a number above 12 in one of its places; false
// where it shows none.
func orderOf(text string) (Order, bool) {
	first, second, _, ok := yearLast(text)
	switch {
	case !ok, first > 12 == (second > 12):
		return 0, false
	case first > 12:
		return dayFirst, true
	}
	return monthFirst, true
}

// day reads a date with its year last; false where it is none in this order.
func (o DateOrder) day(text string) (time.Time, bool) {
	first, second, year, ok := yearLast(text)
	if !ok || o.Order == 0 {
		return time.Time{}, false
	}
	if o.Order == monthFirst {
		first, second = second, first
	}
	return calendarDay(year, strconv.Itoa(second), strconv.Itoa(first))
}

// note says how the dates of a log are read, where its own dates show it.
func (o DateOrder) note() string {
	way := "day first"
	if o.Order == monthFirst {
		way = "month first"
	}
	return fmt.Sprintf("dates are read %s, as %s in line %d shows", way, words.Quote(o.Shown), o.At.Line)
}

// noOrder is the key of dates whose order of day and month is not known.
const noOrder = "order"
