package plots

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing"
)

// rung is a bar of a ladder: its name, spans of the axis, and its figures in
// words.
type rung struct {
	name  string
	words string
	spans []stretchOf
	// low and high are the range of the bar's end; unknown: none is drawn
	low, high timing.Maybe
}

// stretchOf is a span of the axis in a colour.
type stretchOf struct {
	from, to float64
	fill     color.NRGBA
}

// Sizes of a rung in points.
const (
	rungBar = 11
	rungGap = 7
)

// ladder draws many bars over a common axis, each with its name and figures on a
// line above it. Where mark is not nil a line stands at it from top to bottom.
func ladder(axis string, low, high float64, mark *float64, all []rung) block {
	if low == high {
		high = low + 1
	}
	rungHeight := plain.height(1) + rungBar + rungGap
	p := chart(axis, "")
	p.HideY()
	p.X.Min, p.X.Max = low, high
	p.X.Tick.Marker = across(inner, high, 0)
	p.Add(rungs{all, mark, rungHeight})
	height := vg.Length(len(all)) * rungHeight
	axisHeight := 2*faint.height(1) + 8
	return block{height + axisHeight, func(c draw.Canvas) {
		between(p, c, c.Min.X+leftRoom, c.Max.X-rightRoom)
	}}
}

type rungs struct {
	all    []rung
	mark   *float64
	height vg.Length
}

// Plot draws the rungs from the top of a plot's data area down.
func (r rungs) Plot(c draw.Canvas, p *plot.Plot) {
	toX, _ := p.Transforms(&c)
	top := c.Max.Y
	for _, rung := range r.all {
		words := plain.cut(rung.words, 0.6*inner)
		bold.line(c, margin, top, bold.cut(rung.name, inner-plain.width(words)-8))
		plain.line(c, margin+inner-plain.width(words), top, words)
		bar := top - plain.height(1)
		grid(c, p, bar, bar-rungBar-rungGap)
		for _, s := range rung.spans {
			shape := box(toX(min(s.from, s.to)), bar-rungBar, toX(max(s.from, s.to)), bar)
			c.SetColor(s.fill)
			c.Fill(shape)
			c.SetLineStyle(outlineStyle)
			c.Stroke(shape)
		}
		if rung.low.Known {
			style, y := draw.LineStyle{Color: ink, Width: 1.4}, bar-rungBar/2
			from, to := toX(rung.low.Value), toX(rung.high.Value)
			c.StrokeLine2(style, from, y, to, y)
			c.StrokeLine2(style, from, y-3, from, y+3)
			c.StrokeLine2(style, to, y-3, to, y+3)
		}
		if r.mark != nil {
			c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1.4}, toX(*r.mark), bar-rungBar-2, toX(*r.mark), bar+2)
		}
		top -= r.height
	}
}
