package notation

import (
	"strings"
	"time"
)

// Date reads the forms of a date that can mean one day only: YYYY-MM-DD, YYYY/MM/DD
// and D.M.YYYY, which is written day first wherever it is written; false of any other.
func Date(text string) (time.Time, bool) {
	if len(text) > len("YYYY-MM-DD") {
		return time.Time{}, false
	}
	day, err := time.Parse(time.DateOnly, text)
	if err == nil {
		return day, !day.IsZero() // the zero time means that no date was noted
	}
	if parts := strings.Split(text, "."); len(parts) == 3 && len(parts[2]) == 4 {
		return calendarDay(parts[2], parts[1], parts[0])
	}
	if day, err = time.Parse("2006/01/02", text); err == nil {
		return day, !day.IsZero()
	}
	return time.Time{}, false
}

// calendarDay is a day of the calendar of a year of four digits, or of two since
// 2000.
func calendarDay(year, month, day string) (time.Time, bool) {
	if len(year) == 2 {
		year = "20" + year
	}
	d, err := time.Parse("2006-1-2", year+"-"+strings.TrimPrefix(month, "0")+"-"+strings.TrimPrefix(day, "0"))
	return d, err == nil && !d.IsZero()
}
