package answer_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// anyCase is an invented study with its readings, and what is asked of it.
type anyCase struct {
	study    study.Study
	readings []study.Reading
	options  answer.Options
	heads    int
	earn     study.Maybe
}

// firstDay is the day on which invented readings begin.
var firstDay = time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)

// invent draws a small study such as a grower may have, with some of everything a study
// can say: the same one for the same seed.
func invent(seed uint64) anyCase {
	d := &drawing{Rand: rand.New(rand.NewPCG(seed, 2027)), anyCase: &anyCase{}}
	d.place()
	d.once = d.chance(0.1)
	d.steps()
	d.ways()
	d.supplies()
	d.changes()
	for i := range d.study.Steps {
		d.time(&d.study.Steps[i])
	}
	d.grows()
	d.season()
	d.heads = []int{1, 12, 37, 48, 500}[d.IntN(5)]
	d.earn = d.maybe(0.5, 10, 40)
	d.options = answer.Options{
		Confidence: []float64{0, 0.95, 0.8, 0.99}[d.IntN(4)],
		Scatter:    []answer.Scatter{"", answer.LentScatter, answer.OwnScatter}[d.IntN(3)],
		Grouping:   []answer.Grouping{"", answer.AutoGrouping, "grow", "worker", answer.NoGrouping}[d.IntN(5)],
	}
	if d.chance(0.1) {
		d.options.Form = stepfit.Forms[d.IntN(len(stepfit.Forms))]
	}
	if q := d.IntN(3); d.chance(0.1) {
		d.options.Spread = &q
	}
	return *d.anyCase
}

type drawing struct {
	*rand.Rand
	*anyCase
	once bool // nothing was timed more than once, or judged
}

func (d *drawing) chance(p float64) bool             { return d.Float64() < p }
func (d *drawing) between(low, high float64) float64 { return low + (high-low)*d.Float64() }
func (d *drawing) maybe(p, low, high float64) (m study.Maybe) {
	if d.chance(p) {
		m = study.Known(d.between(low, high))
	}
	return m
}

func (d *drawing) germination() crop.Germination {
	if d.chance(0.4) {
		of := 20 + d.IntN(200)
		up := of/2 + d.IntN(of/2+1)
		return crop.Germination{Share: float64(up) / float64(of), CameUp: up, Of: of}
	}
	return crop.Germination{Share: []float64{1, 0.91, 0.75, d.between(0.4, 1)}[d.IntN(4)]}
}

// place is what is said of the whole place.
func (d *drawing) place() {
	s := &d.study
	s.Heads, s.Confidence, s.Germination = []int{0, 24, 48}[d.IntN(3)], 0.95, d.germination()
	s.Allowance = []float64{0, 0.12}[d.IntN(2)]
	s.SowEveryDays = []int{0, 0, 5, 7, 14}[d.IntN(5)]
	if d.chance(0.8) {
		s.Currency = "EUR"
		s.Labour = &study.Labour{Wage: d.between(8, 20), OnCost: []float64{0, 0.21}[d.IntN(2)], OwnHours: d.maybe(0.5, 0.5, 10)}
	}
	if d.chance(0.5) {
		s.SpacePrice = d.maybe(0.6, 0.01, 0.1)
		s.SpaceM2 = d.maybe(0.5, 1, 30)
	}
	switch d.IntN(3) {
	case 0:
		s.PricePerHead = d.maybe(0.7, 1, 3)
	case 1:
		s.Sale = d.sale()
	}
	if d.chance(0.3) {
		s.Overheads = []study.Overhead{{Name: "rent", PerYear: d.between(100, 2000)}, {Name: "power", PerYear: d.between(0, 300)}}
	}
}

func (d *drawing) sale() *study.Sale {
	s := study.Sale{Unit: "bag", Price: d.maybe(0.8, 1, 5), Share: []float64{1, 0.9, 0.5}[d.IntN(3)]}
	if d.chance(0.5) {
		s.Kg = d.between(0.05, 0.5)
	} else {
		s.Heads = float64(1 + d.IntN(4))
	}
	return &s
}

func (d *drawing) steps() {
	for i := range 2 + d.IntN(5) {
		s := study.Step{Name: fmt.Sprint("step ", i), Class: study.Classes[d.IntN(5)], Rework: d.chance(0.2), Together: d.chance(0.2)}
		if d.chance(0.5) {
			s.Per = []string{"plant", "visit"}[i%2]
		}
		if d.chance(0.25) {
			s.SetupCovers = []float64{8, 20, 12.5}[d.IntN(3)]
		}
		if d.chance(0.15) {
			s.Form = []string{"unit", "setup", "setup+unit"}[d.IntN(3)]
		}
		if q := d.IntN(3); d.chance(0.2) {
			s.Spread = &q
		}
		if d.chance(0.35) && !d.once {
			low := d.between(5, 70)
			s.Estimate = &study.Estimate{Low: low, Likely: low * 1.2, High: low * d.between(1.2, 2), OfVisit: d.chance(0.5)}
		}
		if d.chance(0.1) {
			s.Hazards = []study.Hazard{study.Hygiene}
		}
		d.study.Steps = append(d.study.Steps, s)
	}
	for i := range d.IntN(3) {
		d.study.Chores = append(d.study.Chores, study.Chore{
			Step: d.study.Steps[i].Name, EveryDays: []int{1, 2, 3, 7, 14}[d.IntN(5)], Count: []float64{1, 2.5}[d.IntN(2)]})
	}
}

func (d *drawing) ways() {
	for i := range 1 + d.IntN(3) {
		w := study.Workflow{Name: fmt.Sprint("way ", i), SeedsPerCell: 1 + d.IntN(3), CellsPerTray: []int{24, 40, 84}[d.IntN(3)],
			Crop: []string{"", "chard", "mizuna"}[d.IntN(3)], HeadWeight: d.maybe(0.4, 0.05, 0.3)}
		if w.Bought = d.chance(0.2); w.Bought {
			w.SeedsPerCell = 1
		} else if d.chance(0.3) {
			g := d.germination()
			w.Germination = &g
		}
		for range d.IntN(3) {
			w.Losses = append(w.Losses, crop.Loss{Day: d.IntN(30), Share: d.between(0, 0.3)})
		}
		for _, s := range d.study.Steps {
			for range []int{0, 1, 1, 1, 2}[d.IntN(5)] {
				w.Tasks = append(w.Tasks, d.task(&s))
			}
		}
		if len(w.Tasks) == 0 {
			w.Tasks = []study.Task{d.task(&d.study.Steps[0])}
		}
		if d.chance(0.3) {
			w.HeadWeight = study.Maybe{}
			w.Cuts = []study.Cut{{Day: w.Tasks[0].Days[0], Kg: d.between(0.02, 0.1)}}
		}
		if d.chance(0.3) {
			w.Sale = d.sale()
		}
		for from := range d.IntN(3) {
			w.Space = append(w.Space, study.SpaceUse{From: 10 * from, To: 10*from + 1 + d.IntN(20), Count: d.word(), M2: d.between(0.001, 0.05)})
		}
		d.study.Workflows = append(d.study.Workflows, w)
	}
}

func (d *drawing) word() crop.Word { return crop.Words[d.IntN(len(crop.Words))] }

func (d *drawing) task(s *study.Step) study.Task {
	t := study.Task{Step: s.Name, Count: d.word(), Each: []float64{1, 1, 0.5, 3}[d.IntN(4)], SharedBy: 1}
	if d.chance(0.4) {
		t.Count = crop.Heads
	}
	if !s.Together && d.chance(0.2) {
		t.SharedBy = 2 + d.IntN(2)
	}
	day := d.IntN(12)
	for range 1 + d.IntN(3) {
		t.Days = append(t.Days, day)
		day += 1 + d.IntN(14)
	}
	return t
}

func (d *drawing) supplies() {
	for i := range d.IntN(4) {
		s := study.Supply{Name: fmt.Sprint("supply ", i), Count: d.word(), Price: d.between(0, 0.5), Uses: []float64{1, 20}[d.IntN(2)], Each: []float64{1, 1.5}[d.IntN(2)]}
		if day := d.IntN(40); d.chance(0.5) {
			s.Day = &day
		}
		if d.chance(0.3) {
			s.Workflows = []string{"way 0"}
		}
		d.study.Supplies = append(d.study.Supplies, s)
	}
}

// changes are what-ifs and, in a third of the studies, one or two that were made.
func (d *drawing) changes() {
	step := func() string { return d.study.Steps[d.IntN(len(d.study.Steps))].Name }
	for i := range d.IntN(4) {
		c := study.Change{Name: fmt.Sprint("idea ", i), Step: step(), SetupFactor: d.between(0, 1.2), UnitFactor: d.between(0.3, 1), Outlay: d.maybe(0.6, 0, 90)}
		switch d.IntN(4) {
		case 0:
			c.Drop, c.SetupFactor, c.UnitFactor = true, 1, 1
		case 1:
			c.VisitsFactor, c.CountFactor = study.Known(0.5), d.maybe(0.5, 0.5, 1)
		}
		d.study.Changes = append(d.study.Changes, c)
	}
	if !d.chance(0.35) {
		return
	}
	changed := step()
	for i := range 1 + d.IntN(2) {
		c := study.MadeChange{Since: firstDay.AddDate(0, 0, 20+15*i)}
		c.Change = study.Change{Name: fmt.Sprint("made ", i), Step: changed, SetupFactor: 1, UnitFactor: 1, Outlay: d.maybe(0.6, 0, 90)}
		if d.chance(0.5) {
			c.UnitFactor, c.HasHoped = d.between(0.4, 1), true
		}
		d.study.Made = append(d.study.Made, c)
	}
}

// time draws readings of a step.
func (d *drawing) time(s *study.Step) {
	grows := [][]string{{""}, {"g1"}, {"g1", "g2"}, {"g1", "g2", ""}, {"g1", "g2", "g3", "g4", "g5"}}[d.IntN(5)]
	workers := [][]string{{""}, {"w1", "w2"}, {"w1", "w2", "w3"}, {"w1", "w2", "w3", ""}}[d.IntN(4)]
	slow := map[string]float64{"g2": 1.2, "g3": 0.85, "w1": 0.9, "w2": 1.15}
	counts := [][]float64{{48}, {40, 48, 56}, {10, 20, 30, 40, 60}, {1}, {12, 60}, {7.5, 0}}[d.IntN(6)]
	setup, unit, scatter := d.between(0, 200), d.between(0, 10), d.between(0.02, 0.25)
	switch d.IntN(6) {
	case 0:
		setup = -d.between(0, 30)
	case 1:
		setup, unit = 500, -d.between(0, 2)
	}
	often := []int{0, 1, 1, 2, 2, 3, 4, 5, 9, 12}[d.IntN(10)]
	if d.once {
		often = min(often, 1)
	}
	for range often {
		r := study.Reading{Step: s.Name, Count: counts[d.IntN(len(counts))], People: 1, Rating: 100, Source: study.Watch,
			Grow: grows[d.IntN(len(grows))], Worker: workers[d.IntN(len(workers))]}
		r.Place = study.Place{File: "a.csv", Line: 2 + len(d.readings)}
		if d.chance(0.1) || r.Count == 0 {
			r.Setups = study.Known(float64(1 + d.IntN(2)))
		} else if d.chance(0.05) {
			r.Setups = study.Known(0)
		}
		if d.chance(0.9) {
			r.Date = firstDay.AddDate(0, 0, d.IntN(60))
		}
		if d.chance(0.6) {
			r.Workflow = d.study.Workflows[d.IntN(len(d.study.Workflows))].Name
		}
		if d.chance(0.05) {
			r.Void = "dropped"
		}
		if d.chance(0.1) {
			r.People, r.Rating, r.Source = 2, 90, study.ByJudgement
		}
		r.Seconds = max(5, setup+unit*r.Count) * (1 + max(slow[r.Grow], 0.1)/4) * (1 + slow[r.Worker]/5) * math.Exp(scatter*d.NormFloat64())
		if d.chance(0.03) {
			r.Seconds *= 6
		}
		d.readings = append(d.readings, r)
	}
}

func (d *drawing) grows() {
	for i := range d.IntN(3) {
		d.study.Grows = append(d.study.Grows, study.Grow{Name: fmt.Sprint("g", i+1), Workflow: d.study.Workflows[d.IntN(len(d.study.Workflows))].Name,
			Cells: d.maybe(0.5, 40, 60), Heads: d.maybe(0.7, 30, 60), Weight: d.maybe(0.6, 3, 9)})
	}
}

func (d *drawing) season() {
	d.study.Season = study.Season{Days: 7 * (3 + d.IntN(12))}
	if d.chance(0.6) {
		d.study.Season.Start = firstDay
	}
	for range 1 + d.IntN(3) {
		s := study.Sowing{Workflow: d.study.Workflows[d.IntN(len(d.study.Workflows))].Name, EveryDays: []int{0, 3, 7, 10}[d.IntN(4)], From: d.IntN(21)}
		if d.chance(0.5) {
			s.Heads = study.Known(d.between(5, 80))
		} else {
			s.Cells = study.Known(float64(10 + d.IntN(70)))
		}
		if until := s.From + d.IntN(100); d.chance(0.4) {
			s.Until = &until
		}
		d.study.Sowings = append(d.study.Sowings, s)
	}
}
