package answer

import "headhours/timing/study"

// Calendar is which day takes how many hours, for one grow or for one sown every
// few days.
type Calendar struct {
	Workflow     string        `json:"workflow"`
	Heads        int           `json:"heads"`
	EveryDays    *int          `json:"every_days"` // nil for one grow
	Days         []CalendarDay `json:"days"`
	SteadyWeek   study.Maybe   `json:"steady_week_h"`
	PeakDay      study.Maybe   `json:"peak_day_h"`
	HeadsPerWeek study.Maybe   `json:"heads_per_week"`
	Gaps         []string      `json:"gaps"`
	Notes        []string      `json:"notes"`
	LastDay      int           `json:"-"` // the day of a grow's last task
	Moved        []Move        `json:"moved,omitempty"`
	Weekdays     []float64     `json:"weekday_hours_h,omitempty"` // of a steady week, Monday first
	WeekSteps    []WeekStep    `json:"-"`                         // the same hours by step
	StartUp      []float64     `json:"-"`                         // hours of the weeks before the steady ones
	Gives        Harvest       `json:"-"`                         // each grow
}

// WeekStep is the hours of a step by weekday of a steady week, Monday first.
type WeekStep struct {
	Step  string
	Hours []float64
}

// CalendarDay is a day with work on it, counted from the first sowing.
type CalendarDay struct {
	Day   int           `json:"day"`
	Hours float64       `json:"hours_h"`
	Tasks []CalendarJob `json:"tasks"`
}

// CalendarJob is all that is to do of a step on a day; hours are unknown for a
// gap.
type CalendarJob struct {
	Step  string      `json:"step"`
	Count float64     `json:"count"`
	Hours study.Maybe `json:"hours_h"`
}

// Schedule says what a calendar is for.
type Schedule struct {
	Workflow string // "" is the study's first
	Heads    int
	Every    *int // days between sowings; 0 for one grow; nil leaves it to the study
	Rest     Rest
}
