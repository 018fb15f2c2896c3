package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"headhours/timing/answer"
	"headhours/timing/condense"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// ByDate draws each step that was changed: its readings by date, as multiples of what its
// model as it is now expects, with a line at each change and the mean between changes.
func ByDate(steps []answer.ByDate) Figure {
	steps = slices.DeleteFunc(slices.Clone(steps), func(d answer.ByDate) bool { return len(d.Points) == 0 })
	if len(steps) == 0 {
		return Figure{alt: spoken("No step that was changed has a reading with a date.")}
	}
	blocks := []block{paragraph(heading, "Readings before and after each change, by date"), space(4)}
	sentences := []string{"Readings of steps that were changed, by date."}
	for _, d := range steps[:min(len(steps), maxPanels)] {
		blocks = append(blocks, paragraph(bold, show(d.Step)), space(2), datedBlock(d), space(10))
		sentences = append(sentences, datedWords(d))
	}
	if left := len(steps) - maxPanels; left > 0 {
		blocks = append(blocks, paragraph(faint, notDrawn(left, "more step", "")))
	}
	blocks = append(blocks, paragraph(faint, "A dot is a reading, as a multiple of what the step takes now; a broken line is a change, a thick one the mean between changes."))
	return Figure{blocks: blocks, alt: spoken(sentences...)}
}

// datedWords is what a panel shows in words.
func datedWords(d answer.ByDate) string {
	text := show(d.Step) + ":"
	for _, part := range d.Parts {
		if part.First != condense.NoDay {
			text += fmt.Sprintf(" from %s to %s %s times what it takes now;", isoDay(part.First), isoDay(part.Last), factorText(part.Ratio))
		}
	}
	for _, line := range d.Lines {
		text += fmt.Sprintf(" %s on %s;", show(line.Name), isoDay(line.Day))
	}
	if d.Left > 0 {
		text += " " + strings.TrimSuffix(notDrawn(d.Left, "more reading", ""), ".") + ";"
	}
	return text[:len(text)-1] + "."
}

func isoDay(day condense.Day) string { return day.Date().Format(time.DateOnly) }

const datedHeight = 150

// datedBlock is the panel of one step.
func datedBlock(d answer.ByDate) block {
	p := chart("", "times what it takes now")
	low, high, top := d.Points[0].Day, d.Points[0].Day, 1.0
	for _, point := range d.Points {
		low, high, top = min(low, point.Day), max(high, point.Day), max(top, point.Ratio)
	}
	for _, line := range d.Lines {
		low, high = min(low, line.Day), max(high, line.Day)
	}
	room := math.Max(1, 0.03*float64(high-low))
	p.X.Min, p.X.Max = float64(low)-room, float64(high)+room
	p.Y.Min, p.Y.Max = 0, 1.2*top
	p.X.Tick.Marker, p.Y.Tick.Marker = dayTicks{}, even{5, 0}
	p.Add(datedRow(d))
	return block{datedHeight, func(c draw.Canvas) { between(p, c, c.Min.X+gutter, c.Max.X-overhang) }}
}

// dayTicks are up to four ticks at whole days, labelled with their dates, and so far from
// the ends that their labels stay clear of those of the other axis.
type dayTicks struct{}

// Ticks are the same number of days apart.
func (dayTicks) Ticks(low, high float64) []plot.Tick {
	const maxShown, clear = 4, 0.1 // half a label's width, as a share of the axis
	first, last := math.Ceil(low+clear*(high-low)), math.Floor(high-clear*(high-low))
	step := math.Max(1, math.Ceil((last-first)/(maxShown-1)))
	var ticks []plot.Tick
	for x := first; x <= last; x += step {
		ticks = append(ticks, plot.Tick{Value: x, Label: isoDay(condense.Day(x))})
	}
	return ticks
}

type datedRow answer.ByDate

// Plot draws a step's readings, means and changes onto a plot's data area.
func (d datedRow) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	for _, point := range d.Points {
		stamp(c, circle, vg.Point{X: toX(float64(point.Day)), Y: toY(point.Ratio)}, pointRadius, see(greys[0], 170), false)
	}
	for i, line := range d.Lines {
		x := toX(float64(line.Day) - 0.5) // between the days
		c.StrokeLine2(draw.LineStyle{Color: ink, Width: 0.9, Dashes: []vg.Length{4, 3}}, x, c.Min.Y, x, c.Max.Y)
		name := faint.cut(show(line.Name), (c.Max.X-c.Min.X)/2)
		at, y := x+3, c.Max.Y-faint.height(i%2)
		if at+faint.width(name) > c.Max.X {
			at = x - 3 - faint.width(name)
		}
		faint.line(c, at, y, name)
	}
	for _, part := range d.Parts {
		if part.First == condense.NoDay {
			continue
		}
		left, right := toX(float64(part.First)-0.4), toX(float64(part.Last)+0.4)
		c.StrokeLine2(draw.LineStyle{Color: ink, Width: 2.2}, left, toY(part.Ratio), max(right, left+8), toY(part.Ratio))
	}
}

// Improved is where the hours go and, below it, what changes that were made have done.
func Improved(in answer.Improvement, steps []answer.ByDate, hues Hues) Figure {
	return Shares(in, hues).above(dated(steps))
}

// Checked is how long each grow took and, below it, what changes that were made have done.
func Checked(grows []answer.GrowFactor, steps []answer.ByDate) Figure {
	return GrowFactors(grows).above(dated(steps))
}

// dated is ByDate, the zero Figure where there is nothing on it.
func dated(steps []answer.ByDate) Figure {
	if f := ByDate(steps); len(f.blocks) > 0 {
		return f
	}
	return Figure{}
}
