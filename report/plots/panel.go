package plots

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing/answer"
)

// setupKind is a kind of reading, by the setups that it held.
type setupKind struct {
	name  string
	holds func(setups float64) bool
	mark  mark
	hue   color.NRGBA
}

var setupKinds = []setupKind{
	{"one setup", func(setups float64) bool { return setups > 0 && setups <= 1 }, circle, ink},
	{"a lap, no setup", func(setups float64) bool { return setups == 0 }, triangle, ink},
	{"several setups", func(setups float64) bool { return setups > 1 }, square, ink},
}

func kindOf(setups float64) setupKind {
	for _, k := range setupKinds {
		if k.holds(setups) {
			return k
		}
	}
	return setupKinds[0]
}

// Sizes of a panel and its parts, in points.
const (
	panelHeight = 158 // axes included, without what is written above
	panelGap    = 12
	gutter      = 50 // left of the data: the axis, its ticks and its label
	overhang    = 12 // right of the data, for half the last tick's label
	pointRadius = 3.2
)

var (
	fittedStyle = draw.LineStyle{Color: ink, Width: 1.2}
	bandFill    = color.NRGBA{0xcf, 0xdd, 0xd2, 0xff}
)

// standOut rings a point that stands out.
func standOut(c draw.Canvas, at vg.Point) {
	c.SetLineStyle(draw.LineStyle{Color: color.NRGBA{0xa3, 0x1f, 0x34, 0xff}, Width: 1.8})
	c.Stroke(circle(at, 2.2*pointRadius))
}

// panels is a row of panels.
func panels(curves []answer.Curve, columns int, hues Hues) block {
	width := (inner - panelGap*vg.Length(columns-1)) / vg.Length(columns)
	names := make([][]string, len(curves))
	lines := 0
	for i, c := range curves {
		names[i] = bold.wrap(show(c.Step), width-signWidth, 2)
		lines = max(lines, len(names[i]))
	}
	above := plain.height(lines + 1)
	return block{above + 4 + panelHeight, func(row draw.Canvas) {
		for i, c := range curves {
			part := row
			part.Min.X += (width + panelGap) * vg.Length(i)
			part.Max.X = part.Min.X + width
			letteredSign(hues.of(c.Step))(part, vg.Point{X: part.Min.X + 8, Y: part.Max.Y - bold.height(1)/2})
			bold.lines(part, part.Min.X+signWidth, part.Max.Y, names[i])
			faint.line(part, part.Min.X, part.Max.Y-plain.height(len(names[i])), faint.cut(formula(c), width))
			part.Max.Y -= above + 4
			between(stepChart(c, width-gutter-overhang), part, part.Min.X+gutter, part.Max.X-overhang)
		}
	}}
}

// stepChart is the plot of one step, its axis of counts of a length.
func stepChart(c answer.Curve, length vg.Length) *plot.Plot {
	d := newStepData(c)
	unit, seconds := "seconds", 1.0
	switch {
	case d.top >= 3*3600:
		unit, seconds = "hours", 3600
	case d.top >= 3*60:
		unit, seconds = "minutes", 60
	}
	d.scale = 1 / seconds
	count := "count"
	if c.Per != nil {
		count = faint.cut("count ("+show(*c.Per)+")", length)
	}
	p := chart(count, unit+" of work")
	p.X.Min, p.X.Max = 0, d.right*1.06
	p.Y.Min, p.Y.Max = d.bottom*d.scale, d.top*d.scale
	p.X.Tick.Marker, p.Y.Tick.Marker = across(length, p.X.Max, d.minStep()), even{5, 0}
	p.Add(d)
	return p
}
