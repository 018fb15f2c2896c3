package plots

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing/answer"
)

// stepData draws a step's band, lines and readings, times multiplied by scale.
type stepData struct {
	answer.Curve
	right, bottom, top, scale float64
}

// newStepData finds the range of a step's readings and lines from zero on, with
// room for the band: up to half as much again.
func newStepData(c answer.Curve) stepData {
	d := stepData{Curve: c}
	for _, p := range c.Points {
		d.right, d.top = max(d.right, p.Count), max(d.top, p.Seconds)
	}
	high := 0.0
	for _, line := range c.Lines {
		for _, at := range line.At {
			d.right = max(d.right, at.Count)
			d.bottom, d.top = min(d.bottom, at.Seconds), max(d.top, at.Seconds)
			high = max(high, at.High.Value) // 0 where it is not known
		}
	}
	d.top = 1.08 * max(d.top, min(high, 1.5*d.top))
	return d
}

// minStep is 1 where all counts are whole, so that no ticks stand between.
func (d stepData) minStep() float64 {
	for _, p := range d.Points {
		if p.Count != math.Trunc(p.Count) {
			return 0
		}
	}
	return 1
}

// Plot draws the step onto a plot's data area.
func (d stepData) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	at := func(count, seconds float64) vg.Point { return vg.Point{X: toX(count), Y: toY(seconds * d.scale)} }
	for _, line := range d.Lines {
		d.band(c, line, at)
	}
	for _, line := range d.Lines {
		style := fittedStyle
		if line.Setups != 1 {
			style.Color = kindOf(line.Setups).hue
		}
		points := make([]vg.Point, len(line.At))
		for i, t := range line.At {
			points[i] = at(t.Count, t.Seconds)
		}
		c.StrokeLines(style, c.ClipLinesXY(points)...)
	}
	for _, r := range d.Points {
		k := kindOf(r.Setups)
		stamp(c, k.mark, at(r.Count, r.Seconds), pointRadius, k.hue, true)
		if r.StandsOut {
			standOut(c, at(r.Count, r.Seconds))
		}
	}
	if d.Bracket != nil {
		nameLines(c, d.Curve, at)
	}
}

// band fills the interval of a line of one setup or none.
func (d stepData) band(c draw.Canvas, line answer.CurveLine, at func(count, seconds float64) vg.Point) {
	if line.Setups > 1 || !line.At[0].Low.Known {
		return
	}
	var upper, lower []vg.Point
	for _, t := range line.At {
		upper, lower = append(upper, at(t.Count, t.High.Value)), append(lower, at(t.Count, t.Low.Value))
	}
	slices.Reverse(lower)
	c.FillPolygon(bandFill, c.ClipPolygonXY(append(upper, lower...)))
}

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

var (
	fittedStyle = draw.LineStyle{Color: ink, Width: 1.2}
	bandFill    = color.NRGBA{0xcf, 0xdd, 0xd2, 0xff}
)

// standOut rings a point that stands out.
func standOut(c draw.Canvas, at vg.Point) {
	c.SetLineStyle(draw.LineStyle{Color: color.NRGBA{0xa3, 0x1f, 0x34, 0xff}, Width: 1.8})
	c.Stroke(circle(at, 2.2*pointRadius))
}
