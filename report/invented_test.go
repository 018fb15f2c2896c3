package report

import (
	"fmt"
	"time"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"
)

// The answers that the tests of this package lay out are invented here: round figures,
// so that what should be read off them can be told in the head.

var (
	known   = study.Known
	unknown study.Maybe
)

// minutes is so many minutes in hours, as answers have them.
func minutes(x float64) study.Maybe { return known(x / 60) }

// ref is where a value stands that an answer may lack.
func ref[T any](x T) *T { return &x }

// manyNames are names of ways, and of changes: as many as a table may have.
var manyNames = []string{"tray", "in place", "raft", "two trays"}

// wayOf is a way that takes so many minutes for 48 heads, give or take some: a tenth of it
// sowing, four tenths transplanting, half of it harvesting.
func wayOf(name string, mean, half float64) answer.Hours {
	h := answer.Hours{
		Workflow: name, Hours: mean / 60, MinutesPerHead: mean / 48, Gaps: []string{},
		Low: minutes(mean - half), High: minutes(mean + half), NextLow: minutes(mean - 2*half), NextHigh: minutes(mean + 2*half), DF: known(7.5),
		Rests: answer.Basis{Timed: []string{"sow", "transplant", "harvest"}},
		Gives: answer.Harvest{ByHead: true, Unit: "head"},
	}
	for step, part := range []float64{0.1, 0.4, 0.5} {
		h.Steps = append(h.Steps, answer.StepHours{
			Step: h.Rests.Timed[step], Visits: 1 + step, Setups: 1, Count: 48 + 2.5*float64(step), Hours: minutes(part * mean), Share: known(part),
		})
	}
	return h
}

// lacking is a way without the time of a step.
func lacking(h answer.Hours, step string) answer.Hours {
	h.Gaps = append([]string{}, append(h.Gaps, step)...)
	h.Steps = append(h.Steps[:len(h.Steps):len(h.Steps)], answer.StepHours{Step: step, Visits: 1, Setups: 1, Count: 48})
	return h
}

// pairOf is what the second of two ways takes beyond the first, in minutes.
func pairOf(a, b answer.Hours) answer.Pair {
	d := (b.Hours - a.Hours) * 60
	return answer.Pair{
		A: a.Workflow, B: b.Workflow, Difference: d / 60, Low: minutes(d - 4), High: minutes(d + 4), DF: known(6.25), P: known(0.0123), Gaps: []string{},
		BreakEven: answer.BreakEven{Kind: answer.Interval, Heads: known(92.4), Low: known(60), High: known(210), Fixed: 0.3, PerHead: -0.004},
	}
}

// comparisonOf is so many ways side by side: 60, 70, 80 and 90 minutes, give or take 6.
func comparisonOf(n int) answer.Comparison {
	c := answer.Comparison{Heads: 48, Confidence: 0.95, Notes: []string{}}
	for i := range n {
		c.Workflows = append(c.Workflows, wayOf(manyNames[i], 60+10*float64(i), 6))
		for _, before := range c.Workflows[:i] {
			c.Pairs = append(c.Pairs, pairOf(before, c.Workflows[i]))
		}
	}
	return c
}

// costOf is a grow that costs 0.80 a head, 0.60 of it labour, and brings 1.60.
func costOf(name string) answer.GrowCost {
	return answer.GrowCost{
		Workflow: name, Hours: 1.44, Chores: 0.25, Labour: known(28.8), Supplies: 7.2, Space: 2.4, Total: known(38.4),
		PerHead: known(0.8), PerHeadLow: known(0.74), PerHeadHigh: known(0.86), LabourPerHead: known(0.6), ReturnPerHour: known(46.666),
		Gaps: []string{}, Unit: "head", Gives: answer.Harvest{ByHead: true, Unit: "head"},
		SoldPerHead: known(1.6), LeftPerHead: known(0.8), LeftPerHeadLow: known(0.74), LeftPerHeadHigh: known(0.86),
		Lines: []answer.CostLine{
			{Name: "sow", Kind: answer.LabourLine, Amount: known(28.8), PerHead: known(0.6)},
			{Name: "seed", Kind: answer.SupplyLine, Amount: known(7.2), PerHead: known(0.15)},
			{Name: "space", Kind: answer.SpaceLine, Amount: known(2.4), PerHead: known(0.05)},
		},
	}
}

// costsOf is so many ways' costs, the second dearer than the first by 0.10, the third by
// 0.20 and so on, none of them in doubt.
func costsOf(n int) answer.Costs {
	c := answer.Costs{Heads: 48, Currency: ref("EUR"), Notes: []string{}, PerHour: known(20)}
	rank := answer.CostRank{Cheapest: manyNames[0], By: answer.Measure{ByHead: true}}
	for i := range n {
		w, more := costOf(manyNames[i]), 0.1*float64(i)
		w.Hours, w.Labour, w.Total = w.Hours+0.24*float64(i), w.Labour.Plus(48*more), w.Total.Plus(48*more)
		for _, m := range []*study.Maybe{&w.PerHead, &w.PerHeadLow, &w.PerHeadHigh, &w.LabourPerHead, &w.Lines[0].PerHead} {
			*m = m.Plus(more)
		}
		w.Lines[0].Amount = w.Labour
		for _, m := range []*study.Maybe{&w.LeftPerHead, &w.LeftPerHeadLow, &w.LeftPerHeadHigh} {
			*m = m.Plus(-more)
		}
		c.Workflows = append(c.Workflows, w)
		if i > 0 {
			rank.Dearer = append(rank.Dearer, answer.CostMore{Workflow: manyNames[i], More: more, Low: known(more - 0.05), High: known(more + 0.05)})
		}
	}
	if n > 1 {
		c.Ranks = []answer.CostRank{rank}
	}
	return c
}

// shareOf is a step that takes so many minutes of 100, a quarter of them setup.
func shareOf(step string, mean, upTo float64) answer.StepShare {
	return answer.StepShare{
		Step: step, Class: study.Operation, Hours: minutes(mean), Share: known(mean / 100), Cumulative: known(upTo), VarianceShare: known(mean / 200),
		SetupHours: minutes(mean / 4), UnitHours: minutes(mean * 3 / 4),
	}
}

// savingOf is a change that saves so many minutes a grow, give or take some.
func savingOf(name string, mean, half float64) answer.Saving {
	return answer.Saving{Name: name, Saved: minutes(mean), Low: minutes(mean - half), High: minutes(mean + half), Steps: []string{"transplant"}}
}

// improvementOf is a way of 100 minutes, half of them harvesting, with so many changes.
func improvementOf(changes int) answer.Improvement {
	in := answer.Improvement{
		Workflow: "tray", Heads: 48, Hours: 100.0 / 60, PaidFor: true, Currency: "EUR", Gaps: []string{}, Notes: []string{},
		Steps: []answer.StepShare{shareOf("harvest", 50, 0.5), shareOf("transplant", 40, 0.9), shareOf("sow", 10, 1)},
		Gives: answer.Harvest{ByHead: true, Unit: "head"},
	}
	for i := range changes {
		in.Changes = append(in.Changes, savingOf("change "+manyNames[i], 10*float64(i+1), 2))
	}
	return in
}

// madeOf is a change that was made: 20 minutes before, 12 since.
func madeOf(name string) answer.Made {
	return answer.Made{
		Name: name, Step: "transplant", Since: "2026-04-12", ReadingsBefore: 5, ReadingsAfter: 3,
		Before: minutes(20), After: minutes(12), Saved: minutes(8), Low: minutes(6), High: minutes(10),
	}
}

// fitOf is a step of so many seconds setup and a unit, timed at 12 to 48.
func fitOf(step string, setup, unit float64) answer.StepFit {
	return answer.StepFit{
		Step: step, Per: ref("plant"), Readings: 6, Voided: 1, CountMin: known(12), CountMax: known(48), Form: ref("both"), Spread: ref(1),
		Setup: known(setup), SetupSE: known(setup / 10), SetupLow: known(setup * 0.8), SetupHigh: known(setup * 1.2),
		Unit: known(unit), UnitSE: known(unit / 10), UnitLow: known(unit * 0.8), UnitHigh: known(unit * 1.2),
		SetupUnitCov: known(-0.25), ResidualSD: known(1.5), DF: known(4), R2: known(0.98), ReadingsFor10: ref(9), LentShare: known(0.125),
	}
}

// gapFit is a step that was never timed.
func gapFit(step string) answer.StepFit { return answer.StepFit{Step: step} }

// choiceOf is so many seeds a cell at 80 % germination for 48 heads.
func choiceOf(seeds int, minutes, cost float64) answer.SeedingChoice {
	empty := []float64{1, 0.2, 0.04, 0.008}[seeds]
	return answer.SeedingChoice{
		SeedsPerCell: seeds, EmptyShare: empty, SurplusPerCell: []float64{0, 0, 0.64, 1.408}[seeds], CellsExpected: 48 / (1 - empty), CellsAssured: ref(50 + 20/seeds),
		MinutesPerHead: minutes, MinutesLow: known(minutes - 0.1), MinutesHigh: known(minutes + 0.1),
		CostPerHead: known(cost), CostLow: known(cost - 0.04), CostHigh: known(cost + 0.04),
	}
}

// seedingOf is one to three seeds a cell, two of them the best by cost.
func seedingOf() answer.Seeding {
	s := answer.Seeding{
		Workflow: "tray", Heads: 48, Germination: 0.8, Assurance: 0.95, Gaps: []string{}, Notes: []string{}, Currency: "EUR", ByCost: true,
		Choices: []answer.SeedingChoice{choiceOf(1, 1.5, 0.5), choiceOf(2, 1.25, 0.42), choiceOf(3, 1.75, 0.6)},
	}
	s.Choices[1].Best = true
	return s
}

// day0 is the Monday on which all that is invented begins.
var day0 = time.Date(2026, time.March, 2, 0, 0, 0, 0, time.UTC)

// growOf is one grow: sown on day 0, transplanted on day 14, harvested and weighed on day 35.
func growOf() DatedCalendar {
	job := func(step string, count, mean float64) answer.CalendarJob {
		return answer.CalendarJob{Step: step, Count: count, Hours: minutes(mean)}
	}
	return DatedCalendar{Calendar: answer.Calendar{
		Workflow: "tray", Heads: 48, LastDay: 35, Gaps: []string{}, Notes: []string{}, PeakDay: minutes(50), Gives: answer.Harvest{ByHead: true},
		Days: []answer.CalendarDay{
			{Day: 0, Hours: 10.0 / 60, Tasks: []answer.CalendarJob{job("sow", 60, 10)}},
			{Day: 14, Hours: 40.0 / 60, Tasks: []answer.CalendarJob{job("transplant", 50, 40)}},
			{Day: 35, Hours: 50.0 / 60, Tasks: []answer.CalendarJob{job("harvest", 48, 48), job("weigh", 48, 2)}},
		},
	}}
}

// everyWeek is the same sown every seven days.
func everyWeek() DatedCalendar {
	s := growOf()
	s.EveryDays, s.SteadyWeek, s.HeadsPerWeek = ref(7), known(2.5), known(48)
	s.Weekdays = []float64{50.0 / 60, 0, 0, 0.5, 0, 0, 1}
	s.StartUp = []float64{0.5, 1, 1.5, 2, 2.25}
	return s
}

// plannedOf is a plan to bring 61 minutes, give or take 14, to ± a tenth.
func plannedOf() answer.Plan {
	return answer.Plan{
		Workflow: "tray", Heads: 48, Goal: answer.GoalWithin, Within: known(0.1), Hours: 61.0 / 60, Low: minutes(47), High: minutes(75), Reached: minutes(6), Meets: true,
		Readings: []answer.PlannedReadings{{Step: "transplant", Count: 12, Setups: 1, Readings: 4}, {Step: "harvest", Count: 48, Setups: 2, Readings: 3}},
		Steps: []answer.StepNeed{
			{Step: "transplant", Readings: 3, CV: 0.2, ByT: ref(18), Handbook: 16, Share: 0.1}, {Step: "harvest", Readings: 1, CV: 0.25, Assumed: true, Handbook: 25, Share: 0.1},
		},
	}
}

// voidedOf is a reading that is not fitted.
func voidedOf(step, reason string, line int) condense.VoidedReading {
	return condense.VoidedReading{Step: step, Seconds: 300, Count: known(24), Reason: reason, File: "march.csv", Line: line}
}

// seasonOf is ten weeks of the whole place, of so many sowings, each 48 heads every week.
func seasonOf(sowings int) answer.SeasonPlan {
	p := answer.SeasonPlan{
		Start: ref("2026-03-02"), Days: 28, Currency: ref("EUR"), Confidence: 0.95, Earn: known(25), Hours: 40, Low: known(36), High: known(44), DF: known(8), Own: 38, Hired: 2,
		Busiest: answer.BusiestWeek{Week: 2, Hours: 12}, Heads: 480, OwnWeek: known(10), Steady: weeks(10, 10, 10), M2: known(14), PeakM2: 12.34, PeakDay: ref(20), Over: &[]int{},
		Steps: []answer.SeasonStep{{Step: "sow", Setups: 10, Count: 600, Hours: known(8), Share: known(0.2)}, {Step: "harvest", Setups: 10, Count: 480, Hours: known(32), Share: known(0.8)}},
		SeasonMoney: answer.SeasonMoney{
			Revenue: known(1000), Supplies: 100, SpaceCost: 50, Overhead: 40, HiredCost: 30, Margin: known(780), MarginLow: known(740), MarginHigh: known(820),
			PerOwnHour: known(20.5), PerOwnHourLow: known(18.25), PerOwnHourHigh: known(22.75), PriceFactor: known(1.17),
		},
		Gaps: []string{}, Notes: []string{},
	}
	for week, hours := range []float64{8, 10, 12, 10} {
		p.Weeks = append(p.Weeks, answer.SeasonWeek{
			Week: week, Date: ref(day0.AddDate(0, 0, 7*week).Format(time.DateOnly)), Hours: hours, Low: known(hours - 1), High: known(hours + 1),
			Own: min(hours, 10), Hired: max(0, hours-10), Heads: 120, Revenue: known(250),
		})
	}
	for i := range sowings {
		p.Sowings = append(p.Sowings, answer.SownInAll{
			Workflow: manyNames[i], Crop: ref("lettuce"), Heads: 480, Cells: 600, EveryDays: ref(7), FirstDay: 0, LastDay: 27, Grows: 10, CutShort: 1, Hours: 20, Share: known(0.5),
			Unit: "head", Units: known(480), Sold: known(456), Revenue: known(729.6), Supplies: 72, Space: 24, PriceNeeded: known(1.87), Price: known(1.6),
		})
	}
	return p
}

// inputsOf is a head that costs 0.80, with so many inputs to move.
func inputsOf(inputs int) answer.Sensitivity {
	s := answer.Sensitivity{Workflow: "tray", Heads: 48, Currency: ref("EUR"), PerHead: 0.8, Gaps: []string{}, Notes: []string{}}
	for i := range inputs {
		reach := 0.12 - 0.02*float64(i)
		s.Inputs = append(s.Inputs, answer.Input{Name: fmt.Sprintf("input %d", i+1), Lower: 0.8 - reach, Higher: 0.8 + reach})
	}
	return s
}

// weeks are those of a season's steady part.
func weeks(mean, least, most float64) answer.SteadyWeeks {
	return answer.SteadyWeeks{Mean: known(mean), Least: known(least), Most: known(most)}
}
