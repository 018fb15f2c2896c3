package main

import (
	"fmt"
	"io"
	"math/rand/v2"
	"runtime"
	"sync"

	"headhours/timing/answer"
	"headhours/timing/study"
)

// planWithin is what the plans that are tried aim at: the hours of the first way to so much.
const planWithin = 0.15

// planTrial is how a plan for one invented grower went: whether it said it would meet its
// goal, by how many readings, and whether it did once these were taken.
type planTrial struct {
	promised, reached bool
	readings          int
}

// tryPlan draws a grower, takes the readings that headhours plans, and looks again.
func (s scenario) tryPlan(random *rand.Rand) planTrial {
	g := s.grower(random)
	log, growFactors := g.log()
	st := studyOf(s.form, s.spread)
	plan, err := answer.Fit(st, log, answer.Options{}).Plan([]string{"tray"}, heads, planWithin)
	if err != nil {
		panic(err) // the study has such a way of working
	}
	p := planTrial{promised: plan.Meets}
	for _, r := range plan.Readings {
		p.readings += r.Readings
	}
	if !p.promised || p.readings == 0 {
		return p
	}
	h, err := answer.Fit(st, append(log, g.readingsOf(plan, growFactors)...), answer.Options{}).Compare([]string{"tray"}, heads)
	if err != nil {
		panic(err)
	}
	w := h.Workflows[0]
	p.reached = max(w.High.Value-w.Hours, w.Hours-w.Low.Value) <= planWithin*w.Hours
	return p
}

// readingsOf are the readings of a plan: in further grows one of every step in each, the others
// in the last grow there is.
func (g grower) readingsOf(plan answer.Plan, factors [][]float64) []study.Reading {
	further := g.growFactors(plan.FurtherGrows)
	grows := max(1, g.grows)
	var readings []study.Reading
	for _, r := range plan.Readings {
		i := jobOf(r.Step)
		for k := range r.Readings {
			grow, factor := grows, factors[i][grows-1]
			if k < plan.FurtherGrows {
				grow, factor = grows+1+k, further[i][k]
			}
			readings = append(readings, study.Reading{
				Step: r.Step, Count: max(r.Count, 1), Seconds: g.time(i, max(r.Count, 1), factor),
				Grow: fmt.Sprintf("g%d", grow), Worker: "w1", People: 1, Rating: 100,
			})
		}
	}
	return readings
}

func jobOf(name string) int {
	for i, j := range jobs {
		if j.name == name {
			return i
		}
	}
	panic("a plan for a step that nobody has: " + name)
}

// plans are the growers whose plans are tried.
func plans() []scenario {
	base := scenario{cv: around15, counts: unlike}
	return []scenario{
		base.with("2 a step, one grow", func(s *scenario) { s.times = always(2) }),
		base.with("4 a step, one grow", func(s *scenario) { s.times = always(4) }),
		base.with("once in each of 3 grows slow by 5 %", func(s *scenario) { s.times, s.grows, s.growCV, s.together = always(3), 3, 0.05, true }),
		base.with("once in each of 5 grows slow by 10 %", func(s *scenario) { s.times, s.grows, s.growCV, s.together = always(5), 5, 0.1, true }),
	}
}

// writePlans tries plans and writes in how many of a hundred cases they are met.
func writePlans(w io.Writer, replicates int, seed uint64) error {
	if _, err := fmt.Fprintf(w, "\n### Plans of further readings\n\nThe hours of one way to within %g %%, %d invented growers a row: in how many of 100 cases a plan is met that says\nit will be, once its readings are taken.\n\n| readings so far | plans | readings planned | met |\n| --- | --: | --: | --: |\n", 100*planWithin, replicates); err != nil {
		return err
	}
	for _, s := range plans() {
		outcomes := make([]planTrial, replicates)
		var group sync.WaitGroup
		room := make(chan struct{}, runtime.GOMAXPROCS(0))
		for i := range outcomes {
			room <- struct{}{}
			group.Go(func() {
				outcomes[i] = s.tryPlan(stream(seed, "plan "+s.name, i))
				<-room
			})
		}
		group.Wait()
		promised, reached, readings := 0, 0, 0
		for _, p := range outcomes {
			if p.promised && p.readings > 0 {
				promised++
				readings += p.readings
				if p.reached {
					reached++
				}
			}
		}
		if _, err := fmt.Fprintf(w, "| %s | %d | %.0f | %.0f |\n", s.name, promised, float64(readings)/float64(max(promised, 1)), 100*float64(reached)/float64(max(promised, 1))); err != nil {
			return err
		}
	}
	return nil
}
