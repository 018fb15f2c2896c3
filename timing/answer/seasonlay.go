package answer

import (
	"slices"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// sowingGrows are the grows of one sowing.
type sowingGrows struct {
	sowing   study.Sowing
	workflow study.Workflow
	heads    float64 // of one
	visits   []visit
	starts   []int
}

// layOut lays out the study's sowings and chores over its season.
func layOut(m *Models) *seasonLayout {
	days := m.Study.Season.Length()
	l := &seasonLayout{models: m, days: days, used: make([]bool, len(m.Steps)), loads: m.rows(days), apart: m.rows(days), joint: m.rows(days),
		heads: make([]float64, days/7), kg: make([]study.Maybe, days/7), revenue: make([]study.Maybe, days/7), m2: make([]float64, days)}
	for w := range l.kg {
		l.kg[w], l.revenue[w] = study.Known(0), study.Known(0)
	}
	for _, s := range m.Study.Sowings {
		w := mustWorkflow(m.Study, s.Workflow)
		g := sowingGrows{sowing: s, workflow: w, starts: s.Starts(days)}
		perHead := m.Study.Propagation(w).CellsPerHead()
		g.heads = s.Heads.Value
		if s.Cells.Known {
			g.heads = s.Cells.Value / perHead
		}
		g.visits = m.visitsEvery(w, g.heads, 0)
		l.grows = append(l.grows, g)
		l.takeGrows(g)
		l.sown = append(l.sown, l.sum(g, perHead))
	}
	l.chores()
	for day := range l.joint {
		for i, load := range l.joint[day] {
			if load.Count > 0 {
				l.joint[day][i] = m.Study.Steps[i].LoadFor(load.Count)
			}
		}
	}
	l.hours()
	return l
}

// rows is a linear form for each day, all nothing.
func (m *Models) rows(days int) []linear {
	all, rows := make(linear, days*len(m.Steps)), make([]linear, days)
	for day := range rows {
		rows[day] = all[day*len(m.Steps) : (day+1)*len(m.Steps)]
	}
	return rows
}

// mustWorkflow is the workflow of a sowing, which folder.ReadStudy has seen to be there.
func mustWorkflow(s study.Study, name string) study.Workflow {
	for _, w := range s.Workflows {
		if w.Name == name {
			return w
		}
	}
	return study.Workflow{Name: name}
}

func (l *seasonLayout) use(step int) {
	if !l.used[step] {
		l.used[step] = true
		l.order = append(l.order, step)
	}
}

// takeGrows adds the visits of all grows of a sowing.
func (l *seasonLayout) takeGrows(g sowingGrows) {
	for _, v := range g.visits {
		for _, start := range g.starts {
			day := start + v.day
			if day >= l.days {
				break
			}
			l.use(v.step)
			if v.joint {
				l.joint[day][v.step].Count += v.count
				continue
			}
			l.loads[day].add(v.step, v.load())
			l.apart[day].add(v.step, v.load())
		}
	}
}

func (l *seasonLayout) chores() {
	for _, c := range l.models.Study.Chores {
		i := l.models.Index[c.Step]
		l.use(i)
		for day := 0; day < l.days; day += c.EveryDays {
			if l.models.Study.Steps[i].Together {
				l.joint[day][i].Count += c.Count
			} else {
				l.loads[day].add(i, l.models.choreLoad(c, 1))
			}
		}
	}
}

// cutShort says whether a grow that starts on a day loses something to the season's end.
func (l *seasonLayout) cutShort(g sowingGrows, start int) bool {
	return slices.ContainsFunc(g.visits, func(v visit) bool { return start+v.day >= l.days }) ||
		slices.ContainsFunc(g.workflow.Cuts, func(c study.Cut) bool { return start+c.Day >= l.days }) ||
		slices.ContainsFunc(g.workflow.Space, func(s study.SpaceUse) bool { return start+s.To > l.days })
}

// sum adds up what a sowing's grows give and use, all but their hours.
func (l *seasonLayout) sum(g sowingGrows, cellsPerHead float64) SownInAll {
	w, st := g.workflow, l.models.Study
	sale := st.SaleOf(w)
	s := SownInAll{Workflow: w.Name, Cells: float64(len(g.starts)) * g.heads * cellsPerHead, FirstDay: g.starts[0], LastDay: g.starts[len(g.starts)-1],
		Grows: len(g.starts), Unit: sale.Unit, Price: sale.Price, Units: study.Known(0), Kg: study.Known(0)}
	if w.Crop != "" {
		s.Crop = &w.Crop
	}
	if g.sowing.EveryDays > 0 {
		s.EveryDays = &g.sowing.EveryDays
	}
	yields := st.Yields(w, g.heads)
	for _, start := range g.starts {
		if l.cutShort(g, start) {
			s.CutShort++
		}
		for _, y := range yields {
			l.harvest(&s, sale, start+y.Day, y)
		}
	}
	if slices.ContainsFunc(yields, func(y study.Yield) bool { return !y.Kg.Known }) {
		s.Kg, s.Units = study.Maybe{}, sale.Units(s.Heads, study.Maybe{}) // unknown even where nothing was harvested
	}
	s.Sold = sale.Sold(s.Units)
	s.Revenue = sale.Revenue(s.Sold)
	for week := range l.kg {
		l.kg[week] = l.kg[week].And(study.Known(0).By(s.Kg)) // unknown where the sowing's is
		l.revenue[week] = l.revenue[week].And(study.Known(0).By(s.Revenue))
	}
	for _, line := range l.models.otherLines(w, g.heads) {
		if line.Kind == SupplyLine {
			s.Supplies += line.Amount.Value * float64(len(g.starts))
		}
	}
	s.Space = l.takeSpace(g) * st.SpacePrice.Value
	return s
}

// harvest adds what a grow gives on a day, where that is within the season.
func (l *seasonLayout) harvest(s *SownInAll, sale study.Sale, day int, y study.Yield) {
	if day >= l.days {
		return
	}
	units := sale.Units(y.Heads, y.Kg)
	s.Heads += y.Heads
	s.Kg, s.Units = s.Kg.And(y.Kg), s.Units.And(units)
	week := day / 7
	l.heads[week] += y.Heads
	l.kg[week] = l.kg[week].And(y.Kg)
	l.revenue[week] = l.revenue[week].And(sale.Revenue(sale.Sold(units)))
}

// takeSpace adds the space of a sowing's grows to its days, and gives their square metre
// days within the season.
func (l *seasonLayout) takeSpace(g sowingGrows) (m2days float64) {
	counts := l.models.Study.Propagation(g.workflow).Counts()
	for _, row := range g.workflow.Space {
		m2 := row.M2 * counts.Count(row.Count, row.From, g.heads)
		for _, start := range g.starts {
			for day := start + row.From; day < min(start+row.To, l.days); day++ {
				l.m2[day] += m2
				m2days += m2
			}
		}
	}
	return m2days
}

// hours gives each sowing its hours: its own tasks, and of joint doings its part.
func (l *seasonLayout) hours() {
	for k, g := range l.grows {
		loads := make(linear, len(l.models.Steps))
		l.eachVisit(g, func(_ int, step int, load stepfit.Load) { loads.add(step, load) })
		l.sown[k].Hours = l.models.evaluate(workload{loads: loads}, asModelled).value * l.models.perHour()
	}
	var all float64
	for _, s := range l.sown {
		all += s.Hours
	}
	for k := range l.sown {
		l.sown[k].Share = study.Known(l.sown[k].Hours).Over(study.Known(all))
	}
}

// eachVisit goes through what grows of a sowing bear, day by day of each visit.
func (l *seasonLayout) eachVisit(g sowingGrows, f func(day, step int, load stepfit.Load)) {
	for _, v := range g.visits {
		for _, start := range g.starts {
			day := start + v.day
			if day >= l.days {
				break
			}
			if v.joint {
				visit := l.joint[day][v.step]
				f(day, v.step, stepfit.Load{Setups: visit.Setups * (v.count / visit.Count), Count: v.count})
				continue
			}
			f(day, v.step, v.load())
		}
	}
}

func (l *seasonLayout) week(week int) linear {
	sum := make(linear, len(l.models.Steps))
	for day := 7 * week; day < 7*week+7; day++ {
		for i := range sum {
			sum[i] = sum[i].Plus(l.loads[day][i]).Plus(l.joint[day][i])
		}
	}
	return sum
}

func (l *seasonLayout) total() linear {
	sum := make(linear, len(l.models.Steps))
	for week := range l.days / 7 {
		sum = sum.plus(l.week(week), 1)
	}
	return sum
}

// calendar is the days with work on them.
func (l *seasonLayout) calendar() []CalendarDay {
	var days []CalendarDay
	for day := range l.days {
		d := CalendarDay{Day: day}
		for _, i := range l.order {
			load := l.loads[day][i].Plus(l.joint[day][i])
			if load == (stepfit.Load{}) {
				continue
			}
			j := CalendarJob{Step: l.models.Study.Steps[i].Name, Count: load.Count}
			if !l.models.Steps[i].isGap() {
				j.Hours = study.Known(l.models.takes(i, load) * l.models.perHour())
				d.Hours += j.Hours.Value
			}
			d.Tasks = append(d.Tasks, j)
		}
		if d.Tasks != nil {
			days = append(days, d)
		}
	}
	return days
}

// byCrop is the hours of each week by crop, sowings of none by their workflow, and what
// is left for chores.
func (l *seasonLayout) byCrop() []CropWeeks {
	var crops []CropWeeks
	rest := make([]float64, l.days/7)
	hours := func(step int, load stepfit.Load) float64 {
		if !l.models.Steps[step].isGap() {
			return l.models.takes(step, load) * l.models.perHour()
		}
		return 0
	}
	for day := range l.days {
		for i := range l.models.Steps {
			rest[day/7] += hours(i, l.loads[day][i].Plus(l.joint[day][i]))
		}
	}
	for _, g := range l.grows {
		name := g.workflow.Crop
		if name == "" {
			name = g.workflow.Name
		}
		k := slices.IndexFunc(crops, func(c CropWeeks) bool { return c.Crop == name })
		if k < 0 {
			k, crops = len(crops), append(crops, CropWeeks{name, make([]float64, l.days/7)})
		}
		l.eachVisit(g, func(day, step int, load stepfit.Load) {
			h := hours(step, load)
			crops[k].Hours[day/7] += h
			rest[day/7] -= h
		})
	}
	if len(l.models.Study.Chores) > 0 {
		crops = append(crops, CropWeeks{"chores", rest})
	}
	return crops
}

// seasonLayout is a season day by day: what falls on it, and what it gives.
type seasonLayout struct {
	models  *Models
	days    int
	sown    []SownInAll
	grows   []sowingGrows
	loads   []linear // by day: what is done apart, for grows and as chores
	apart   []linear // by day: of that, what is for grows
	joint   []linear // by day: counts of joint steps, setups once all is known
	order   []int    // steps in order of first use
	used    []bool   // by step
	heads   []float64
	kg      []study.Maybe
	revenue []study.Maybe
	m2      []float64 // by day
}
