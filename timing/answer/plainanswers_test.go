package answer

import (
	"math"

	"headhours/timing/study"
)

// plainModels are what answers are worked out from, plainly.
type plainModels struct {
	study      study.Study
	steps      []plainStep
	effect     *plainEffect
	own        bool
	square, df float64 // that are lent, c² and D
	confidence float64
}

func plainlyModelled(st study.Study, readings []study.Reading, o Options) *plainModels {
	p := &plainModels{study: st, own: o.Scatter == OwnScatter, confidence: o.Confidence, effect: &plainEffect{}}
	for _, step := range st.Steps {
		s := plainStep{estimate: step.Estimate}
		for _, r := range readings {
			if r.Step != step.Name || r.Void != "" {
				continue
			}
			m := 1.0
			switch {
			case r.Setups.Known:
				m = r.Setups.Value
			case step.SetupCovers > 0:
				m = math.Ceil(r.Count / step.SetupCovers * (1 - 1e-9))
			}
			s.rows = append(s.rows, plainRow{m, r.Count, r.Seconds * r.People * r.Rating / 100, r.Grow, r.Worker})
		}
		switch {
		case len(s.rows) > 0:
			s.point, s.doubt, s.setup = plainlyChosen(s.rows, step.Form, step.Spread)
		case step.Estimate != nil:
			j, at := step.Estimate, 1
			if j.OfVisit {
				at = 0
			}
			f := plainFit{judged: true, form: []string{"setup", "unit"}[at], df: math.Inf(1), nu: math.Inf(1)}
			f.beta[at], f.inverse[at][at] = (j.Low+4*j.Likely+j.High)/6, 1
			f.s2 = (j.High - j.Low) * (j.High - j.Low) / 36
			s.point, s.doubt = f, f
		default:
			s.gap = true
		}
		p.steps = append(p.steps, s)
	}
	grows, workers := plainEffectOf("grow", p.steps), plainEffectOf("worker", p.steps)
	switch o.Grouping {
	case ByGrow:
		p.effect = grows
	case ByWorker:
		p.effect = workers
	case AutoGrouping, "":
		p.effect = grows
		if !grows.exist || workers.exist && workers.square > grows.square*(1+1e-9) {
			p.effect = workers
		}
	}
	p.lend()
	return p
}

func (p *plainModels) lend() {
	for i := range p.steps {
		s := &p.steps[i]
		if len(s.rows) > 0 {
			s.doubt.s2 = p.effect.without(s.doubt, s.rows)
			if s.setup != nil {
				s.setup.s2 = p.effect.without(*s.setup, s.rows)
			}
		}
	}
	sum := 0.0
	if !p.own {
		sum, p.df = 8*0.2*0.2, 8
	}
	for _, s := range p.steps {
		if len(s.rows) == 0 || s.doubt.df == 0 {
			continue
		}
		w := 3 * s.doubt.df / (s.doubt.df + 3)
		if p.own {
			w = s.doubt.df
		}
		sum, p.df = sum+w*s.doubt.cv2(), p.df+w
	}
	if p.df > 0 {
		p.square = sum / p.df
	}
	for i := range p.steps {
		s := &p.steps[i]
		if len(s.rows) == 0 {
			continue
		}
		p.use(&s.doubt, s.estimate)
		if s.setup != nil {
			p.use(s.setup, s.estimate)
		}
	}
}

// use gives a fit the scatter that answers take.
func (p *plainModels) use(f *plainFit, estimate *study.Judged) {
	f.nu = f.df
	switch {
	case !p.own:
		lent := max(3-f.df, 0)
		f.nu = lent + f.df
		f.share = lent / f.nu
		if f.share > 0 {
			own := 0.0
			if f.df > 0 {
				own = f.cv2()
			}
			f.setCV2(f.share*p.square + (1-f.share)*own)
		}
	case f.df > 0:
	case p.df > 0:
		f.share = 1
		f.setCV2(p.square)
	case estimate != nil && estimate.Low+estimate.Likely+estimate.High > 0:
		cv := (estimate.High - estimate.Low) / (estimate.Low + 4*estimate.Likely + estimate.High)
		f.guess, f.nu = true, math.Inf(1)
		f.setCV2(cv * cv)
	default:
		f.unknown = true
	}
}

// plainVisit is a doing: what this grow bears, and the whole of it.
type plainVisit struct {
	step                       int
	setups, count, doing, grow float64 // doing: its setups; grow: how many share it
}

func (p *plainModels) visits(w study.Workflow, heads float64) (visits []plainVisit) {
	for _, t := range w.Tasks {
		for range t.Days {
			i := p.index(t.Step)
			count, g := t.Each, float64(t.SharedBy)
			if t.Count == "heads" {
				count *= heads
			}
			k := 1.0
			if covers := p.study.Steps[i].SetupCovers; covers > 0 {
				k = math.Ceil(g * count / covers * (1 - 1e-9))
			}
			visits = append(visits, plainVisit{i, k / g, count, k, g})
		}
	}
	return visits
}

func (p *plainModels) index(step string) int {
	for i, s := range p.study.Steps {
		if s.Name == step {
			return i
		}
	}
	panic(step)
}

type plainForm [][2]float64

func (p *plainModels) form(visits []plainVisit) plainForm {
	c := make(plainForm, len(p.steps))
	for _, v := range visits {
		c[v.step][0] += v.setups
		c[v.step][1] += v.count
	}
	return c
}

// line is a workflow as fixed + each × heads, half a setup for what is rounded up.
func (p *plainModels) line(w study.Workflow) (fixed, each plainForm) {
	fixed, each = make(plainForm, len(p.steps)), make(plainForm, len(p.steps))
	for _, t := range w.Tasks {
		for range t.Days {
			i, g := p.index(t.Step), float64(t.SharedBy)
			covers := p.study.Steps[i].SetupCovers
			switch {
			case t.Count == "heads" && covers > 0:
				fixed[i][0] += 0.5 / g
				each[i][0] += t.Each / covers
			case covers > 0:
				fixed[i][0] += math.Ceil(g*t.Each/covers*(1-1e-9)) / g
			default:
				fixed[i][0] += 1 / g
			}
			if t.Count == "heads" {
				each[i][1] += t.Each
			} else {
				fixed[i][1] += t.Each
			}
		}
	}
	return fixed, each
}

func plainDifference(a, b plainForm) plainForm {
	d := make(plainForm, len(a))
	for i := range a {
		for k := range 2 {
			if x := b[i][k] - a[i][k]; math.Abs(x) >= 1e-9*max(math.Abs(a[i][k]), math.Abs(b[i][k])) {
				d[i][k] = x
			}
		}
	}
	return d
}

func (c plainForm) plus(d plainForm, heads float64) plainForm {
	sum := make(plainForm, len(c))
	for i := range c {
		sum[i] = [2]float64{c[i][0] + heads*d[i][0], c[i][1] + heads*d[i][1]}
	}
	return sum
}

type plainOutcome struct {
	value, full     float64
	variance, df    float64
	nextVar, nextDF float64
	unknown         bool
}

// setting: 0 as unit, −1 and 1 each bracketed step at whichever makes the answer less or more,
// 2 as setup.
func (p *plainModels) under(i, setting int, c [2]float64) (point, doubt plainFit) {
	s := p.steps[i]
	if s.setup == nil || setting == 0 {
		return s.point, s.doubt
	}
	unit, setup := s.point.at(c[0], c[1]), s.setup.at(c[0], c[1])
	if setting == 2 || setting < 0 && setup < unit || setting > 0 && setup > unit {
		return *s.setup, *s.setup
	}
	return s.point, s.doubt
}

func (p *plainModels) answer(c plainForm, visits []plainVisit, setting int) (o plainOutcome) {
	type part struct{ u, next, nu, share float64 }
	var parts []part
	h := make([]float64, len(p.effect.names))
	for i := range c {
		if p.steps[i].gap || c[i] == [2]float64{} {
			continue
		}
		point, f := p.under(i, setting, c[i])
		o.value += point.at(c[i][0], c[i][1])
		o.full += f.at(c[i][0], c[i][1])
		again := 0.0
		for _, v := range visits {
			if v.step == i && !f.judged {
				again += v.doing * f.s2 * math.Pow(v.grow*v.count/v.doing, float64(f.q)) / (v.grow * v.grow)
			}
		}
		u := f.s2 * f.lever(c[i], c[i])
		o.unknown = o.unknown || f.unknown && f.lever(c[i], c[i]) > 0
		parts = append(parts, part{u, u + again, f.nu, f.share})
		if !f.judged {
			for g, name := range p.effect.names {
				s, _ := f.crossed(p.steps[i].rows, p.effect.name, name)
				h[g] += f.lever(c[i], plainTimes(s, f.beta))
			}
		}
	}
	reach := 0.0
	for _, x := range h {
		reach += x * x
	}
	total := func(of func(part) float64, reach float64) (variance, df float64) {
		var v0, inverse, lent float64
		for _, x := range parts {
			v0 += of(x)
		}
		for _, x := range parts {
			if of(x) == 0 {
				continue
			}
			omega := of(x) / v0
			lent += omega * x.share
			if !p.own || x.share == 0 {
				inverse += omega * omega / x.nu
			}
		}
		if lent > 0 {
			inverse += lent * lent / p.df
		}
		nu0 := 1 / inverse
		if !p.effect.exist {
			return v0, nu0
		}
		e := p.effect
		variance = v0 + reach*e.square
		df = variance * variance / (v0*v0/nu0 + reach*reach*e.known*e.known/e.nu)
		return variance, max(df, min(e.nu, nu0))
	}
	o.variance, o.df = total(func(x part) float64 { return x.u }, reach)
	o.nextVar, o.nextDF = total(func(x part) float64 { return x.next }, reach+o.full*o.full)
	return o
}

func (p *plainModels) limits(o plainOutcome, variance, df float64) (low, high float64) {
	half := 0.0
	if variance > 0 {
		half = plainQuantile(p.confidence, df) * math.Sqrt(variance)
	}
	return min(o.full-half, o.value), max(o.full+half, o.value)
}
