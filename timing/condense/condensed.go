package condense

import (
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Condensed is what the readings of a study come to, from which models of every kind are
// fitted. It is not changed any more.
type Condensed struct {
	Study study.Study
	Steps []StepReadings // in the study's order, then stages of steps before changes
	// The workers and the grows that readings name, whether or not the filter takes
	// them, in order of first appearance; no more than the first MaxNames.
	Workers, Grows []string

	Filter      Filter
	Index       map[string]int        // of a step by its name
	Stages      []*Stages             // of each of the study's steps, nil of those that were not changed
	allStages   []*Stages             // the same before stages that were not timed are answered for
	allSteps    []StepReadings        // Steps likewise
	Before      study.Study           // as it was before steps were dropped
	growTallies map[string]*growTally // the study's grows, by name
	Again       Readings              // all that were gathered
}

// StepReadings is what the readings of one step come to.
type StepReadings struct {
	Step     study.Step
	Readings int // that count
	Voided   int
	Guessed  int // of the readings, those judged rather than timed
	Sums     stepfit.Sums
	Kinds    readingsByKind
	Kept     Kept
}

// growTally is what readings say of one of the study's grows.
type growTally struct {
	workflow  string // that the study gives it
	Readings  int
	Elsewhere int         // logged under another workflow
	Seconds   float64     // basic person-seconds
	Visits    map[int]int // how often a visit of each step was begun: laps carry one on
}

func (g *growTally) take(step int, workflow string, how *How, seconds float64) {
	g.Readings++
	g.Seconds += how.Basic(seconds)
	if !how.HasSetups || how.Setups > 0 {
		g.Visits[step]++
	}
	if workflow != "" && workflow != g.workflow {
		g.Elsewhere++
	}
}

// Grow is what readings say of a grow; nothing where the study has none such.
func (m *Condensed) Grow(name string) growTally {
	if g := m.growTallies[name]; g != nil {
		return *g
	}
	return growTally{}
}

// MaxNames is how many workers and grows Models list.
const MaxNames = 10_000
