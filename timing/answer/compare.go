package answer

import (
	"encoding/json"
	"math"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
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

// MarshalJSON writes the kind, or null where it is not known.
func (k BreakEvenKind) MarshalJSON() ([]byte, error) {
	if k == "" {
		return []byte("null"), nil
	}
	return json.Marshal(string(k))
}

// Compare puts workflows side by side for a number of heads. names chooses and
// orders them; none means all, in the study's order. The error is ErrNoWorkflow
// or an UnknownName.
func (m *Models) Compare(names []string, heads int) (Comparison, error) {
	workflows, err := m.Study.Choose(names)
	if err != nil {
		return Comparison{}, err
	}
	c := Comparison{Heads: heads, Confidence: m.Confidence, Common: m.common(),
		Workflows: []Hours{}, Pairs: []Pair{}, Notes: m.notes(workflows...)}
	compared := make([]*comparedWorkflow, len(workflows))
	for i, w := range workflows {
		c.Workflows = append(c.Workflows, m.hours(w, heads))
		compared[i] = m.comparedWorkflow(w, heads)
	}
	for i, a := range compared {
		for k, b := range compared[i+1:] {
			p := m.pair(a, b)
			givesA, givesB := c.Workflows[i].Gives, c.Workflows[i+1+k].Gives
			if p.OtherCrop = givesA.Crop != givesB.Crop; !p.OtherCrop {
				p.AUnit = m.aUnitMore(a, b, givesA, givesB)
			}
			c.Pairs = append(c.Pairs, p)
		}
	}
	c.Notes = append(c.Notes, m.practiceNotes(workflows, c.Workflows)...)
	return c, nil
}

// perHour turns basic seconds into hours of standard time.
func (m *Models) perHour() float64 { return (1 + m.Study.Allowance) / 3600 }

func (m *Models) hours(w study.Workflow, heads int) Hours {
	visits := m.visits(w, float64(heads))
	loads := m.loads(visits)
	span := m.span(workload{loads, visits}).aTime().times(m.perHour())
	h := Hours{
		Workflow: w.Name,
		Hours:    span.Value, Low: span.Low, High: span.High,
		NextLow: span.NextLow, NextHigh: span.NextHigh, DF: span.DF,
		MinutesPerHead: span.Value * 60 / float64(heads),
		Gaps:           m.gaps(visits, func(int) bool { return true }),
		Steps:          []StepHours{},
	}
	h.Gives = harvest(m.Study, w, float64(heads)).inHours(study.Known(h.Hours), h.Low, h.High)
	h.Rests, h.TimeNext = m.basis(visits), m.timeNext(visits, loads)
	h.Extrapolated = len(h.Rests.Beyond) > 0
	times := make([]int, len(m.Steps))
	for _, v := range visits {
		times[v.step]++
	}
	for _, i := range inOrder(visits) {
		h.Steps = append(h.Steps, m.stepHours(i, times[i], loads[i], span.Value))
	}
	return h
}

func (m *Models) stepHours(i, visits int, load stepfit.Load, total float64) StepHours {
	s := StepHours{Step: m.Study.Steps[i].Name, Visits: visits, Setups: load.Setups, Count: load.Count}
	if !m.Steps[i].isGap() {
		hours := m.takes(i, load) * m.perHour()
		s.Hours, s.Share = study.Known(hours), study.Known(hours/total)
	}
	return s
}

// inOrder lists the steps of visits, each once, in order of first use.
func inOrder(visits []visit) []int {
	var steps []int
	seen := map[int]bool{}
	for _, v := range visits {
		if !seen[v.step] {
			seen[v.step] = true
			steps = append(steps, v.step)
		}
	}
	return steps
}

// gaps names the steps of visits that are neither timed nor judged, of those
// that matter.
func (m *Models) gaps(visits []visit, matters func(step int) bool) []string {
	return m.names(visits, func(i int) bool { return m.Steps[i].isGap() && matters(i) })
}

func (m *Models) names(visits []visit, wanted func(step int) bool) []string {
	names := []string{}
	for _, i := range inOrder(visits) {
		if wanted(i) {
			names = append(names, m.Study.Steps[i].Name)
		}
	}
	return names
}

func (m *Models) basis(visits []visit) Basis {
	beyond := map[int]bool{}
	for _, v := range visits {
		if m.Steps[v.step].beyond(v.countPerSetup()) {
			beyond[v.step] = true
		}
	}
	model := func(is func(stepfit.Model) bool) func(int) bool {
		return func(i int) bool { return !m.Steps[i].isGap() && is(*m.Steps[i].Model) }
	}
	return Basis{
		Timed:     m.names(visits, func(i int) bool { return m.Steps[i].Readings > 0 }),
		Judged:    m.names(visits, func(i int) bool { return m.Steps[i].isJudged() }),
		NoScatter: m.names(visits, func(i int) bool { return m.Steps[i].doubt.unknown }),
		Bracketed: m.names(visits, model(func(f stepfit.Model) bool { return f.Bracket != nil })),
		Beyond:    m.names(visits, func(i int) bool { return beyond[i] }),
	}
}

// beyondBy is how far outside the counts that were timed an answer may go
// before it is called extrapolated.
const beyondBy = 1.25

// beyond says whether a count per setup is outside what was timed of the step.
func (s StepModel) beyond(countPerSetup float64) bool {
	minCount, maxCount, ok := s.Sums.CountPerSetup()
	return ok && (countPerSetup < minCount/beyondBy*(1-1e-9) || countPerSetup > maxCount*beyondBy*(1+1e-9))
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

func (m *Models) comparedWorkflow(w study.Workflow, heads int) *comparedWorkflow {
	a := &comparedWorkflow{name: w.Name, visits: m.visits(w, float64(heads)), tallies: map[int]condense.Tally{}}
	a.steps, a.loads = inOrder(a.visits), m.loads(a.visits)
	a.fixed, a.perHead = m.straight(w)
	for _, i := range a.steps {
		a.tallies[i] = m.Steps[i].Kinds.Under(w.Name)
	}
	return a
}

func (m *Models) pair(a, b *comparedWorkflow) Pair {
	d := b.loads.minus(a.loads)
	span := m.span(workload{loads: d}).times(m.perHour())
	p := Pair{
		A: a.name, B: b.name,
		Difference: span.Value, Low: span.Low, High: span.High, DF: span.DF, P: span.P,
		AssumedSame: m.assumedSame(a, b),
		Gaps:        m.gaps(slices.Concat(a.visits, b.visits), func(i int) bool { return d[i] != stepfit.Load{} }),
		BreakEven:   m.breakEven(a, b),
	}
	p.TipsAtCV = m.tipsAtCV(d)
	return p
}

func (m *Models) assumedSame(a, b *comparedWorkflow) []SameWork {
	same := []SameWork{}
	for _, i := range a.steps {
		underA, underB := a.tallies[i], b.tallies[i] // none where b does not use the step
		if underA.Readings == 0 || underB.Readings == 0 {
			continue
		}
		work := SameWork{
			Step:  m.Study.Steps[i].Name,
			AUnit: perUnit(underA), BUnit: perUnit(underB),
			AReadings: underA.Readings, BReadings: underB.Readings,
			Unlike: m.Steps[i].unlike(a.name, b.name, underA, underB),
		}
		if !m.Steps[i].Model.Form.HasUnit() {
			work.AVisit, work.BVisit = study.Known(underA.Seconds/underA.Setups), study.Known(underB.Seconds/underB.Setups)
		}
		same = append(same, work)
	}
	return same
}

// What makes the readings of one step under two workflows look unlike: how far
// apart their times are beside the model's, and how many standard errors, where
// the scatter has degrees of freedom enough to be worth asking.
const (
	unlikeRatio = 1.1
	unlikeSigma = 2
	unlikeDF    = 3
)

// unlike holds the readings under two workflows each against the step's model,
// so that unlike counts alone make no difference. Where they are many enough, a test of
// one model for both tells; its scatter is not that of the one, which their difference
// widens.
func (s StepModel) unlike(inA, inB string, a, b condense.Tally) bool {
	expected := func(t condense.Tally) float64 { return t.Seconds / s.Model.At(t.Load) }
	ratioA, ratioB := expected(a), expected(b)
	if max(ratioA, ratioB) <= unlikeRatio*min(ratioA, ratioB) {
		return false
	}
	if p, ok := s.alike(apartByWorkflow, []string{inA, inB}); ok {
		return p < apartBelow
	}
	cv, ok := s.Model.CV()
	chance := cv * math.Sqrt(1/float64(a.Readings)+1/float64(b.Readings))
	return !ok || s.doubt.own < unlikeDF || abs(ratioA-ratioB) > unlikeSigma*chance
}

// perUnit is the time of all readings over their count, in seconds; unknown
// where that count is 0.
func perUnit(t condense.Tally) study.Maybe { return study.Known(t.Seconds / t.Count) }
