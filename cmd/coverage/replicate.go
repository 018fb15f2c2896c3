package main

import (
	"hash/fnv"
	"math"
	"math/rand/v2"

	"headhours/timing/answer"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// target is one of the answers whose interval is put to the test.
type target int

// The answers, in the order of the table's columns.
const (
	setupTime target = iota
	unitTime
	totalHours
	differenceHours
	breakEvenHeads
	nextGrowHours
	answers
)

func (a target) String() string {
	return [...]string{"setup", "unit", "total", "difference", "break-even", "next grow"}[a]
}

// score is how one answer fared in one replicate: summed over the steps or the
// ways of working that it is asked for.
type score struct {
	intervals, bounded, hits float64
	widths                   []float64 // as shares of the truth, of the intervals that are bounded
}

// add scores an interval. A null one is not given.
func (s *score) add(low, high study.Maybe, truth, scale float64) {
	s.intervals++
	if !low.Known || !high.Known {
		return
	}
	s.bounded++
	if low.Value <= truth && truth <= high.Value {
		s.hits++
	}
	if scale != 0 {
		s.widths = append(s.widths, (high.Value-low.Value)/math.Abs(scale))
	}
}

// addTime scores a setup or a unit time. A null one is a miss, unless there truly is
// none; one that is there without limits is not given.
func (s *score) addTime(value, low, high study.Maybe, truth float64) {
	if value.Known {
		s.add(low, high, truth, truth)
		return
	}
	s.intervals++
	s.bounded++
	if truth == 0 {
		s.hits++
	}
}

// addBreakEven scores a set of head numbers of any kind.
func (s *score) addBreakEven(e answer.BreakEven, truth float64) {
	in := true
	switch e.Kind {
	case answer.Interval:
		s.add(e.Low, e.High, truth, truth)
		return
	case answer.Outside:
		in = truth >= e.High.Value || e.Low.Known && truth <= e.Low.Value
	case answer.Never:
		in = false
	case "":
		s.intervals++
		return
	}
	s.intervals++
	s.bounded++
	if in {
		s.hits++
	}
}

// stream is a replicate's own random numbers, which depend on nothing but the seed,
// the scenario's name and the replicate's number. The three are stirred (Steele, Lea
// and Flood, Fast Splittable Pseudorandom Number Generators, 2014) since the states
// of a PCG with seeds side by side begin side by side.
func stream(seed uint64, scenario string, replicate int) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(scenario))
	s := stirred(stirred(seed) ^ h.Sum64())
	return rand.New(rand.NewPCG(s, stirred(s^uint64(replicate))))
}

func stirred(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// answersOf are a grower's answers.
func answersOf(m *answer.Models) (answer.Fits, answer.Comparison) {
	fits, err := m.Fits(nil)
	if err != nil {
		panic(err) // no step is named, so none can be unknown
	}
	comparison, err := m.Compare(nil, heads)
	if err != nil {
		panic(err) // the study has workflows
	}
	return fits, comparison
}

// truth is what the answers of a comparison ought to be: those from readings that
// have no scatter.
func (s scenario) truth() answer.Comparison {
	_, comparison := answersOf(answer.Fit(studyOf(stepfit.SetupUnit, q(0)), exact(s.slowness()), answer.Options{}))
	return comparison
}

// replicate draws one grower and scores every rule's answers.
func (s scenario) replicate(want answer.Comparison, random *rand.Rand) [][answers]score {
	g := s.grower(random)
	readings, next := g.readings(), g.nextGrow()
	st := studyOf(s.form, s.spread)
	scores := make([][answers]score, len(s.rules))
	for r, rule := range s.rules {
		fits, got := answersOf(answer.Fit(st, readings, rule.options))
		scores[r] = scored(want, got, next)
		for i, j := range jobs {
			f := fits.Steps[i]
			scores[r][setupTime].addTime(f.Setup, f.SetupLow, f.SetupHigh, j.setup*s.slowness())
			scores[r][unitTime].addTime(f.Unit, f.UnitLow, f.UnitHigh, j.unit*s.slowness())
		}
	}
	return scores
}

// scored scores the answers of a comparison. Of a difference the width is a share of
// the first way's hours.
func scored(want, got answer.Comparison, next [2]float64) (scores [answers]score) {
	for w, h := range got.Workflows {
		truth := want.Workflows[w].Hours
		scores[totalHours].add(h.Low, h.High, truth, truth)
		scores[nextGrowHours].add(h.NextLow, h.NextHigh, next[w], truth)
	}
	pair, truly := got.Pairs[0], want.Pairs[0]
	scores[differenceHours].add(pair.Low, pair.High, truly.Difference, want.Workflows[0].Hours)
	scores[breakEvenHeads].addBreakEven(pair.BreakEven, truly.BreakEven.Heads.Value)
	return scores
}
