package condense

import (
	"math"
	"slices"
	"time"
)

// Day counts days from 1970-01-01.
type Day int32

// NoDay is the Day of a reading whose date was not noted.
const NoDay Day = math.MinInt32

const secondsADay = 24 * 3600

// DayOf is the day of a date at midnight UTC, NoDay of the zero time.
func DayOf(date time.Time) Day {
	if date.IsZero() {
		return NoDay
	}
	return Day(date.Unix() / secondsADay)
}

// Date is midnight UTC of the day, the zero time of NoDay.
func (d Day) Date() time.Time {
	if d == NoDay {
		return time.Time{}
	}
	return time.Unix(int64(d)*secondsADay, 0).UTC()
}

// daysPast is how many of some days, in order, are past on a day, itself among them; none
// without one.
func daysPast(days []Day, day Day) int {
	if day == NoDay {
		return 0
	}
	n, found := slices.BinarySearch(days, day)
	if found {
		n++
	}
	return n
}
