package answer

import (
	"errors"

	"headhours/timing/study"
)

// ErrNoSowing says that the study has no sowing to answer for.
var ErrNoSowing = errors.New("the study has no [[sowing]], so there is no season to answer for")

// SeasonPlan is what the whole place takes and gives in a season, in person-hours of
// standard time and the study's currency. What rests on something unknown is unknown.
type SeasonPlan struct {
	Start      *string        `json:"start"` // nil where days are only numbered
	Days       int            `json:"days"`
	Currency   *string        `json:"currency"`
	Confidence float64        `json:"confidence"`
	Common     Common         `json:"common"`
	Earn       study.Maybe    `json:"earn"` // what an own hour is to earn
	Sowings    []SownInAll    `json:"sowings"`
	Weeks      []SeasonWeek   `json:"weeks"`
	Steps      []SeasonStep   `json:"steps"`
	Changes    []SeasonSaving `json:"changes"`
	Hours      float64        `json:"hours_h"`
	Low        study.Maybe    `json:"low_h"`
	High       study.Maybe    `json:"high_h"`
	DF         study.Maybe    `json:"df"`
	Own        float64        `json:"own_h"`
	Hired      float64        `json:"hired_h"`
	Busiest    BusiestWeek    `json:"busiest_week"`
	Longest    LongestDay     `json:"longest_day"`
	Heads      float64        `json:"heads"`
	Kg         study.Maybe    `json:"kg"`
	SeasonMoney
	PeakM2  float64  `json:"space_peak_m2"`
	PeakDay *int     `json:"space_peak_day"` // nil where nothing is in use
	Over    *[]int   `json:"space_over"`     // nil where the study does not say how much there is
	Gaps    []string `json:"gaps"`
	Notes   []string `json:"notes"`

	M2       study.Maybe   `json:"-"` // what there is
	OwnWeek  study.Maybe   `json:"-"` // own hours of a week
	Steady   SteadyWeeks   `json:"-"`
	Calendar []CalendarDay `json:"-"` // days with work
	ByCrop   []CropWeeks   `json:"-"`
	loads    linear
}

// SteadyWeeks are the hours of a week in the part of a season that goes on alike: on average,
// and of the week that takes least and the one that takes most. Unknown where no week is of it.
type SteadyWeeks struct{ Mean, Least, Most study.Maybe }

// SownInAll is what all grows of one sowing come to.
type SownInAll struct {
	Workflow    string      `json:"workflow"`
	Crop        *string     `json:"crop"`
	Heads       float64     `json:"heads"` // harvested within the season
	Cells       float64     `json:"cells"`
	EveryDays   *int        `json:"every_days"` // nil for once
	FirstDay    int         `json:"first_day"`
	LastDay     int         `json:"last_day"`
	Grows       int         `json:"grows"`
	CutShort    int         `json:"cut_short"`
	Hours       float64     `json:"hours_h"`
	Share       study.Maybe `json:"share"`
	Unit        string      `json:"unit"`
	Units       study.Maybe `json:"units"`
	Sold        study.Maybe `json:"sold"`
	Kg          study.Maybe `json:"kg"`
	Revenue     study.Maybe `json:"revenue"`
	Supplies    float64     `json:"supplies"`
	Space       float64     `json:"space"`
	PriceNeeded study.Maybe `json:"price_needed"`
	Price       study.Maybe `json:"-"` // of a unit, as the study has it
}

// SeasonWeek is one week of a season.
type SeasonWeek struct {
	Week    int         `json:"week"`
	Date    *string     `json:"date"`
	Hours   float64     `json:"hours_h"`
	Low     study.Maybe `json:"low_h"`
	High    study.Maybe `json:"high_h"`
	Own     float64     `json:"own_h"`
	Hired   float64     `json:"hired_h"`
	Heads   float64     `json:"heads"`
	Kg      study.Maybe `json:"kg"`
	Revenue study.Maybe `json:"revenue"`
}

// SeasonStep is one step's part of a season, chores in it.
type SeasonStep struct {
	Step   string      `json:"step"`
	Setups float64     `json:"setups"`
	Count  float64     `json:"count"`
	Hours  study.Maybe `json:"hours_h"`
	Share  study.Maybe `json:"share"`
}

// SeasonSaving is what a change would save in the season.
type SeasonSaving struct {
	Name    string      `json:"name"`
	Saved   study.Maybe `json:"saved_h"`
	Low     study.Maybe `json:"low_h"`
	High    study.Maybe `json:"high_h"`
	Payback study.Maybe `json:"payback_days"`
	Hygiene bool        `json:"-"`
	// Open are its steps whose setup and unit time cannot be told apart, and how they could be.
	Open []TimeAdvice `json:"-"`
}

// BusiestWeek is the first of the weeks with the most hours.
type BusiestWeek struct {
	Week  int     `json:"week"`
	Hours float64 `json:"hours_h"`
}

// LongestDay is the first of the days with the most hours.
type LongestDay struct {
	Day   int     `json:"day"`
	Date  *string `json:"date"`
	Hours float64 `json:"hours_h"`
}

// CropWeeks is a crop's hours week by week; chores are one of their own, named "chores".
type CropWeeks struct {
	Crop  string
	Hours []float64
}

// SeasonMoney is a season's money, in the study's currency.
type SeasonMoney struct {
	Revenue        study.Maybe `json:"revenue"`
	Supplies       float64     `json:"supplies"`
	SpaceCost      float64     `json:"space"`
	Overhead       float64     `json:"overhead"`
	HiredCost      float64     `json:"hired"`
	Margin         study.Maybe `json:"margin"`
	MarginLow      study.Maybe `json:"margin_low"`
	MarginHigh     study.Maybe `json:"margin_high"`
	PerOwnHour     study.Maybe `json:"per_own_hour"`
	PerOwnHourLow  study.Maybe `json:"per_own_hour_low"`
	PerOwnHourHigh study.Maybe `json:"per_own_hour_high"`
	PriceFactor    study.Maybe `json:"price_factor"`
}

// alikeHours is within what part two hours count as the same.
const alikeHours = 1e-9

// split tells the hours of a week that are one's own from those that are hired.
func (p *SeasonPlan) split(hours float64) (own, hired float64) {
	if p.OwnWeek.Known {
		hired = max(0, hours-p.OwnWeek.Value)
	}
	return hours - hired, hired
}
