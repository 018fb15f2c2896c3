package study

import "time"

// Overhead is a cost that comes whatever is grown.
type Overhead struct {
	Name    string
	PerYear float64 // in the study's currency
}

// Season is the stretch of days that the whole place is answered for.
type Season struct {
	Start time.Time // zero where days are only numbered
	Days  int       // a multiple of 7; 0 is defaultSeason
}

// defaultSeason is how many days a season has where the study does not say.
const defaultSeason = 364

// Length is how many days the season has.
func (s Season) Length() int {
	if s.Days == 0 {
		return defaultSeason
	}
	return s.Days
}

// Date is the date of a day of the season, or nil where days are only numbered.
func (s Season) Date(day int) *string {
	if s.Start.IsZero() {
		return nil
	}
	date := s.Start.AddDate(0, 0, day).Format(time.DateOnly)
	return &date
}

// Sowing is grows of one workflow that are sown one after another.
type Sowing struct {
	Workflow     string
	Heads, Cells Maybe // of one grow: one of the two
	EveryDays    int   // 0: once
	From         int   // day of the season
	Until        *int  // the last day on which it may be sown, included; nil: the season's last
}

// last is the last day on which a grow may be sown.
func (s Sowing) last(days int) int {
	if s.Until == nil {
		return days - 1
	}
	return min(*s.Until, days-1)
}

// Starts are the days on which grows are sown in a season of so many days.
func (s Sowing) Starts(days int) []int {
	starts := []int{s.From}
	if s.EveryDays == 0 {
		return starts
	}
	for day := s.From + s.EveryDays; day <= s.last(days); day += s.EveryDays {
		starts = append(starts, day)
	}
	return starts
}
