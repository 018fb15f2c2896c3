package plots

import (
	"headhours/report"
	"headhours/timing/answer"
	"headhours/timing/words"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// SeedingCost draws the cost of a head (the minutes, without a wage) against the
// share of seeds that come up, a line for each number of seeds a cell, and where
// the study's germination lies.
func SeedingCost(s answer.Seeding, curves []answer.SeedingCurve) Figure {
	y := "minutes a head"
	if s.ByCost {
		y = "money a head"
		if s.Currency != "" {
			y = show(s.Currency) + " a head"
		}
	}
	lines := seedLines{at: 100 * s.Germination}
	for i, c := range curves {
		lines.tracks = append(lines.tracks, track{
			label: []string{words.Many(c.SeedsPerCell, "seed")}, mark: marks[i%len(marks)],
			style: draw.LineStyle{Color: workflowInks[i/len(marks)%len(workflowInks)], Width: 1.6},
		})
	}
	lines.curves = curves
	blocks := []block{paragraph(heading, "Seeds a cell, and seeds that come up"), space(4)}
	if len(curves) > 0 {
		blocks = append(blocks, key([]keyEntry{{lineSign(hereStyle), "the study's germination, " + percent(s.Germination)}}),
			space(8), growthChart(lines.asChart(y), lines.tracks))
	}
	return Figure{blocks: blocks, alt: seedingAlt(s)}
}

func seedingAlt(s answer.Seeding) string {
	return spoken(append([]string{"Cost of a head against the share of seeds that come up, a line for each number of seeds a cell."}, report.Seeding(s).Words()...)...)
}

var hereStyle = draw.LineStyle{Color: greyInk, Width: 1.2, Dashes: []vg.Length{2, 2}}

// seedLines draws a line for each number of seeds a cell.
type seedLines struct {
	tracks []track
	curves []answer.SeedingCurve
	at     float64 // percent that come up in the study
}

// steepest is how far above the lowest the axis reaches: one seed a cell becomes
// very dear where few come up.
const steepest = 2.2

// alike is the share of a cost below which a difference is but the rounding of sums.
const alike = 1e-9

func (l seedLines) asChart(y string) *plot.Plot {
	p := chart("seeds that come up, %", y)
	minCost, maxCost := 0.0, 0.0
	p.X.Min, p.X.Max = 100, 0
	for _, c := range l.curves {
		for i, g := range c.Germination {
			p.X.Min, p.X.Max = min(p.X.Min, 100*g), max(p.X.Max, 100*g)
			if x := c.PerHead[i]; minCost == 0 || x < minCost {
				minCost = x
			}
			maxCost = max(maxCost, c.PerHead[i])
		}
	}
	p.Y.Max = min(maxCost, steepest*max(minCost, maxCost/100))
	switch {
	case maxCost <= 0:
		minCost, p.Y.Max = 0, 1
	case maxCost-minCost <= alike*maxCost:
		minCost, p.Y.Max = 0, 2*maxCost // a level line, in the middle
	}
	room := 0.06 * (p.Y.Max - minCost)
	p.Y.Min, p.Y.Max = max(0, minCost-room), p.Y.Max+room
	p.X.Tick.Marker, p.Y.Tick.Marker = even{6, 10}, even{6, 0}
	p.Add(l)
	return p
}

// Plot draws the lines onto a plot's data area.
func (l seedLines) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	if l.at >= p.X.Min {
		c.StrokeLine2(hereStyle, toX(l.at), c.Min.Y, toX(l.at), c.Max.Y)
	}
	var names []label
	for k, curve := range l.curves {
		points := make([]vg.Point, len(curve.Germination))
		for i, g := range curve.Germination {
			points[i] = vg.Point{X: toX(100 * g), Y: toY(curve.PerHead[i])}
		}
		c.StrokeLines(l.tracks[k].style, c.ClipLinesXY(points)...)
		for i := range points {
			if i%10 == 0 && curve.PerHead[i] <= p.Y.Max {
				stamp(c, l.tracks[k].mark, points[i], pointRadius, l.tracks[k].style.Color, false)
			}
		}
		names = append(names, label{l.tracks[k], points[len(points)-1], 0})
	}
	nameEnds(c, names)
}
