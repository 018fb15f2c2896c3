package report

import (
	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"
)

// Whole is every answer of a study, for the whole report. Its JSON holds the
// answers as their own commands give them.
type Whole struct {
	Study      string                   `json:"study"`
	Heads      int                      `json:"heads"`
	Quickest   string                   `json:"quickest"` // the least hours, as far as is known
	Compare    answer.Comparison        `json:"compare"`
	Scale      answer.Scale             `json:"scale"`
	Cost       answer.Costs             `json:"cost"`
	Workflows  []WorkflowAnswers        `json:"workflows"`
	Season     *answer.SeasonPlan       `json:"season,omitempty"` // nil without a sowing
	Fit        answer.Fits              `json:"fit"`
	Measured   answer.Measured          `json:"measured"`
	Grows      []answer.GrowCheck       `json:"grows"`
	Voided     []condense.VoidedReading `json:"voided"`
	Warnings   study.Problems           `json:"warnings"`
	Settings   []Setting                `json:"settings"`
	Files      []SourceFile             `json:"files"`
	Notes      []string                 `json:"notes"`
	Curves     []answer.Curve           `json:"-"`
	Growth     answer.Scale             `json:"-"` // close together, for a figure
	LastDay    condense.Day             `json:"-"` // of the latest reading
	Factors    []answer.GrowFactor      `json:"-"` // of all grows
	ByDates    []answer.ByDate          `json:"-"` // steps that were changed
	Definition study.Study              `json:"-"`
	Readings   int                      `json:"-"` // that count, after the filter
	Cautions   []string                 `json:"-"` // to be said before all else
}

// WorkflowAnswers is the answers that are for one way of working.
type WorkflowAnswers struct {
	Workflow    string                `json:"workflow"`
	Improve     answer.Improvement    `json:"improve"`
	Seeding     answer.Seeding        `json:"seeding"`
	Grow        DatedCalendar         `json:"calendar"`    // one grow, day by day
	Steady      *DatedCalendar        `json:"steady"`      // nil where grows are not sown regularly
	Sensitivity *answer.Sensitivity   `json:"sensitivity"` // nil without a wage
	Curves      []answer.SeedingCurve `json:"-"`
}

// Front is the way of working that stands in front of the others: the quickest, of the
// first crop that has several ways where the study has several crops.
func (w Whole) Front() string {
	crops := answer.ByCrop(w.Compare)
	for _, of := range crops {
		if len(crops) > 1 && len(of.Workflows) > 1 {
			return of.Quickest().Workflow
		}
	}
	return w.Quickest
}

// QuickestFirst is the ways of working with the one in front before the others.
func (w Whole) QuickestFirst() []WorkflowAnswers {
	front := w.Front()
	var first, rest []WorkflowAnswers
	for _, workflow := range w.Workflows {
		if workflow.Workflow == front {
			first = append(first, workflow)
		} else {
			rest = append(rest, workflow)
		}
	}
	return append(first, rest...)
}
