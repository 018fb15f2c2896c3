package study

import (
	"slices"
	"time"

	"headhours/timing/crop"
	"headhours/timing/stepfit"
)

// Study is what a grower's study.toml says. The zero value is an empty study;
// folder.ReadStudy fills one and refuses what contradicts itself.
type Study struct {
	Name         string
	Currency     string  // ISO 4217 code; "" where the study names none
	Heads        int     // heads per grow that answers are given for; 0 where not said
	Allowance    float64 // share of basic time added for rest and personal needs
	Confidence   float64 // of every interval, between 0 and 1
	SowEveryDays int     // days from one sowing to the next; 0 where grows are not sown regularly
	Germination  crop.Germination
	Steps        []Step
	Workflows    []Workflow
	Grows        []Grow
	Supplies     []Supply
	Labour       *Labour // nil where no wage is given
	PricePerHead Maybe   // of a head sold, where that is all that is said of sales
	Sale         *Sale   // of workflows without one of their own; nil where the study gives no unit, price or share
	SpacePrice   Maybe   // per square metre and day
	SpaceM2      Maybe   // square metres there are; unknown: not checked
	Overheads    []Overhead
	Season       Season
	Sowings      []Sowing
	Chores       []Chore
	Changes      []Change     // what-ifs
	Made         []MadeChange // changes that were made
	LogTimes     string       // what a bare number is in its logs: minutes or hours; "" or seconds
}

// DefaultConfidence is the confidence of intervals where neither the study nor
// the command line says otherwise.
const DefaultConfidence = 0.95

// Step is one kind of hands-on work with a clear start and end (an element in
// time study).
type Step struct {
	Name        string
	Per         string // what one count is: cell, plant, head; "" where not said
	Class       Class
	Rework      bool // work that only undoes an earlier step
	Hazards     []Hazard
	SetupCovers float64   // one setup serves this many counts; 0: one setup a visit
	Form        string    // a stepfit form, or "" for the default
	Spread      *int      // 0, 1 or 2; nil lets the readings decide
	Estimate    *Estimate // the grower's own three-point guess; nil where there is none
	Together    bool      // on one day one doing serves all grows that need it
}

// Class is the process-chart class of a step (ASME, 1947).
type Class string

// The process-chart classes.
const (
	Operation  Class = "operation"
	Transport  Class = "transport"
	Inspection Class = "inspection"
	Delay      Class = "delay"
	Storage    Class = "storage"
)

// Classes lists the process-chart classes in the order of the standard.
var Classes = []Class{Operation, Transport, Inspection, Delay, Storage}

// Hazard names what can hurt someone in a step.
type Hazard string

// The hazards a step may be marked with.
const (
	Lifting      Hazard = "lifting"
	FibreDust    Hazard = "fibre-dust"
	Concentrates Hazard = "concentrates"
	Blades       Hazard = "blades"
	WetElectrics Hazard = "wet-electrics"
	Repetition   Hazard = "repetition"
	Hygiene      Hazard = "hygiene"
)

// Hazards lists every hazard.
var Hazards = []Hazard{Lifting, FibreDust, Concentrates, Blades, WetElectrics, Repetition, Hygiene}

// Estimate is a three-point judgement of a time, in seconds:
// 0 ≤ Low ≤ Likely ≤ High.
type Estimate struct {
	Low, Likely, High float64
	OfVisit           bool // the time of a visit's setup; otherwise of one unit
}

// Mean is the judged time in seconds, (low + 4 likely + high) / 6: the PERT
// approximation to the mean of a beta distribution (Malcolm, Roseboom, Clark
// and Fazar, 1959).
func (j Estimate) Mean() float64 { return (j.Low + 4*j.Likely + j.High) / 6 }

// SD is the standard deviation of the judgement in seconds, (high − low) / 6,
// from the same source.
func (j Estimate) SD() float64 { return (j.High - j.Low) / 6 }

// Workflow is a way of working: an ordered list of tasks from seed to harvest.
type Workflow struct {
	Name         string
	SeedsPerCell int
	CellsPerTray int // 0 where no task counts trays
	Tasks        []Task
	Losses       []crop.Loss
	Space        []SpaceUse        // nil where the study does not say; empty where it takes none
	Crop         string            // ways of one crop are compared with each other; "" is none
	Germination  *crop.Germination // in place of the study's; nil leaves that
	Bought       bool              // young plants are bought: one a cell, all alive
	HeadWeight   Maybe             // kilograms
	Cuts         []Cut
	Sale         *Sale // nil: the study's
}

// Task is a step on one or more days with a count to do.
type Task struct {
	Step     string
	Days     []int // each is a visit
	Count    crop.Word
	Each     float64 // multiplies the count
	SharedBy int     // one doing serves this many grows; 1 when alone
}

// SpaceUse is a stretch of days in which every unit of a count takes up M2
// square metres.
type SpaceUse struct {
	From, To int
	Count    crop.Word
	M2       float64
}

// Grow is what one batch gave. A count or weight that was not noted is unknown.
type Grow struct {
	Name, Workflow               string
	Cells, CameUp, Heads, Weight Maybe // Weight in kilograms
	Notes                        string
}

// Supply is something bought and used up, or worn out, by a grow.
type Supply struct {
	Name      string
	Count     crop.Word
	Day       *int     // the day on which the count is taken; nil: before any loss
	Price     float64  // of one, in the study's currency
	Uses      float64  // how often one is used before it is replaced
	Each      float64  // multiplies the count
	Workflows []string // nil: all
}

// Labour is what an hour of work costs.
type Labour struct {
	Wage   float64 // per hour, in the study's currency
	OnCost float64 // the employer's share on top of the wage
	// OwnHours are the grower's own hours of a week, beyond which work is hired;
	// unknown: all hours are own.
	OwnHours Maybe
}

// PerHour is the cost of an hour with on-costs, wage × (1 + on-cost).
func (l Labour) PerHour() float64 { return l.Wage * (1 + l.OnCost) }

// Chore is work that belongs to the place, not to one grow.
type Chore struct {
	Step      string
	EveryDays int
	Count     float64
}

// Change is a what-if: what a tool or a new habit would do to one step.
type Change struct {
	Name, Step              string
	SetupFactor, UnitFactor float64 // multiply the setup and the unit time; 1 leaves it
	Drop                    bool    // the step is not done any more
	Outlay                  Maybe   // paid once, in the study's currency
	// VisitsFactor multiplies how often the step is set up, CountFactor what is
	// counted; unknown leaves it.
	VisitsFactor, CountFactor Maybe
}

// MadeChange is a change that was made: its step is done so from a day on. Its factors are
// what was hoped for.
type MadeChange struct {
	Change
	Since    time.Time // midnight UTC of the first day
	HasHoped bool      // factors are given
}

// Hoped are the factors of a step's setups and count that were hoped for.
func (c MadeChange) Hoped() stepfit.Load {
	return stepfit.Load{Setups: c.SetupFactor * Factor(c.VisitsFactor), Count: c.UnitFactor * Factor(c.CountFactor)}
}

// AsItIs is the study without the tasks and chores of steps that a change has dropped.
func (s Study) AsItIs() Study {
	dropped := map[string]bool{}
	for _, c := range s.Made {
		dropped[c.Step] = dropped[c.Step] || c.Drop
	}
	isDropped := func(step string) bool { return dropped[step] }
	if len(dropped) == 0 {
		return s
	}
	s.Workflows, s.Chores = slices.Clone(s.Workflows), slices.Clone(s.Chores)
	for i := range s.Workflows {
		w := &s.Workflows[i]
		w.Tasks = slices.DeleteFunc(slices.Clone(w.Tasks), func(t Task) bool { return isDropped(t.Step) })
	}
	s.Chores = slices.DeleteFunc(s.Chores, func(c Chore) bool { return isDropped(c.Step) })
	return s
}

// StepNames gives the names of the steps in the study's order.
func (s Study) StepNames() []string {
	names := make([]string, len(s.Steps))
	for i, step := range s.Steps {
		names[i] = step.Name
	}
	return names
}

// WorkflowNames gives the names of the workflows in the study's order.
func (s Study) WorkflowNames() []string {
	names := make([]string, len(s.Workflows))
	for i, w := range s.Workflows {
		names[i] = w.Name
	}
	return names
}

// NothingToDo is the count below which a task is not done at all: what is left
// of a count that vanishes, such as the seedlings to thin at one seed a cell.
const NothingToDo = 1e-9
