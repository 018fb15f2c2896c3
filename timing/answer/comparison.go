package answer

import (
	"headhours/timing/condense"
	"headhours/timing/study"
)

// Comparison is workflows side by side, and every pair of them.
type Comparison struct {
	Heads      int      `json:"heads"`
	Confidence float64  `json:"confidence"`
	Common     Common   `json:"common"`
	Workflows  []Hours  `json:"workflows"`
	Pairs      []Pair   `json:"pairs"`
	Notes      []string `json:"notes"`
}

// Quickest is the workflow that takes the least of what is known: of those with
// anything timed or judged, the first of equals; the first of all where none has.
// There must be one.
func (c Comparison) Quickest() Hours {
	quickest := c.Workflows[0]
	for _, h := range c.Workflows[1:] {
		if h.Rests.Known() && (!quickest.Rests.Known() || h.Hours < quickest.Hours) {
			quickest = h
		}
	}
	return quickest
}

// Hours is what one grow of a workflow takes, in person-hours of standard time.
type Hours struct {
	Workflow       string      `json:"workflow"`
	Hours          float64     `json:"hours_h"`
	Low            study.Maybe `json:"low_h"`
	High           study.Maybe `json:"high_h"`
	NextLow        study.Maybe `json:"next_low_h"`
	NextHigh       study.Maybe `json:"next_high_h"`
	DF             study.Maybe `json:"df"`
	MinutesPerHead float64     `json:"minutes_per_head"`
	Extrapolated   bool        `json:"extrapolated"`
	Gaps           []string    `json:"gaps"`
	Steps          []StepHours `json:"steps"`
	Rests          Basis       `json:"-"`
	TimeNext       []string    `json:"-"` // steps most worth timing, first one first
	MostlyGrows    bool        `json:"-"` // how much grows differ is most of what is not known
	Gives          Harvest     `json:"-"`
}

// StepHours is one step's part of a workflow's hours. Hours and share are
// unknown for a gap; shares are of the known total.
type StepHours struct {
	Step   string      `json:"step"`
	Visits int         `json:"visits"`
	Setups float64     `json:"setups"`
	Count  float64     `json:"count"`
	Hours  study.Maybe `json:"hours_h"`
	Share  study.Maybe `json:"share"`
}

// Basis names the steps of an answer whose times are not plainly timed.
type Basis struct {
	Timed     []string // with readings that count
	Judged    []string // estimates alone
	NoScatter []string // timed, but how much they vary is not known
	Bracketed []string // at alike counts
	OneEach   []string // of those, always at a count of 1
	Beyond    []string // asked for more than a quarter outside the counts timed
}

// Known says that anything was timed or judged.
func (b Basis) Known() bool { return len(b.Timed)+len(b.Judged) > 0 }

// Pair is the difference of two workflows, B's hours less A's.
type Pair struct {
	A           string      `json:"a"`
	B           string      `json:"b"`
	Difference  float64     `json:"difference_h"`
	Low         study.Maybe `json:"low_h"`
	High        study.Maybe `json:"high_h"`
	DF          study.Maybe `json:"df"`
	P           study.Maybe `json:"p"`
	TipsAtCV    study.Maybe `json:"tips_at_cv"`
	AssumedSame []SameWork  `json:"assumed_same"`
	Gaps        []string    `json:"gaps"`
	BreakEven   BreakEven   `json:"break_even"`
	OtherCrop   bool        `json:"-"` // they are of two crops, and not compared in words
	// What is sold, beside each other; nil where that says no more than heads do.
	AUnit *UnitDifference `json:"-"`
}

// Clear says that the difference is one: its interval leaves out zero, and no
// step that differs is unknown.
func (p Pair) Clear() bool {
	return len(p.Gaps) == 0 && p.Low.Known && p.Low.Value*p.High.Value > 0
}

// SameWork is a step counted as the same work in both workflows of a pair, with
// what its readings came to under each.
type SameWork struct {
	Step      string      `json:"step"`
	AUnit     study.Maybe `json:"a_unit_s"`
	BUnit     study.Maybe `json:"b_unit_s"`
	AReadings int         `json:"a_readings"`
	BReadings int         `json:"b_readings"`
	// Unlike says that the readings under the two do not look like one work: beside
	// what the step's model expects, one took longer than the other by over a
	// tenth and, where enough is known of chance to tell, by more than chance.
	Unlike bool `json:"-"`
	// What a visit took under each, where the step's time is by the visit alone.
	AVisit, BVisit study.Maybe `json:"-"`
}

// UnitDifference is how many minutes more one way takes than another for what is sold.
type UnitDifference struct {
	Unit       string
	Difference float64
	Low, High  study.Maybe
}

// BreakEven is the number of heads at which two workflows take the same time,
// and the set of head numbers that the readings do not rule out for it.
type BreakEven struct {
	Kind  BreakEvenKind `json:"kind"`
	Heads study.Maybe   `json:"heads"`
	Low   study.Maybe   `json:"low"`
	High  study.Maybe   `json:"high"`
	// HeadsAsSetup is the number with the steps timed at alike counts taken as all setup,
	// Heads with them as all unit; unknown where none differs.
	HeadsAsSetup study.Maybe `json:"heads_as_setup"`
	// B's hours less A's are Fixed + PerHead × heads, for saying which is quicker.
	Fixed   float64 `json:"-"`
	PerHead float64 `json:"-"`
}

// comparedWorkflow is a workflow as it is put beside others: what is worked out of it once for all
// of its pairs.
type comparedWorkflow struct {
	name           string
	visits         []visit
	steps          []int // in order of first use
	loads          linear
	fixed, perHead linear                 // see straight
	tallies        map[int]condense.Tally // by step
}
