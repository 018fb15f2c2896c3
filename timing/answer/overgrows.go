package answer

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// FitsOverGrows is the time model of each step, and its times grow by grow.
type FitsOverGrows struct {
	Fits
	OverGrows []StepOverGrows `json:"over_grows"`
}

// StepOverGrows is what a step took in each grow, in basic person-seconds for the
// mean setups and count of all its readings, in order of the grows' first dates.
// The rate is the time after twice as many grows as a share of that before, by a
// learning curve through the grows that have a date; it is unknown with fewer than
// three. It tells of these grows and of none to come.
type StepOverGrows struct {
	Step     string      `json:"step"`
	Setups   float64     `json:"setups"`
	Count    float64     `json:"count"`
	Grows    []GrowTime  `json:"grows"`
	Rate     study.Maybe `json:"rate"`
	RateLow  study.Maybe `json:"rate_low"`
	RateHigh study.Maybe `json:"rate_high"`
	P        study.Maybe `json:"p"` // two-sided, of a rate of 1
	Trend    Trend       `json:"trend"`
	Notes    []string    `json:"notes"`
}

// GrowTime is what a step took in one grow.
type GrowTime struct {
	Grow     string      `json:"grow"`
	Date     time.Time   `json:"-"` // of its first reading of any step; zero where none has a date
	Readings int         `json:"readings"`
	Seconds  study.Maybe `json:"time_s"` // unknown where the model has no time for its readings
}

// MarshalJSON writes the date as a day, or null.
func (g GrowTime) MarshalJSON() ([]byte, error) {
	type plain GrowTime
	dated := struct {
		plain
		Date *string `json:"date"`
	}{plain: plain(g)}
	if !g.Date.IsZero() {
		day := g.Date.Format(time.DateOnly)
		dated.Date = &day
	}
	return json.Marshal(dated)
}

// Trend says which way times go over the grows, where that is clear of chance.
type Trend string

// The trends.
const (
	falling Trend = "falling"
	rising  Trend = "rising"
	NoTrend Trend = "not clear"
)

// FitsOverGrows gives the models of the steps that the named workflows use with
// their times over the grows. The errors are those of Fits.
func (m *Models) FitsOverGrows(names []string) (FitsOverGrows, error) {
	fits, err := m.Fits(names)
	if err != nil {
		return FitsOverGrows{}, err
	}
	all, firstDays := FitsOverGrows{Fits: fits, OverGrows: []StepOverGrows{}}, m.growDays()
	for _, fit := range fits.Steps {
		if s := m.Steps[m.Index[fit.Step]]; s.Readings > 0 {
			all.OverGrows = append(all.OverGrows, m.overGrows(s, firstDays))
		}
	}
	return all, nil
}

func (m *Models) overGrows(s StepModel, began map[string]condense.Day) StepOverGrows {
	over := StepOverGrows{
		Step: s.Step.Name, Setups: s.Sums.Mean().Setups, Count: s.Sums.Mean().Count,
		Grows: []GrowTime{}, Trend: NoTrend, Notes: []string{},
	}
	if s.Kinds.Joined {
		over.Notes = append(over.Notes, "too many grows to tell them apart")
		return over
	}
	grows, tallies := s.Kinds.Tallies(byGrow.nameIn)
	undated := 0
	for i, grow := range grows {
		if grow == "" {
			over.Notes = append(over.Notes, fmt.Sprintf("%d of %d readings name no grow and are left out", tallies[i].Readings, s.Readings))
			continue
		}
		g := GrowTime{Grow: grow, Date: began[grow].Date(), Readings: tallies[i].Readings, Seconds: s.atMean(tallies[i])}
		over.Grows = append(over.Grows, g)
		if g.Date.IsZero() {
			undated++
		}
	}
	if undated > 0 {
		over.Notes = append(over.Notes, fmt.Sprintf("%d of %d grows have no date, so they have no place in the order", undated, len(over.Grows)))
	}
	slices.SortFunc(over.Grows, func(a, b GrowTime) int {
		return cmp.Or(b2i(a.Date.IsZero())-b2i(b.Date.IsZero()), a.Date.Compare(b.Date), strings.Compare(a.Grow, b.Grow))
	})
	over.learn(len(over.Grows)-undated, m.Confidence)
	return over
}

// learn fits a learning curve to the first grows, which have a date.
func (o *StepOverGrows) learn(dated int, confidence float64) {
	var numbers, times []float64
	for i, g := range o.Grows[:dated] {
		if g.Seconds.Known {
			numbers, times = append(numbers, float64(i+1)), append(times, g.Seconds.Value)
		}
	}
	curve, ok := stepfit.Learn(numbers, times)
	if !ok {
		return
	}
	rate, low, high := curve.Rate(confidence)
	o.Rate, o.RateLow, o.RateHigh, o.P = study.Known(rate), study.Known(low), study.Known(high), study.Known(curve.P())
	switch {
	case o.RateHigh.Known && high < 1:
		o.Trend = falling
	case low > 1:
		o.Trend = rising
	}
}

// growDays are the days of the grows' first readings of any step, NoDay of those without a
// date.
func (m *Models) growDays() map[string]condense.Day {
	firstDays := map[string]condense.Day{}
	for _, s := range m.Steps {
		for what, k := range s.Kinds.All() {
			day, ok := firstDays[what.Grow]
			if !ok || day == condense.NoDay || k.First != condense.NoDay && k.First < day {
				firstDays[what.Grow] = k.First
			}
		}
	}
	return firstDays
}
