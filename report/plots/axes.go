package plots

import (
	"math"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing/words"
)

// Room beside the data of a plot, in points.
const (
	gutter   = 50 // left of it: the axis, its ticks and its label
	overhang = 12 // right of it, for half the last tick's label
)

// chart is a plot in the manner of all our figures, its axes labelled and with
// lines across at the ticks of y.
func chart(x, y string) *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Padding = 0
		axis.LineStyle = draw.LineStyle{Color: greyInk, Width: 0.8}
		axis.Tick.LineStyle = axis.LineStyle
		axis.Tick.Length = 4
		axis.Label.TextStyle = faint.style(text.XCenter, text.YBottom)
		axis.Label.Padding = 1
	}
	p.X.Tick.Label = faint.style(text.XCenter, text.YTop)
	// a little lower than the middle, where digits stand level with their tick
	p.Y.Tick.Label = faint.style(text.XRight, -0.6)
	p.X.Label.Text, p.Y.Label.Text = x, y
	p.Add(&plotter.Grid{Horizontal: draw.LineStyle{Color: gridInk, Width: 0.6}})
	return p
}

// between draws a plot so that its data lie between two verticals; where what is
// left of them does not go into the canvas, they begin further right.
func between(p *plot.Plot, c draw.Canvas, left, right vg.Length) {
	left = max(left, p.DataCanvas(c).Min.X)
	for range 20 { // the room for the last tick's label hangs on the width
		data := p.DataCanvas(c)
		if math.Abs(float64(data.Min.X-left))+math.Abs(float64(data.Max.X-right)) < 1e-6 {
			break
		}
		c.Min.X += left - data.Min.X
		c.Max.X += right - data.Max.X
	}
	p.Draw(c)
}

// even are ticks at round numbers: at most so many steps from end to end, none
// shorter than least.
type even struct {
	steps   int
	minStep float64
}

// Ticks are multiples of 1, 2 or 5 times a power of ten.
func (e even) Ticks(low, high float64) []plot.Tick {
	step := roundStep(max((high-low)/float64(e.steps), e.minStep))
	first, last := math.Ceil(low/step-1e-9), math.Floor(high/step+1e-9)
	var ticks []plot.Tick
	for i := 0; i <= e.steps && first+float64(i) <= last; i++ {
		x := (first + float64(i)) * step
		ticks = append(ticks, plot.Tick{Value: x, Label: tickLabel(x, step)})
	}
	return ticks
}

// across are ticks of a horizontal axis of a length: as many as their labels
// leave room for.
func across(length vg.Length, high, minStep float64) even {
	widest := faint.width(tickLabel(high, roundStep(max(high/6, minStep))))
	return even{int(min(max(length/(widest+10), 1), 6)), minStep}
}

// roundStep is the least of 1, 2 and 5 times a power of ten that is not below a
// step.
func roundStep(minStep float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(minStep)))
	for _, digit := range []float64{1, 2, 5} {
		if digit*power >= minStep*(1-1e-9) {
			return digit * power
		}
	}
	return 10 * power
}

// tickLabel is a multiple of a step with as many decimals as the step has.
func tickLabel(x, step float64) string {
	if x == 0 {
		return "0"
	}
	if step >= 1e5 || step < 1e-4 {
		digits := 1 + int(math.Floor(math.Log10(math.Abs(x)))-math.Floor(math.Log10(step)+1e-9)) // as many as tell it from the next
		return strconv.FormatFloat(x, 'g', max(digits, 1), 64)
	}
	return words.Fixed(x, int(max(0, -math.Floor(math.Log10(step)+1e-9))))
}

// grid draws lines down from top to bottom at the labelled ticks of x.
func grid(c draw.Canvas, p *plot.Plot, top, bottom vg.Length) {
	for _, tick := range p.X.Tick.Marker.Ticks(p.X.Min, p.X.Max) {
		if tick.IsMinor() {
			continue
		}
		x := c.X(p.X.Norm(tick.Value))
		c.StrokeLine2(draw.LineStyle{Color: gridInk, Width: 0.6}, x, bottom, x, top)
	}
}
