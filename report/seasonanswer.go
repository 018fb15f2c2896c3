package report

import (
	"fmt"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// SeasonAnswer is a season of the whole place, with another plan beside it and how much
// would fit, where they are asked for.
type SeasonAnswer struct {
	answer.SeasonPlan
	Try  *SeasonTrial   `json:"try,omitempty"`
	Fill *answer.Filled `json:"fill,omitempty"`
}

// SeasonTrial is a plan that is tried, and what it takes and brings beyond the study's own.
type SeasonTrial struct {
	answer.SeasonPlan
	Difference float64     `json:"difference_h"`
	DiffLow    study.Maybe `json:"difference_low_h"`
	DiffHigh   study.Maybe `json:"difference_high_h"`
	MarginMore study.Maybe `json:"margin_difference"`
}

func moneyOf(p answer.SeasonPlan) string {
	if p.Currency != nil {
		return words.Show(*p.Currency)
	}
	return "money"
}

// muchAlike is within what part the steady week and the busiest count as the same.
const muchAlike = 0.005

// weekName is a week by its number and, where the season has dates, its first day.
func weekName(p answer.SeasonPlan, week int) string {
	name := fmt.Sprintf("week %d", week)
	if date := p.Weeks[week].Date; date != nil {
		name += ", from " + *date
	}
	return name
}
