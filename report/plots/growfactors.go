package plots

import (
	"fmt"
	"math"

	"headhours/timing/answer"
	"headhours/timing/words"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// maxGrows is how many grows are drawn: the latest.
const maxGrows = 30

// GrowFactors draws what each grow took as factors of what was expected: a dot a step, and
// a line for all of them together, so that a grow that is slow in everything is seen.
func GrowFactors(grows []answer.GrowFactor) Figure {
	if len(grows) == 0 {
		return Figure{alt: spoken("No reading names a grow.")}
	}
	left := max(0, len(grows)-maxGrows)
	grows = grows[left:]
	p := chart("times what was expected", "")
	p.HideY()
	p.X.Min, p.X.Max = factorRange(grows)
	p.X.Scale, p.X.Tick.Marker = plot.LogScale{}, factorTicks{}
	p.Add(growRows(grows))
	const axisHeight = 42
	blocks := []block{
		paragraph(bold, "How long each grow took, as factors of what was expected"), space(2),
		{growRowHeight*vg.Length(len(grows)) + axisHeight, func(c draw.Canvas) { between(p, c, c.Min.X+growNames, c.Max.X-labelRoom/3) }},
		space(4), paragraph(faint, "A dot is a step, the larger the more readings it has; the upright line is all of the grow together."),
	}
	if left > 0 {
		blocks = append(blocks, paragraph(faint, notDrawn(left, "earlier grow", "")))
	}
	sentences := []string{"What each grow took, as factors of what was expected."}
	for _, g := range grows {
		sentences = append(sentences, fmt.Sprintf("%s: %s in all, from %s.", show(g.Grow), factorText(g.All), words.Many(len(g.Steps), "step")))
	}
	return Figure{blocks: blocks, alt: spoken(sentences...)}
}

func factorText(x float64) string { return words.Fixed(x, 2) }

// factorRange is what the axis holds: all factors, at least from three quarters to four
// thirds, at most from a quarter to four.
func factorRange(grows []answer.GrowFactor) (low, high float64) {
	low, high = 0.75, 4.0/3
	for _, g := range grows {
		for _, s := range g.Steps {
			low, high = min(low, s.Factor/1.05), max(high, s.Factor*1.05)
		}
	}
	return max(low, 0.25), min(high, 4)
}

// factorTicks are ticks of a factor.
type factorTicks struct{}

// Ticks are at factors that are read with ease.
func (factorTicks) Ticks(low, high float64) []plot.Tick {
	var ticks []plot.Tick
	at := []float64{0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4}
	if high < 2.5*low {
		at = []float64{0.5, 0.6, 0.75, 0.9, 1, 1.1, 1.25, 1.5, 2}
	}
	for _, x := range at {
		if x >= low*(1-1e-9) && x <= high*(1+1e-9) {
			ticks = append(ticks, plot.Tick{Value: x, Label: words.InFull(x)})
		}
	}
	return ticks
}

const (
	growRowHeight = 18
	growNames     = 110 // room for a grow's name
)

type growRows []answer.GrowFactor

// Plot draws a row a grow from the top of a plot's data area down.
func (rows growRows) Plot(c draw.Canvas, p *plot.Plot) {
	toX, _ := p.Transforms(&c)
	top := c.Max.Y
	for _, g := range rows {
		y := top - growRowHeight/2
		plain.lines(c, margin, top-2, plain.wrap(show(g.Grow), growNames-margin, 1))
		grid(c, p, top, top-growRowHeight)
		for _, s := range g.Steps {
			x := min(max(s.Factor, p.X.Min), p.X.Max)
			size := vg.Length(2 + min(math.Sqrt(float64(s.Readings)), 3))
			stamp(c, circle, vg.Point{X: toX(x), Y: y}, size, see(greys[0], 150), false)
		}
		if g.All >= p.X.Min && g.All <= p.X.Max {
			c.SetColor(ink)
			c.Fill(box(toX(g.All)-1, y-7, toX(g.All)+1, y+7))
		}
		top -= growRowHeight
	}
}
