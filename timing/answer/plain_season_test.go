package answer_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"headhours/timing/answer"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

func TestSeasonBySecondWay(t *testing.T) {
	forCases(t, 100, func(t *testing.T, p *plain) {
		got, err := answer.PlanSeason(p.models(), p.earn)
		require.NoError(t, err)
		if want := p.season(); want["hours_h"].(float64) >= 0 { // no day is the longest where a form that was asked for says that all take less than nothing
			sameJSON(t, want, got, "season")
		}
	})
}

// aGrow is a grow of a sowing.
type aGrow struct {
	sowing, start int
	way           study.Workflow
	heads         float64 // as sown
}

// aPlace is a season walked day by day.
type aPlace struct {
	*plain
	days   int
	grows  []aGrow
	pieces aDay
	gives  []map[int]aHarvest // of each grow, by day of the season
	m2     []float64          // in use, by day
	grow2  []float64          // square metre days of each grow
	short  []bool             // of each grow, that something of it is left out
}

func (p *plain) walk() *aPlace {
	a := &aPlace{plain: p, days: p.study.Season.Days, pieces: aDay{}}
	a.m2 = make([]float64, a.days)
	in := func(day int) bool { return day >= 0 && day < a.days }
	for i, s := range p.study.Sowings {
		w, _ := p.study.OneWorkflow(s.Workflow)
		heads := orNaN(s.Heads)
		if s.Cells.Known {
			heads = s.Cells.Value / p.growing(w).cells(1)
		}
		for start := s.From; in(start); start += s.EveryDays {
			if s.Until == nil || start <= *s.Until {
				a.grows = append(a.grows, aGrow{i, start, w, heads})
			}
			if s.EveryDays == 0 {
				break
			}
		}
	}
	for i, g := range a.grows {
		all, short := aDay{}, false
		p.plan(all, i, g.way, g.heads, g.start)
		for day, pieces := range all {
			if !in(day) {
				short = true
				continue
			}
			a.pieces[day] = append(a.pieces[day], pieces...)
		}
		for _, c := range g.way.Cuts {
			short = short || !in(g.start+c.Day)
		}
		var used float64
		for day, m2 := range p.squareMetres(g.way, g.heads) {
			if !in(g.start + day) {
				short = true
				continue
			}
			a.m2[g.start+day] += m2
			used += m2
		}
		a.grow2, a.short = append(a.grow2, used), append(a.short, short)
		a.gives = append(a.gives, a.harvests(g))
	}
	p.planChores(a.pieces, a.days-1)
	for day := range a.pieces {
		slices.SortStableFunc(a.pieces[day], func(x, y aPiece) int { return x.grow - y.grow })
		a.pieces[day] = p.meet(a.pieces[day])
	}
	return a
}

// harvests are what a grow gives on days of the season, heads and kilograms each on theirs.
func (a *aPlace) harvests(g aGrow) map[int]aHarvest {
	gives := map[int]aHarvest{}
	days := []int{harvestDay(g.way)}
	for _, c := range g.way.Cuts {
		days = append(days, c.Day)
	}
	for _, day := range days {
		if at := g.start + day; at < a.days {
			heads := 0.0
			if day == days[0] {
				heads = g.heads
			}
			kg := a.kilograms(g.way, g.heads, func(d int) bool { return d == day })
			h := a.harvest(g.way, heads, kg)
			gives[at] = h
		}
	}
	return gives
}

func (a *aPlace) headsOn(g int, day int) float64 {
	if day-a.grows[g].start == harvestDay(a.grows[g].way) {
		return a.grows[g].heads
	}
	return 0
}

// sumForm is the form of pieces of work that are asked for, and what they come to by step.
func (a *aPlace) sumForm(take func(day int, x aPiece) bool) (aForm, map[int]aLoad) {
	by := map[int]aLoad{}
	for day, pieces := range a.pieces {
		for _, x := range pieces {
			if take(day, x) {
				l := by[x.step]
				by[x.step] = aLoad{x.step, l.visits + 1, l.setups + x.setups, l.count + x.count}
			}
		}
	}
	var list []aLoad
	for _, l := range by {
		list = append(list, l)
	}
	slices.SortFunc(list, func(x, y aLoad) int { return x.step - y.step })
	return a.form(list), by
}

// perHour is what an hour costs, not a number without a wage.
func (p *plain) perHour() float64 {
	if l := p.study.Labour; l != nil {
		return l.Wage * (1 + l.OnCost)
	}
	return math.NaN()
}

func (a *aPlace) date(day int) any {
	if a.study.Season.Start.IsZero() {
		return nil
	}
	return a.study.Season.Start.AddDate(0, 0, day).Format(time.DateOnly)
}

// firstGreatest is where the greatest stands first, a billionth being no difference.
func firstGreatest(list []float64) int {
	most := slices.Max(list)
	return slices.IndexFunc(list, func(x float64) bool { return x >= most-1e-9*abs(most) })
}

// inOrderOfUse are the steps in order of first use: sowings in the study's order, then chores.
func (a *aPlace) inOrderOfUse(by map[int]aLoad) (steps []int) {
	add := func(i int) {
		if _, used := by[i]; used && !slices.Contains(steps, i) {
			steps = append(steps, i)
		}
	}
	for i, s := range a.study.Sowings {
		used := map[int]bool{}
		for _, pieces := range a.pieces {
			for _, x := range pieces {
				if x.grow >= 0 && a.grows[x.grow].sowing == i {
					used[x.step] = true
				}
			}
		}
		w, _ := a.study.OneWorkflow(s.Workflow)
		for _, t := range w.Tasks {
			if used[a.index(t.Step)] {
				add(a.index(t.Step))
			}
		}
	}
	for _, c := range a.study.Chores {
		add(a.index(c.Step))
	}
	return steps
}

func (p *plain) season() tree {
	a := p.walk()
	whole, by := a.sumForm(func(int, aPiece) bool { return true })
	s := p.span(whole, nil).ofTime()
	hours := p.standard(s.value)
	earn := orNaN(p.earn)
	if !p.earn.Known {
		earn = p.perHour()
	}
	row := tree{"start": a.date(0), "days": a.days, "currency": textOr(p.study.Currency), "confidence": p.confidence, "common": p.effect.common(),
		"earn": earn, "hours_h": hours, "low_h": p.standard(s.low), "high_h": p.standard(s.high), "df": s.df}
	used := a.inOrderOfUse(by)
	steps := []any{}
	for _, i := range used {
		l, gap := by[i], p.answering(i).gap
		steps = append(steps, tree{"step": p.steps[i].Name, "setups": l.setups, "count": l.count,
			"hours_h": known(!gap, p.stepHours(l)), "share": known(!gap, p.stepHours(l)/hours)})
	}
	row["steps"], row["gaps"] = steps, p.gapsOf(used)
	row["changes"] = a.savings(by, earn)
	money := a.money(row, hours, p.standard(s.low)/hours, p.standard(s.high)/hours, earn)
	row["sowings"] = a.sowings(money, earn)
	a.longest(row)
	a.space(row)
	return row
}

func (a *aPlace) savings(by map[int]aLoad, earn float64) []any {
	rows := []any{}
	for _, c := range a.study.Changes {
		l, found := by[a.index(c.Step)]
		l.step = a.index(c.Step)
		s := a.span(a.form([]aLoad{saving(c, l)}), nil)
		if found && a.answering(l.step).gap {
			s = aSpan{value: math.NaN(), low: math.NaN(), high: math.NaN()}
		}
		days := orNaN(c.Outlay) / (a.standard(s.value) * earn / float64(a.days))
		if !(a.standard(s.value)*earn > 0) {
			days = math.NaN()
		}
		rows = append(rows, tree{"name": c.Name, "saved_h": a.standard(s.value), "low_h": a.standard(s.low), "high_h": a.standard(s.high), "payback_days": days})
	}
	return rows
}

func (a *aPlace) longest(row tree) {
	hours := make([]float64, a.days)
	for day := range hours {
		hours[day] = a.hoursOf(a.pieces[day])
	}
	day := firstGreatest(hours)
	row["longest_day"] = tree{"day": day, "date": a.date(day), "hours_h": hours[day]}
}

func (a *aPlace) space(row tree) {
	day := firstGreatest(a.m2)
	row["space_peak_m2"], row["space_peak_day"], row["space_over"] = a.m2[day], known(a.m2[day] > 0, float64(day)), nil
	if there := a.study.SpaceM2; there.Known {
		over := []any{}
		for day, m2 := range a.m2 {
			if m2 > there.Value*(1+1e-9) {
				over = append(over, day)
			}
		}
		row["space_over"] = over
	}
}
