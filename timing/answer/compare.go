package answer

import (
	"encoding/json"
	"math"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

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
	h.MostlyGrows = m.mostlyGrows(loads)
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
		OneEach:   m.names(visits, func(i int) bool { return !m.Steps[i].isGap() && m.Steps[i].alwaysOne() }),
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

// aUnitMore sets two ways beside each other by what they sell; nil where a head says it
// already, or nothing does.
func (m *Models) aUnitMore(a, b *comparedWorkflow, givesA, givesB Harvest) *UnitDifference {
	by, ok := measureOf([]Harvest{givesA, givesB})
	if !ok || by.ByHead {
		return nil
	}
	none := make(linear, len(m.Steps))
	d := none.plus(b.loads, 1/by.amount(givesB).Value).plus(a.loads, -1/by.amount(givesA).Value)
	span := m.span(workload{loads: d}).times(m.perHour() * 60)
	return &UnitDifference{by.Unit, span.Value, span.Low, span.High}
}
