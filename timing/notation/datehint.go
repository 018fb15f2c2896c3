package notation

import (
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"headhours/timing/late"
	"headhours/timing/words"
)

// WrongDate says what is wrong with a text that is no date, to be written behind it. It
// ends with how to write that day, or the two days that can be meant, else with the
// pattern.
func WrongDate(text string) string {
	var ways []string
	for _, day := range daysMeant(text) {
		ways = append(ways, day.Format(time.DateOnly))
	}
	if len(ways) == 1 || len(ways) == 2 {
		return "is not a date of the form YYYY-MM-DD: write " + words.Or(ways)
	}
	return "is not a date: YYYY-MM-DD, a day of the calendar"
}

var (
	timeOfDay = late.Regexp(`^(.+\d)[T\s]\s*\d{1,2}:\d\d\S*$`)
	inNumbers = late.Regexp(`^(\d{1,4})([./-])\s?(\d{1,2})([./-])\s?(\d{1,4})\.?$`)
)

// daysMeant are the days that a text can mean: one where a month's name, a year of
// four digits in front or a day above 12 tells.
func daysMeant(text string) []time.Time {
	if len(text) > maxHint {
		return nil
	}
	if parts := timeOfDay().FindStringSubmatch(text); parts != nil {
		text = parts[1]
	}
	if parts := inNumbers().FindStringSubmatch(text); parts != nil && parts[2] == parts[4] {
		if day, ok := calendarDay(parts[5], parts[3], parts[1]); ok && parts[2] == "." {
			return []time.Time{day} // with points it is day first wherever it is written
		}
		return daysOf(parts[1], parts[3], parts[5])
	}
	if day, ok := namedDay(text); ok {
		return []time.Time{day}
	}
	return nil
}

// daysOf are the days of the calendar among the orders in which people write three
// numbers, those with the day in front first.
func daysOf(first, second, third string) []time.Time {
	var found []time.Time
	for _, order := range [][3]string{{third, second, first}, {third, first, second}, {first, second, third}} {
		day, ok := calendarDay(order[0], order[1], order[2])
		if ok && !slices.ContainsFunc(found, day.Equal) {
			found = append(found, day)
		}
	}
	return found
}

// namedDay reads a day whose month is named, in English: 3 Apr 2026, 3-Apr-26,
// April 3rd, 2026.
func namedDay(text string) (time.Time, bool) {
	words := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(".,/-", r) })
	if len(words) != 3 {
		return time.Time{}, false
	}
	day, name := words[0], words[1]
	if monthNamed(name) == 0 {
		day, name = name, day
	}
	for _, ending := range []string{"st", "nd", "rd", "th"} {
		day = strings.TrimSuffix(day, ending)
	}
	if len(words[2]) > 2 && len(words[2]) != 4 || len(day) > 2 {
		return time.Time{}, false
	}
	return calendarDay(words[2], strconv.Itoa(int(monthNamed(name))), day)
}

// monthNamed is the month of an English name or its first letters, three or more;
// 0 where it is none.
func monthNamed(name string) time.Month {
	for month := time.January; month <= time.December; month++ {
		full := month.String()
		if len(name) >= 3 && len(name) <= len(full) && strings.EqualFold(name, full[:len(name)]) {
			return month
		}
	}
	return 0
}

// maxHint is how many bytes a text may have that its writer is helped with.
const maxHint = 40
