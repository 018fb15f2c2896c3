package answer

import "time"

// Rest says which days are off. The zero Rest has none, and counts its first
// day as a Monday.
type Rest struct {
	Start time.Time // the day of the first sowing; zero where not known
	Off   []time.Weekday
}

// Move is work that falls on a day off, and the day it is moved to.
type Move struct {
	From  int      `json:"from_day"`
	To    int      `json:"to_day"`
	Steps []string `json:"steps"`
}

// weekday numbers the weekday of a day from 0, Monday.
func (r Rest) weekday(day int) int {
	first := 0
	if !r.Start.IsZero() {
		first = (int(r.Start.Weekday()) + 6) % 7
	}
	return (first + day) % 7
}

func (r Rest) off(day int) bool {
	for _, w := range r.Off {
		if (int(w)+6)%7 == r.weekday(day) {
			return true
		}
	}
	return false
}

// next is the next working day. There must be one.
func (r Rest) next(day int) int {
	for r.off(day) {
		day++
	}
	return day
}
