package answer

import (
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Plan is the further readings that would bring an answer to a goal: the hours of a
// workflow, or how much longer another takes. Hours are person-hours of standard
// time; a half width is the longer arm of an interval, or the one towards zero where
// the goal is a clear difference.
type Plan struct {
	Workflow string      `json:"workflow"`
	Other    *string     `json:"other"` // nil where the hours of one are in question
	Heads    int         `json:"heads"`
	Goal     Goal        `json:"goal"`
	Within   study.Maybe `json:"within"` // share of the hours, of GoalWithin
	Hours    float64     `json:"hours_h"`
	Now      study.Maybe `json:"now_half_width_h"`     // unknown for want of a scatter
	Reached  study.Maybe `json:"reached_half_width_h"` // with the planned readings
	Meets    bool        `json:"reached"`              // that meets the goal
	// Readings are in the order in which they are first called for, steps that were
	// never timed first.
	Readings []PlannedReadings `json:"plan"`
	// FurtherGrows is in how many grows that are yet to come some of the readings are to be
	// taken: one of every step in each.
	FurtherGrows int `json:"further_grows"`
	// WorthMore says which narrows the answer more, reading by reading; "" where grows are
	// not known to differ.
	WorthMore Worth      `json:"worth_more"`
	Gaps      []string   `json:"gaps"`
	Notes     []string   `json:"notes"`
	Steps     []StepNeed `json:"steps"`

	Low, High study.Maybe `json:"-"` // limits of Hours now
	// Surely is the half width that the planned readings stay within in so many cases as a plan
	// is met in: Meets is of it, and it is no less than Reached.
	Surely study.Maybe `json:"-"`
	// Aim is the half width that meets the goal.
	Aim     study.Maybe  `json:"-"`
	Simpler *SimplerPlan `json:"-"` // nil where no planned step is always counted as one
}

// SimplerPlan is how many readings would do if steps that were counted as one each time are
// all setup, as the study could say of them.
type SimplerPlan struct {
	Steps    []string
	Readings int
	Meets    bool
}

// timings is how many readings a plan has of steps that were timed or judged before.
func (p Plan) timings() int {
	n := 0
	for _, r := range p.Readings {
		if !r.Gap {
			n += r.Readings
		}
	}
	return n
}

// Worth is what kind of reading tells more.
type Worth string

// The kinds of readings.
const (
	WorthGrow    Worth = "another grow"
	WorthReading Worth = "another reading"
)

// MaxPlanned is the most readings that a plan goes up to.
const MaxPlanned = 200

// usualWithin is how well hours are to be known where nobody says otherwise, and
// each step by itself where the goal is a clear difference.
const usualWithin = 0.10

// StepNeed is how many readings in all one step by itself would need for ± a share of
// its mean time, were its readings to vary by CV: by Student's t, unknown where it has
// no scatter, and by the handbooks' formula, see stepfit.CyclesNeeded.
type StepNeed struct {
	Step     string  `json:"step"`
	Readings int     `json:"readings"`
	CV       float64 `json:"cv"`
	Assumed  bool    `json:"assumed"` // nothing is known of how much it varies
	ByT      *int    `json:"readings_by_t"`
	Handbook int     `json:"readings_by_handbook"`
	Share    float64 `json:"within"`
}

// PlannedReadings are readings of one step at one count. A count of 0 is getting
// ready alone.
type PlannedReadings struct {
	Step     string  `json:"step"`
	Count    float64 `json:"count"`
	Setups   float64 `json:"setups"`
	Readings int     `json:"readings"`
	Gap      bool    `json:"-"` // of a step that was never timed
}

// Goal is what the readings of a plan are to bring.
type Goal string

// The goals of a plan.
const (
	GoalWithin Goal = "within" // a half width of so large a share of the answer
	GoalClear  Goal = "clear"  // a difference whose interval leaves out zero
)

// plannedReading is one further reading, in a grow that was timed or in a further one.
type plannedReading struct {
	step int
	load stepfit.Load
	grow int // 0: in one that was timed; else the how manieth further one
}
