package plots

import (
	"fmt"
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/report"
	"headhours/timing"
)

// Season draws the hours of each week as bars, stacked by crop, with the line of one's own
// hours, and below them what each week brings.
func Season(p timing.SeasonPlan) Figure {
	blocks := []block{paragraph(heading, "The whole place, week by week"), space(4)}
	bars := weekBars{ownHours: p.OwnWeek, unit: "hours of work"}
	var entries []keyEntry
	for i, c := range p.ByCrop {
		fill := restFill
		if i < len(fills) {
			fill = fills[i]
		}
		entries = append(entries, keyEntry{areaSign(fill), show(c.Crop)})
		bars.stacks = append(bars.stacks, stack{c.Hours, fill})
	}
	if p.OwnWeek.Known {
		entries = append(entries, keyEntry{lineSign(ownStyle), "your own hours"})
	}
	blocks = append(blocks, key(entries), space(8), bars.block())
	if p.Revenue.Known {
		money := "money"
		if p.Currency != nil {
			money = show(*p.Currency)
		}
		revenue := make([]float64, len(p.Weeks))
		for i, w := range p.Weeks {
			revenue[i] = w.Revenue.Value
		}
		below := weekBars{unit: money + " a week", stacks: []stack{{revenue, fills[0]}}}
		blocks = append(blocks, space(10), paragraph(bold, "What is sold, in "+money), below.block())
	}
	if len(p.Gaps) > 0 {
		blocks = append(blocks, paragraph(faint, fmt.Sprintf("At least: without %s, never timed.", list(p.Gaps))))
	}
	doc := report.Place(report.PlaceAnswer{SeasonPlan: p})
	return Figure{blocks, spoken(append([]string{"Hours of each week as a bar, stacked by crop."}, doc.Words()...)...)}
}

// ownStyle is the line of one's own hours.
var ownStyle = draw.LineStyle{Color: ink, Width: 1.4, Dashes: []vg.Length{5, 3}}

// stack is one part of each week's bar.
type stack struct {
	amounts []float64
	fill    color.NRGBA
}

// weekBars are bars of stacked parts, one a week.
type weekBars struct {
	unit     string
	stacks   []stack
	ownHours timing.Maybe
}

// highest is the height of the highest bar, or of the line where that is higher.
func (w weekBars) highest() float64 {
	top := w.ownHours.Value
	for week := range w.weeks() {
		var sum float64
		for _, s := range w.stacks {
			sum += max(s.amounts[week], 0)
		}
		top = max(top, sum)
	}
	return top
}

func (w weekBars) weeks() int {
	if len(w.stacks) == 0 {
		return 0
	}
	return len(w.stacks[0].amounts)
}

func (w weekBars) block() block {
	top := w.highest()
	if top == 0 {
		top = 1
	}
	p := chart("week", w.unit)
	p.X.Min, p.X.Max = -0.6, float64(w.weeks())-0.4
	p.Y.Min, p.Y.Max = 0, 1.06*top
	p.X.Tick.Marker, p.Y.Tick.Marker = even{10, 1}, even{5, 0}
	p.Add(w)
	return block{daysHeight, func(c draw.Canvas) { between(p, c, c.Min.X+gutter, c.Max.X-overhang) }}
}

// Plot draws the bars onto a plot's data area, and the line over them.
func (w weekBars) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	half := min((toX(1)-toX(0))*0.4, 14)
	for week := range w.weeks() {
		var sum float64
		for _, s := range w.stacks {
			amount := max(s.amounts[week], 0)
			if amount < 1e-9 {
				continue
			}
			at := toX(float64(week))
			shape := box(at-half, toY(sum), at+half, toY(sum+amount))
			c.SetColor(s.fill)
			c.Fill(shape)
			if half > 1.5 {
				c.SetLineStyle(outlineStyle)
				c.Stroke(shape)
			}
			sum += amount
		}
	}
	if w.ownHours.Known {
		c.StrokeLine2(ownStyle, c.Min.X, toY(w.ownHours.Value), c.Max.X, toY(w.ownHours.Value))
	}
}
