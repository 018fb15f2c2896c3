package answer

import (
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Costs is what a grow and a head of each workflow cost.
type Costs struct {
	Heads     int         `json:"heads"`
	Currency  *string     `json:"currency"` // nil where the study names none
	Common    Common      `json:"common"`
	Workflows []GrowCost  `json:"workflows"`
	Notes     []string    `json:"notes"`
	PerHour   study.Maybe `json:"-"` // what an hour of work costs, on-costs included
	Ranks     []CostRank  `json:"-"` // of each crop with two ways or more, where costs are known
}

// GrowCost is what one grow of a workflow costs, in the study's currency. Labour
// and what rests on it is unknown without a wage. The interval is that of
// labour alone: prices and counts are taken as exact.
type GrowCost struct {
	Workflow      string      `json:"workflow"`
	Hours         float64     `json:"hours_h"`
	Chores        float64     `json:"chores_h"`
	Labour        study.Maybe `json:"labour"`
	Supplies      float64     `json:"supplies"`
	Space         float64     `json:"space"`
	Outlay        float64     `json:"outlay,omitempty"` // this grow's share of what-ifs' outlays
	Total         study.Maybe `json:"total"`
	PerHead       study.Maybe `json:"per_head"`
	PerHeadLow    study.Maybe `json:"per_head_low"`
	PerHeadHigh   study.Maybe `json:"per_head_high"`
	LabourPerHead study.Maybe `json:"labour_per_head"`
	ReturnPerHour study.Maybe `json:"return_per_hour"`
	Gaps          []string    `json:"gaps"`
	Lines         []CostLine  `json:"lines"`
	Crop          *string     `json:"crop"` // nil where the study names none
	Kg            study.Maybe `json:"kg"`   // unknown where neither cuts nor a head's weight tell
	Unit          string      `json:"unit"` // what is sold
	Units         study.Maybe `json:"units"`
	PerUnit       study.Maybe `json:"per_unit"` // of a unit that is sold
	PerUnitLow    study.Maybe `json:"per_unit_low"`
	PerUnitHigh   study.Maybe `json:"per_unit_high"`
	PerKg         study.Maybe `json:"per_kg"`
	MinutesAUnit  study.Maybe `json:"minutes_per_unit"` // of the grow's tasks, of a unit that is sold
	Gives         Harvest     `json:"-"`
	Unshared      []string    `json:"-"` // gaps that are known: chores of which no share can be told
	NoSpace       bool        `json:"-"` // space has a price, but the study does not say what this way takes
	SoldPerHead   study.Maybe `json:"-"` // what is sold of a grow, by head; unknown without a price
	// LeftPerHead is that less the cost of a head, with the interval of the labour.
	LeftPerHead, LeftPerHeadLow, LeftPerHeadHigh study.Maybe `json:"-"`
}

// LineKind says what a line of a cost is for.
type LineKind string

// The kinds of cost lines.
const (
	LabourLine LineKind = "labour"
	ChoreLine  LineKind = "chore"
	SupplyLine LineKind = "supply"
	SpaceLine  LineKind = "space"
	OutlayLine LineKind = "outlay" // of a what-if, spread over a year's heads
)

// CostLine is one line of a grow's cost, unknown where it cannot be told.
type CostLine struct {
	Name    string      `json:"name"`
	Kind    LineKind    `json:"kind"`
	Amount  study.Maybe `json:"amount"`
	PerHead study.Maybe `json:"per_head"`
}

// tools are changes as a cost sees them: what they make of each step's times,
// and their outlays, the amount of one head each.
type tools struct {
	factors linear
	perHead []CostLine
}

func (m *Models) noTools() tools { return tools{factors: m.factors(nil)} }

// choreShare is what one grow bears of a chore: as many doings as fall between
// two sowings; none where grows are not sown regularly.
func (m *Models) choreShare(c study.Chore) (step int, share stepfit.Load) {
	return m.Index[c.Step], m.choreLoad(c, float64(m.Study.SowEveryDays)/float64(c.EveryDays))
}

// CostRank is which way of a crop is cheapest by what they are fairly compared by, and
// how much more each other's cost.
type CostRank struct {
	Crop     string // "" of ways without one
	By       Measure
	Unlike   bool // the ways have no common measure, so none is cheapest
	Cheapest string
	Dearer   []CostMore
}

// CostMore is how much more a workflow costs than the cheapest for what they are compared
// by, with the interval of the labour in which they differ. Gaps are steps never timed
// that do not cancel.
type CostMore struct {
	Workflow  string
	More      float64
	Low, High study.Maybe
	Gaps      []string
}
