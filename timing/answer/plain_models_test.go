package answer_test

import (
	"cmp"
	"math"
	"time"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"
)

// aStep is a step, or a part of one before a change, as its readings have it.
type aStep struct {
	study.Step
	rows         []aRow
	voided       int
	gap          bool
	point, doubt aFit
	setup        *aFit
	// The step that answers for it, itself unless it is after a change and not timed, and what
	// its setups and count are multiplied by then.
	by     int
	factor [2]float64
}

// plain are the models of a case: the study's steps, and behind them their parts before
// changes.
type plain struct {
	anyCase
	steps      []*aStep
	parts      map[string][]int // of a changed step, the present last
	effect     *anEffect
	own        bool
	c2, level  float64 // c² and D; with own, the pooled CV² and its df
	confidence float64
}

// madeOf are the changes of a step that were made, in the order of their days.
func (c anyCase) madeOf(step string) (made []study.MadeChange) {
	for _, m := range c.study.Made {
		if m.Step == step {
			made = append(made, m)
		}
	}
	return made
}

func model(c anyCase) *plain {
	p := &plain{anyCase: c, own: c.options.Scatter == answer.OwnScatter, effect: &anEffect{}, parts: map[string][]int{},
		confidence: cmp.Or(c.options.Confidence, c.study.Confidence)}
	for i, s := range c.study.Steps {
		p.steps = append(p.steps, &aStep{Step: s, by: i, factor: [2]float64{1, 1}})
	}
	for i, s := range c.study.Steps {
		for range c.madeOf(s.Name) {
			p.parts[s.Name] = append(p.parts[s.Name], len(p.steps))
			p.steps = append(p.steps, &aStep{Step: s, by: len(p.steps), factor: [2]float64{1, 1}})
		}
		p.parts[s.Name] = append(p.parts[s.Name], i)
	}
	for _, r := range c.readings {
		s := p.steps[p.partOn(r.Step, r.Date)]
		if r.Void != "" {
			s.voided++
			continue
		}
		m := 1.0
		switch {
		case r.Setups.Known:
			m = r.Setups.Value
		case s.SetupCovers > 0:
			m = up(r.Count / s.SetupCovers)
		}
		s.rows = append(s.rows, aRow{m, r.Count, r.Seconds * r.People * r.Rating / 100, r.Grow, r.Worker, r.Workflow, r.Place})
	}
	for _, s := range p.steps {
		switch form := cmp.Or(string(c.options.Form), s.Form); {
		case len(s.rows) > 0:
			s.point, s.doubt, s.setup = modelled(s.rows, form, cmp.Or(c.options.Spread, s.Spread))
		case s.Estimate != nil:
			s.point, s.doubt = judgedFit(*s.Estimate), judgedFit(*s.Estimate)
		default:
			s.gap = true
		}
	}
	p.hope()
	p.settleEffect()
	p.lend()
	return p
}

func up(x float64) float64 { return math.Ceil(x * (1 - 1e-9)) }

// partOn is the part of a step that a day's readings are of.
func (p *plain) partOn(step string, day time.Time) int {
	parts, at := p.parts[step], 0
	for _, m := range p.madeOf(step) {
		if !day.IsZero() && !day.Before(m.Since) {
			at++
		}
	}
	return parts[at]
}

// hope lets the part before answer for one that was not timed, with what the change between
// them was hoped to do; the first answers for itself, be it by an estimate.
func (p *plain) hope() {
	for _, s := range p.study.Steps {
		parts := p.parts[s.Name]
		for k, m := range p.madeOf(s.Name) {
			part, before := p.steps[parts[k+1]], p.steps[parts[k]]
			if len(part.rows) > 0 {
				continue
			}
			part.by = before.by
			part.factor[0] = before.factor[0] * m.SetupFactor * orOne(m.VisitsFactor)
			part.factor[1] = before.factor[1] * m.UnitFactor * orOne(m.CountFactor)
		}
	}
}

func orOne(m study.Maybe) float64 {
	if m.Known {
		return m.Value
	}
	return 1
}

func (p *plain) settleEffect() {
	grows, workers := effectOf("grow", p.steps), effectOf("worker", p.steps)
	switch p.options.Grouping {
	case "grow":
		p.effect = grows
	case "worker":
		p.effect = workers
	case answer.NoGrouping:
	default:
		p.effect = grows
		if workers.exists && (!grows.exists || workers.tau2 > grows.tau2*(1+1e-9)) {
			p.effect = workers
		}
	}
}

// lend gives every fit the scatter that answers take.
func (p *plain) lend() {
	sum := 0.0
	if !p.own {
		sum, p.level = 8*0.20*0.20, 8
	}
	for _, s := range p.steps {
		if len(s.rows) == 0 {
			continue
		}
		s.doubt.s2 = p.effect.corrected(&s.doubt, s.rows)
		if s.setup != nil {
			s.setup.s2 = p.effect.corrected(s.setup, s.rows)
		}
		if d := s.doubt.d; d > 0 {
			w := 3 * d / (d + 3)
			if p.own {
				w = d
			}
			sum, p.level = sum+w*s.doubt.phi(s.doubt.s2), p.level+w
		}
	}
	p.c2 = sum / p.level // not a number where nothing is known; not used then
	for _, s := range p.steps {
		if len(s.rows) > 0 {
			p.lendTo(&s.doubt, s.Estimate)
			if s.setup != nil {
				p.lendTo(s.setup, s.Estimate)
			}
		}
	}
}

func (p *plain) lendTo(f *aFit, estimate *study.Estimate) {
	switch {
	case !p.own:
		lacks := max(3-f.d, 0)
		f.nu = lacks + f.d
		f.lambda = lacks / f.nu
		phi := 0.0
		if f.d > 0 {
			phi = f.phi(f.s2)
		}
		if f.lambda > 0 {
			f.s2 = f.scatterOf(f.lambda*p.c2 + (1-f.lambda)*phi)
		}
	case f.d > 0:
	case p.level > 0:
		f.lambda, f.s2 = 1, f.scatterOf(p.c2)
	case estimate != nil:
		cv := (estimate.High - estimate.Low) / (estimate.Low + 4*estimate.Likely + estimate.High)
		f.guess, f.nu, f.s2 = true, math.Inf(1), f.scatterOf(cv*cv)
	default:
		f.none = true
	}
}

func (p *plain) index(step string) int {
	for i, s := range p.study.Steps {
		if s.Name == step {
			return i
		}
	}
	panic("no step " + step)
}

// answering is the step that answers for a step.
func (p *plain) answering(i int) *aStep { return p.steps[p.steps[i].by] }

// gaps are the steps of some loads that nothing is known of.
func (p *plain) gapsOf(order []int) []any {
	gaps := []any{}
	for _, i := range order {
		if p.answering(i).gap {
			gaps = append(gaps, p.steps[i].Name)
		}
	}
	return gaps
}

// standard is the standard hours of basic seconds.
func (p *plain) standard(seconds float64) float64 { return (1 + p.study.Allowance) * seconds / 3600 }

// growing is what decides a way's counts: its chance of a filled cell, and of a plant to
// be alive on a day.
type growing struct {
	k, g, p float64
	way     study.Workflow
}

func (p *plain) growing(w study.Workflow) growing {
	g := growing{k: float64(w.SeedsPerCell), g: p.study.Germination.Share, way: w}
	if w.Germination != nil {
		g.g = w.Germination.Share
	}
	g.p = 1
	for range w.SeedsPerCell {
		g.p *= 1 - g.g
	}
	g.p = 1 - g.p
	if w.Bought {
		g.k, g.g, g.p = 1, 1, 1
	}
	return g
}

func (g growing) alive(day int) float64 {
	left := 1.0
	for _, l := range g.way.Losses {
		if l.Day <= day {
			left *= 1 - l.Share
		}
	}
	return left
}

// cells are S for so many heads.
func (g growing) cells(heads float64) float64 { return heads / (g.p * g.alive(math.MaxInt)) }

// count is a count word on a day, fixed + each·heads: trays are rounded up by half a one.
func (g growing) count(w crop.Word, day int) (fixed, each float64) {
	s := g.cells(1)
	if g.way.Bought && (w == crop.Seeds || w == crop.Empty || w == crop.Surplus) {
		return 0, 0
	}
	switch w {
	case crop.Seeds:
		return 0, g.k * s
	case crop.Cells:
		return 0, s
	case crop.Trays:
		return 0.5, s / float64(g.way.CellsPerTray)
	case crop.Filled:
		return 0, g.p * s
	case crop.Empty:
		return 0, s - g.p*s
	case crop.Surplus:
		return 0, (g.k*g.g - g.p) * s
	case crop.Plants:
		return 0, g.p * s * g.alive(day)
	case crop.Heads:
		return 0, 1
	}
	return 1, 0
}

// whole is a count word on a day for so many heads.
func (g growing) whole(w crop.Word, day int, heads float64) float64 {
	if w == crop.Trays {
		return up(g.cells(heads) / float64(g.way.CellsPerTray))
	}
	fixed, each := g.count(w, day)
	return fixed + each*heads
}
