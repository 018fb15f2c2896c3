package answer_test

import (
	"fmt"
	"slices"

	"headhours/timing/study"
)

// aVisit is what a grow bears of a doing of a step on a day.
type aVisit struct {
	step, day     int
	setups, count float64
	doing         int // of the doings
}

// aDoing is a doing, and the share of it that falls to the visits of one of a grow's days.
type aDoing struct {
	step          int
	setups, count float64
	share         float64
}

// setupsFor is how many setups a count calls for.
func setupsFor(s study.Step, count float64) float64 {
	if s.SetupCovers == 0 {
		return 1
	}
	return up(count / s.SetupCovers)
}

// visits are those of one grow, met by its like every so many days (0: by none), and how
// the scatter of doings comes to it.
func (p *plain) visits(w study.Workflow, heads float64, every int) (visits []aVisit, doings []aDoing) {
	g := p.growing(w)
	sums := map[string]float64{} // of joint doings
	onDay := map[string]float64{}
	var keys, days []string
	for _, t := range w.Tasks {
		i := p.index(t.Step)
		for _, day := range t.Days {
			count := g.whole(t.Count, day, heads) * t.Each
			if count < 1e-9 {
				keys, days = append(keys, ""), append(days, "")
				continue
			}
			meets := day
			if every > 0 {
				meets = day % every
			}
			key := fmt.Sprint(i, " ", meets)
			keys, days = append(keys, key), append(days, fmt.Sprint(key, " ", day))
			sums[key] += count
			onDay[days[len(days)-1]] += count
		}
	}
	at := 0
	for _, t := range w.Tasks {
		i := p.index(t.Step)
		step := p.steps[i].Step
		for _, day := range t.Days {
			key, onThis := keys[at], days[at]
			at++
			if key == "" {
				continue
			}
			count := g.whole(t.Count, day, heads) * t.Each
			if !step.Together {
				n := float64(t.SharedBy)
				setups := setupsFor(step, n*count)
				visits = append(visits, aVisit{i, day, setups / n, count, len(doings)})
				doings = append(doings, aDoing{i, setups, n * count, 1 / n})
				continue
			}
			setups := setupsFor(step, sums[key])
			visits = append(visits, aVisit{i, day, setups * count / sums[key], count, len(doings)})
			if !slices.Contains(days[:at-1], onThis) {
				doings = append(doings, aDoing{i, setups, sums[key], onDay[onThis] / sums[key]})
			} else { // its share is in the day's first; kept for where counts are looked at
				doings = append(doings, aDoing{i, setups, sums[key], 0})
			}
		}
	}
	return visits, doings
}

// aLoad is so many setups and units of a step, as they are to be done.
type aLoad struct {
	step, visits  int
	setups, count float64
}

// loads sums visits up by step, in order of first use.
func loads(visits []aVisit) (list []aLoad) {
	for _, v := range visits {
		at := slices.IndexFunc(list, func(l aLoad) bool { return l.step == v.step })
		if at < 0 {
			at, list = len(list), append(list, aLoad{step: v.step})
		}
		l := &list[at]
		l.visits, l.setups, l.count = l.visits+1, l.setups+v.setups, l.count+v.count
	}
	return list
}

func order(list []aLoad) (steps []int) {
	for _, l := range list {
		steps = append(steps, l.step)
	}
	return steps
}

// aForm is a linear form in all setup and unit times.
type aForm [][2]float64

// form is that of loads, of the steps that answer for them.
func (p *plain) form(list []aLoad) aForm {
	c := make(aForm, len(p.steps))
	for _, l := range list {
		s := p.steps[l.step]
		c[s.by][0] += l.setups * s.factor[0]
		c[s.by][1] += l.count * s.factor[1]
	}
	return c
}

func (c aForm) plus(d aForm, f float64) aForm {
	sum := make(aForm, len(c))
	for i := range c {
		sum[i] = [2]float64{c[i][0] + f*d[i][0], c[i][1] + f*d[i][1]}
	}
	return sum
}

// less is b − a, coefficients that cancel but for rounding being 0.
func less(b, a aForm) aForm {
	d := b.plus(a, -1)
	for i := range d {
		for k := range d[i] {
			if abs(d[i][k]) < 1e-9*max(abs(a[i][k]), abs(b[i][k])) {
				d[i][k] = 0
			}
		}
	}
	return d
}

func abs(x float64) float64 { return max(x, -x) }

// line is a grow's form as fixed + each·heads, for break-evens.
func (p *plain) line(w study.Workflow, every int) (fixed, each aForm) {
	type sum struct {
		step        int
		fixed, each float64
		shared      float64
	}
	g, sums := p.growing(w), map[string]*sum{}
	var all []*sum
	fixed, each = make(aForm, len(p.steps)), make(aForm, len(p.steps))
	for t, task := range w.Tasks {
		i := p.index(task.Step)
		for _, day := range task.Days {
			a, b := g.count(task.Count, day)
			a, b = a*task.Each, b*task.Each
			if abs(a)+abs(b) < 1e-12 {
				continue
			}
			key := fmt.Sprint(t, " alone ", day)
			if p.steps[i].Together {
				meets := day
				if every > 0 {
					meets = day % every
				}
				key = fmt.Sprint(i, " ", meets)
			}
			if sums[key] == nil {
				sums[key] = &sum{step: i, shared: float64(task.SharedBy)}
				all = append(all, sums[key])
			}
			sums[key].fixed += a
			sums[key].each += b
		}
	}
	for _, d := range all {
		s := p.steps[d.step]
		a, b, covers := [2]float64{1 / d.shared, d.fixed}, [2]float64{0, d.each}, s.SetupCovers
		switch {
		case covers > 0 && d.each == 0:
			a[0] = up(d.shared*d.fixed/covers) / d.shared
		case covers > 0:
			a[0], b[0] = d.fixed/covers+0.5/d.shared, d.each/covers
		}
		for k := range a {
			fixed[s.by][k] += a[k] * s.factor[k]
			each[s.by][k] += b[k] * s.factor[k]
		}
	}
	return fixed, each
}
