package plots

import (
	"fmt"
	"image/color"
	"time"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

var unknown study.Maybe

func ref[T any](x T) *T { return &x }

// awkward are names that figures have to bear: wide, long, turned round, unseen, empty.
var awkward = []string{"sow", "", "<b>x</b> & \"y\"", "\x1b[31mred", "\u202egnp", "種まきと収穫", "🌱🌱", "זריעה", "Langwortlangwortlangwortlangwortlangwortlangwortlangwortlangwortlangwortlangwortlangwort", "a\nb\tc", "a name of several words that goes on and on and does not end where it should"}

// waysOf is so many ways of 48 heads that differ in what harvesting takes: 30 minutes in
// the first, 10 more in each further one, give or take 6 in all. Sowing takes 12 in all.
func waysOf(names ...string) answer.Comparison {
	c := answer.Comparison{Heads: 48, Confidence: 0.95}
	for i, name := range names {
		harvest := 30 + 10*float64(i)
		total := harvest + 12
		c.Workflows = append(c.Workflows, answer.Hours{
			Workflow: name, Hours: total / 60, Low: known((total - 6) / 60), High: known((total + 6) / 60), MinutesPerHead: total / 48,
			Steps: []answer.StepHours{{Step: "sow", Hours: known(12.0 / 60)}, {Step: "harvest", Hours: known(harvest / 60)}},
			Rests: answer.Basis{Timed: []string{"sow", "harvest"}},
		})
		for _, before := range c.Workflows[:i] {
			d := (c.Workflows[i].Hours - before.Hours) * 60
			c.Pairs = append(c.Pairs, answer.Pair{A: before.Workflow, B: name, Difference: d / 60, Low: known((d - 4) / 60), High: known((d + 4) / 60),
				BreakEven: answer.BreakEven{Kind: answer.Interval, Heads: known(92), Low: known(60), High: known(210)}})
		}
	}
	return c
}

// scaleOf is the same ways at ten to a thousand heads: 30 minutes and so many a head.
func scaleOf(names ...string) answer.Scale {
	s := answer.Scale{Confidence: 0.95}
	for i, name := range names {
		line := answer.ScaleLine{Workflow: name}
		for _, heads := range []int{10, 20, 50, 100, 1000} {
			hours := (30 + (1+0.5*float64(i))*float64(heads)) / 60
			line.Points = append(line.Points, answer.ScalePoint{Heads: heads, Hours: hours, Low: known(0.9 * hours), High: known(1.1 * hours),
				MinutesPerHead: 60 * hours / float64(heads), Extrapolated: heads > 100})
		}
		s.Workflows = append(s.Workflows, line)
	}
	return s
}

// costsOf is what a head of ways costs: 0.60 of labour, 0.10 more in each further one,
// 0.15 of supplies, 0.05 of space. It sells for 1.60.
func costsOf(names ...string) answer.Costs {
	c := answer.Costs{Heads: 48, Currency: ref("EUR")}
	for i, name := range names {
		labour := 0.6 + 0.1*float64(i)
		all := labour + 0.2
		c.Workflows = append(c.Workflows, answer.GrowCost{
			Workflow: name, Supplies: 7.2, Space: 2.4, PerHead: known(all), PerHeadLow: known(all - 0.06), PerHeadHigh: known(all + 0.06),
			SoldPerHead: known(1.6), LeftPerHead: known(1.6 - all), LeftPerHeadLow: known(1.54 - all), LeftPerHeadHigh: known(1.66 - all),
			Lines: []answer.CostLine{{Kind: answer.LabourLine, PerHead: known(labour)}, {Kind: answer.SupplyLine, PerHead: known(0.15)}, {Kind: answer.SpaceLine, PerHead: known(0.05)}},
		})
	}
	return c
}

// improvementOf is steps of 10, 20, 30 … minutes, the last named the largest first, a
// quarter of each setup.
func improvementOf(names ...string) answer.Improvement {
	in := answer.Improvement{Workflow: "tray", Heads: 48}
	all := 5 * float64(len(names)*(len(names)+1))
	for i, name := range names {
		minutes := 10 * float64(len(names)-i)
		in.Steps = append(in.Steps, answer.StepShare{Step: name, Hours: known(minutes / 60), SetupHours: known(minutes / 240), UnitHours: known(minutes / 80), Share: known(minutes / all)})
		in.Hours += minutes / 60
	}
	return in
}

// growOf is one grow: sown on day 0 in 10 minutes, harvested on day 35 in 50, of which 20
// pack; everyWeek the same sown every Monday.
func growOf() answer.Calendar {
	return answer.Calendar{Workflow: "tray", Heads: 48, LastDay: 35, Days: []answer.CalendarDay{
		{Day: 0, Hours: 10.0 / 60, Tasks: []answer.CalendarJob{{Step: "sow", Count: 60, Hours: known(10.0 / 60)}}},
		{Day: 35, Hours: 50.0 / 60, Tasks: []answer.CalendarJob{{Step: "harvest", Count: 48, Hours: known(0.5)}, {Step: "pack", Count: 48, Hours: known(20.0 / 60)}}},
	}}
}

func everyWeek() answer.Calendar {
	c := growOf()
	c.EveryDays, c.SteadyWeek, c.HeadsPerWeek = ref(7), known(1), known(48)
	c.Weekdays = []float64{1, 0, 0, 0, 0, 0, 0}
	c.WeekSteps = []answer.WeekStep{{Step: "sow", Hours: []float64{10.0 / 60, 0, 0, 0, 0, 0, 0}}, {Step: "harvest", Hours: []float64{0.5, 0, 0, 0, 0, 0, 0}}, {Step: "pack", Hours: []float64{20.0 / 60, 0, 0, 0, 0, 0, 0}}}
	c.StartUp = []float64{1.0 / 6, 0.5, 0.75}
	return c
}

// seasonOf is four weeks of 8, 10, 12 and 10 hours, three quarters of them lettuce's.
func seasonOf() answer.SeasonPlan {
	p := answer.SeasonPlan{Days: 28, Currency: ref("EUR"), Hours: 40, OwnWeek: known(11), Steady: answer.SteadyWeeks{Mean: known(10), Least: known(10), Most: known(10)}, Busiest: answer.BusiestWeek{Week: 2, Hours: 12},
		ByCrop: []answer.CropWeeks{{Crop: "lettuce"}, {Crop: "chores"}}, SeasonMoney: answer.SeasonMoney{Revenue: known(1000), Margin: known(700), PerOwnHour: known(17.5)}}
	for week, hours := range []float64{8, 10, 12, 10} {
		p.Weeks = append(p.Weeks, answer.SeasonWeek{Week: week, Hours: hours, Revenue: known(100 * float64(week+1))})
		p.ByCrop[0].Hours, p.ByCrop[1].Hours = append(p.ByCrop[0].Hours, 0.75*hours), append(p.ByCrop[1].Hours, 0.25*hours)
	}
	return p
}

// curveOf is a step timed at 10, 20 and 40, one reading a lap and one of two setups, with
// its line of 30 s a setup and 3 s a unit.
func curveOf(step string) answer.Curve {
	c := answer.Curve{Confidence: 0.95, StepFit: answer.StepFit{Step: step, Per: ref("plant"), Readings: 3, CountMin: known(10), CountMax: known(40), Form: ref("both"), Setup: known(30), Unit: known(3)}}
	for i, count := range []float64{10, 20, 40} {
		c.Points = append(c.Points, answer.CurvePoint{Timed: condense.Timed{Reading: stepfit.Reading{Load: stepfit.Load{Setups: float64(i), Count: count}, Seconds: 30*float64(i) + 3*count}}, StandsOut: i == 2})
	}
	line := answer.CurveLine{Form: stepfit.Form("both"), Setups: 1}
	for _, count := range []float64{0, 20, 40} {
		line.At = append(line.At, answer.CurveTime{Count: count, Seconds: 30 + 3*count, Low: known(25 + 2.8*count), High: known(35 + 3.2*count)})
	}
	c.Lines = []answer.CurveLine{line}
	return c
}

// datedOf is a step of five dated readings, a change after the third.
func datedOf(step, change string) answer.ByDate {
	start := condense.DayOf(monday)
	d := answer.ByDate{Step: step, Lines: []answer.DatedChange{{Day: start + 20, Name: change}}}
	for i, day := range []condense.Day{0, 7, 14, 21, 28} {
		d.Points = append(d.Points, answer.DatedPoint{Day: start + day, Ratio: []float64{1.5, 1.6, 1.4, 1, 0.9}[i]})
	}
	d.Parts = []answer.DatedPart{{First: start, Last: start + 14, Ratio: 1.5}, {First: start + 21, Last: start + 28, Ratio: 0.95}}
	return d
}

func factorsOf(names ...string) []answer.GrowFactor {
	var all []answer.GrowFactor
	for i, name := range names {
		all = append(all, answer.GrowFactor{Grow: name, Day: condense.DayOf(monday) + condense.Day(7*i), All: 1 + 0.1*float64(i%3),
			Steps: []answer.StepFactor{{Step: "sow", Readings: 1, Factor: 0.9}, {Step: "harvest", Readings: 9, Factor: 1.2}}})
	}
	return all
}

func inputsOf(names ...string) answer.Sensitivity {
	s := answer.Sensitivity{Workflow: "tray", Heads: 48, Currency: ref("EUR"), PerHead: 0.8}
	for i, name := range names {
		reach := 0.2 / float64(i+1)
		s.Inputs = append(s.Inputs, answer.Input{Name: name, Lower: 0.8 - reach, Higher: 0.8 + reach})
	}
	return s
}

func seedingOf() (answer.Seeding, []answer.SeedingCurve) {
	s := answer.Seeding{Workflow: "tray", Heads: 48, Germination: 0.8, Assurance: 0.95, ByCost: true, Currency: "EUR", Choices: []answer.SeedingChoice{{SeedsPerCell: 1, Best: true, CostPerHead: known(0.5), CellsAssured: ref(70)}}}
	var curves []answer.SeedingCurve
	for seeds := 1; seeds <= 3; seeds++ {
		c := answer.SeedingCurve{SeedsPerCell: seeds}
		for g := 40; g <= 100; g++ {
			c.Germination, c.PerHead = append(c.Germination, float64(g)/100), append(c.PerHead, 0.4+0.04*float64(seeds)+0.002*float64(100-g)/float64(seeds))
		}
		curves = append(curves, c)
	}
	return s, curves
}

// someNames are so many names of the figure's own, and the awkward ones.
func someNames(n int) []string {
	names := make([]string, n)
	for i := range names {
		names[i] = fmt.Sprintf("name %d", i)
	}
	return names
}

// everyFigure is a figure of each kind, of so many things with these names.
func everyFigure(names []string) map[string]Figure {
	var curves []answer.Curve
	var steps []answer.ByDate
	hues := Hues{}
	for i, name := range names {
		curves, steps = append(curves, curveOf(name)), append(steps, datedOf(name, name))
		hues[name] = stepHue{fill: restFill, letter: string(rune('a' + i%26)), name: show(name)}
	}
	seeding, lines := seedingOf()
	season, week := seasonOf(), everyWeek()
	if len(names) > 0 {
		odd := names[len(names)/3] // of the awkward ones, one that terminals act on
		season.ByCrop[0].Crop, season.Currency = odd, &odd
		week.WeekSteps[0].Step, seeding.Currency = odd, odd
	}
	return map[string]Figure{
		"steps": StepTimes(curves, hues), "per head": PerHead(waysOf(names...), hues), "why": Compared(waysOf(names...), hues), "growth": Growth(scaleOf(names...), waysOf(names...).Pairs),
		"cost": CostPerHead(costsOf(names...)), "improved": Improved(improvementOf(names...), steps, hues), "checked": Checked(factorsOf(names...), steps),
		"swing": Swing(inputsOf(names...)), "seeding": SeedingCost(seeding, lines), "season": Season(season), "week": Days(week, time.Time{}, hues), "grow": Days(growOf(), monday, hues),
	}
}

// stroked are the extents of what is stroked with a colour and width, in the order drawn.
func stroked(f Figure, hue color.Color, wide vg.Length) []vg.Rectangle {
	var canvas recorder.Canvas
	f.draw(draw.NewCanvas(&canvas, width, f.height()))
	var found []vg.Rectangle
	var at vg.Length
	var is any
	for _, action := range canvas.Actions {
		switch a := action.(type) {
		case *recorder.SetColor:
			is = a.Color
		case *recorder.SetLineWidth:
			at = a.Width
		case *recorder.Stroke:
			if is == hue && at == wide {
				found = append(found, extent(a.Path))
			}
		}
	}
	return found
}

// where is where a text of a figure stands; false where it does not.
func where(f Figure, text string) (written, bool) {
	for _, w := range texts(f) {
		if w.text == text {
			return w, true
		}
	}
	return written{}, false
}
