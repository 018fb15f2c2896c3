package answer

import (
	"math"

	"headhours/timing/study"
)

// Measured is what whole grows took, as they were timed, beside the models'
// answer. It asks nothing of a model: a grow's minutes are the sum of its
// readings.
type Measured struct {
	Grows []MeasuredGrow `json:"grows"`
	Pairs []MeasuredPair `json:"pairs"`
}

// MeasuredGrow is a grow's own time, in minutes of standard time, over what it
// gave. Lacks names the steps that its workflow has and that were not timed, or
// not as often: with any, the time is "at least".
type MeasuredGrow struct {
	Grow           string      `json:"grow"`
	Workflow       string      `json:"workflow"`
	Heads          float64     `json:"heads"`
	Minutes        float64     `json:"minutes"`
	MinutesPerHead float64     `json:"minutes_per_head"`
	MinutesPerKg   study.Maybe `json:"minutes_per_kg"`
	ModelPerHead   float64     `json:"model_minutes_per_head"` // for as many heads
	Lacks          []string    `json:"lacks"`
	InPart         []Lacking   `json:"-"` // the same, and how much of each
	Gives          Harvest     `json:"-"` // what it gave, and the minutes of a unit of that
}

// Lacking is how many of a step's visits were not timed.
type Lacking struct {
	Step             string
	Missing, Planned int
}

// Whole says that all of the grow was timed.
func (g MeasuredGrow) Whole() bool { return len(g.Lacks) == 0 }

// MeasuredPair compares minutes per head of the whole grows of two workflows,
// B's less A's, by Welch's t. With one grow of either there is no test.
type MeasuredPair struct {
	A          string      `json:"a"`
	B          string      `json:"b"`
	AGrows     int         `json:"a_grows"`
	BGrows     int         `json:"b_grows"`
	Difference study.Maybe `json:"difference_minutes_per_head"`
	Low        study.Maybe `json:"low"`
	High       study.Maybe `json:"high"`
	T          study.Maybe `json:"t"`
	DF         study.Maybe `json:"df"`
	P          study.Maybe `json:"p"`
	// Disagrees says that the models call the other workflow quicker, clearly,
	// or that the grows do where the models see it otherwise.
	Disagrees bool `json:"disagrees"`
	OtherCrop bool `json:"-"` // they are of two crops, and not compared in words
	// What is sold, compared alike in minutes of a unit; nil where that says no more than
	// heads do.
	AUnit *MeasuredPair `json:"-"`
	Unit  string        `json:"-"` // of AUnit
}

// Measure sums up the grows of the study that say how many heads they gave, and
// compares the workflows of a comparison by them.
func (m *Models) Measure(c Comparison) Measured {
	measured := Measured{Grows: []MeasuredGrow{}, Pairs: []MeasuredPair{}}
	perHead, grows := map[string][]float64{}, map[string][]MeasuredGrow{}
	for _, g := range m.Study.Grows {
		if w, err := m.Study.OneWorkflow(g.Workflow); err == nil && g.Heads.Known && g.Heads.Value > 0 {
			grow := m.measure(g, w)
			if grow.Minutes == 0 {
				continue
			}
			measured.Grows = append(measured.Grows, grow)
			if grow.Whole() {
				perHead[w.Name] = append(perHead[w.Name], grow.MinutesPerHead)
				grows[w.Name] = append(grows[w.Name], grow)
			}
		}
	}
	for _, p := range c.Pairs {
		pair := welch(perHead[p.A], perHead[p.B], m.Confidence)
		pair.A, pair.B, pair.OtherCrop = p.A, p.B, p.OtherCrop
		if !pair.OtherCrop {
			pair.byUnit(grows[p.A], grows[p.B], m.Confidence)
		}
		clear := pair.Low.Known && pair.Low.Value*pair.High.Value > 0
		pair.Disagrees = pair.Difference.Known && pair.Difference.Value*p.Difference < 0 && (clear || p.Clear())
		measured.Pairs = append(measured.Pairs, pair)
	}
	return measured
}

func (m *Models) measure(g study.Grow, w study.Workflow) MeasuredGrow {
	grow := MeasuredGrow{Grow: g.Name, Workflow: w.Name, Heads: g.Heads.Value, Lacks: []string{}}
	taken := m.Grow(g.Name)
	grow.Minutes = taken.Seconds * (1 + m.Study.Allowance) / 60
	grow.MinutesPerHead = grow.Minutes / g.Heads.Value
	if g.Weight.Known && g.Weight.Value > 0 {
		grow.MinutesPerKg = study.Known(grow.Minutes / g.Weight.Value)
	}
	grow.Gives = gave(m.Study, w, g).inHours(study.Known(grow.Minutes/60), study.Maybe{}, study.Maybe{})
	visits := m.visits(w, g.Heads.Value)
	grow.ModelPerHead = m.evaluate(workload{loads: m.loads(visits)}, asModelled).value * m.perHour() * 60 / g.Heads.Value
	planned := map[int]int{}
	for _, v := range visits {
		planned[v.step]++
	}
	for _, i := range inOrder(visits) {
		if taken.Visits[i] < planned[i] {
			grow.Lacks = append(grow.Lacks, m.Study.Steps[i].Name)
			grow.InPart = append(grow.InPart, Lacking{m.Study.Steps[i].Name, planned[i] - taken.Visits[i], planned[i]})
		}
	}
	return grow
}

// welch is the unequal-variance t test of two samples' means, b less a, with
// Satterthwaite's degrees of freedom (Welch, Biometrika 34, 1947). With one of
// either there is a difference but no test; with none of either, nothing.
func welch(a, b []float64, confidence float64) MeasuredPair {
	pair := MeasuredPair{AGrows: len(a), BGrows: len(b)}
	if len(a) == 0 || len(b) == 0 {
		return pair
	}
	meanA, varianceA := meanVariance(a)
	meanB, varianceB := meanVariance(b)
	pair.Difference = study.Known(meanB - meanA)
	if len(a) < 2 || len(b) < 2 {
		return pair
	}
	var u uncertainty
	u.steps.add(varianceA/float64(len(a)), float64(len(a)-1))
	u.steps.add(varianceB/float64(len(b)), float64(len(b)-1))
	pair.Low, pair.High = u.limits(meanB-meanA, meanB-meanA, confidence)
	pair.DF, pair.P = u.df(), u.p(meanB-meanA)
	variance, _ := u.total()
	pair.T = study.Known((meanB - meanA) / math.Sqrt(variance))
	return pair
}

func meanVariance(x []float64) (mean, variance float64) {
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		variance += (v - mean) * (v - mean) / float64(len(x)-1)
	}
	return mean, variance
}

// byUnit compares whole grows by what they sold, where that says more than heads.
func (p *MeasuredPair) byUnit(a, b []MeasuredGrow, confidence float64) {
	var all []Harvest
	for _, g := range append(append([]MeasuredGrow{}, a...), b...) {
		all = append(all, g.Gives)
	}
	if len(a) == 0 || len(b) == 0 {
		return
	}
	by, ok := measureOf(all)
	if !ok || by.ByHead {
		return
	}
	minutes := func(grows []MeasuredGrow) []float64 {
		list := make([]float64, len(grows))
		for i, g := range grows {
			list[i] = g.Minutes / by.amount(g.Gives).Value
		}
		return list
	}
	pair := welch(minutes(a), minutes(b), confidence)
	p.AUnit, p.Unit = &pair, by.Unit
}
