package notation

import (
	"strconv"
	"strings"
	"time"
)

// Order says which of day and month stands first in dates such as 3/4/2026 and 3-4-2026; the
// zero Order is unknown.
type Order int

// The orders that people write.
const (
	DayFirst Order = iota + 1
	MonthFirst
)

// Forms of dates.
const (
	dotted    = "day.month.year"
	dayForm   = "day/month/year"
	monthForm = "month/day/year"
)

// Patterns are the words for an order of dates, and what each says.
var Patterns = map[string]Order{dotted: DayFirst, dayForm: DayFirst, monthForm: MonthFirst}

// Pattern is the word for an order.
func (o Order) Pattern() string {
	if o == MonthFirst {
		return monthForm
	}
	return dayForm
}

// Day reads a date with its year last; false where it is none in this order.
func (o Order) Day(text string) (time.Time, bool) {
	first, second, year, ok := yearLast(text)
	if !ok || o == 0 {
		return time.Time{}, false
	}
	if o == MonthFirst {
		first, second = second, first
	}
	return calendarDay(year, strconv.Itoa(second), strconv.Itoa(first))
}

// OrderShown is the order that a date shows by a number above 12 in one of its places; false
// where it shows none.
func OrderShown(text string) (Order, bool) {
	first, second, _, ok := yearLast(text)
	switch {
	case !ok, first > 12 == (second > 12):
		return 0, false
	case first > 12:
		return DayFirst, true
	}
	return MonthFirst, true
}

// NeedsOrder says whether a text is a date in one order or the other.
func NeedsOrder(text string) bool {
	_, _, _, ok := yearLast(text)
	return ok && len(daysMeant(text)) > 0
}

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
