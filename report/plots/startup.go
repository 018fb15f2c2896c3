package plots

import (
	"headhours/timing/answer"
	"headhours/timing/words"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// startUp draws the hours of the weeks before a schedule is steady as a line that ends in
// the steady week, in one small row.
func startUp(c answer.Calendar) block {
	hours := append(append([]float64{}, c.StartUp...), c.SteadyWeek.Value)
	unit, scale := "h", 1.0
	if c.SteadyWeek.Value < 3 {
		unit, scale = "min", 60
	}
	p := chart("", "")
	p.HideAxes()
	p.X.Min, p.X.Max = 0, float64(len(hours)-1)
	top := 0.0
	for _, h := range hours {
		top = max(top, h)
	}
	p.Y.Min, p.Y.Max = 0, max(top, 1e-9)
	p.Add(sparkLine(hours))
	const height, names, ends = 40, 150, 70
	figure := func(h float64) string { return words.Fixed(h*scale, 0) + " " + unit }
	return block{height, func(c draw.Canvas) {
		faint.lines(c, c.Min.X, c.Max.Y, faint.wrap("Before that, "+words.Many(len(hours)-1, "week")+":", names, 2))
		from, to := figure(hours[0]), figure(hours[len(hours)-1])
		left := c.Min.X + names + faint.width(from) + 10
		faint.line(c, c.Min.X+names, c.Max.Y-height/2+faint.height(1)/2, from)
		faint.line(c, c.Max.X-ends+10, c.Max.Y-height/2+faint.height(1)/2, to)
		part := c
		part.Min.X, part.Max.X, part.Min.Y, part.Max.Y = left, c.Max.X-ends, c.Min.Y+4, c.Max.Y-4
		p.Draw(part)
	}}
}

// sparkLine is a line through values at 0, 1, 2 …
type sparkLine []float64

// Plot draws the line onto a plot's data area, a point at each end.
func (s sparkLine) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	points := make([]vg.Point, len(s))
	for i, y := range s {
		points[i] = vg.Point{X: toX(float64(i)), Y: toY(y)}
	}
	c.StrokeLines(draw.LineStyle{Color: greyInk, Width: 1.6}, points)
	for _, at := range []vg.Point{points[0], points[len(points)-1]} {
		stamp(c, circle, at, pointRadius, greyInk, false)
	}
}
