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

// maxPairs is how many pairs are drawn.
const maxPairs = 15

// evens draws, for each pair, the heads at which both take the same hours and a
// bar over those at which they may. Pairs with neither are named below.
func evens(pairs []answer.Pair, heads []int) []block {
	if len(pairs) == 0 {
		return nil
	}
	var rows evenRows
	var height vg.Length
	var words []block
	for _, p := range pairs[:min(len(pairs), maxPairs)] {
		row := evenRow{p.BreakEven, plain.wrap(evenWords(p), inner, 4)}
		if !row.Heads.Known && row.stretches() == nil {
			words = append(words, paragraph(plain, evenWords(p)))
			continue
		}
		rows = append(rows, row)
		height += row.height()
	}
	blocks := []block{paragraph(bold, "Break-even: heads at which two ways take the same hours"), space(2)}
	if len(rows) > 0 {
		p := chart("heads a grow", "")
		p.HideY()
		headsAxis(p, heads)
		p.Add(rows)
		const axisHeight = 42
		blocks = append(blocks, block{height + axisHeight, func(c draw.Canvas) {
			between(p, c, c.Min.X+gutter, c.Max.X-labelRoom)
		}}, space(4))
	}
	blocks = append(blocks, words...)
	if left := len(pairs) - maxPairs; left > 0 {
		blocks = append(blocks, paragraph(faint, notDrawn(left, "more pair", "")))
	}
	return append(blocks, space(6))
}

// evenWords say where two ways take the same hours.
func evenWords(p answer.Pair) string {
	e := p.BreakEven
	both := quoted(p.A) + " and " + quoted(p.B)
	switch {
	case e.Kind == answer.Interval && e.Heads.Known:
		return fmt.Sprintf("%s: %s%s", both, words.Heads(e.Heads.Value), within(e.Low, e.High, words.HeadsAlone))
	case e.Kind == answer.Interval:
		last := words.FirstHeads(e.High.Value) - 1
		if last < 1 {
			return both + ": never the same"
		}
		return fmt.Sprintf("%s: no clear difference up to %s", both, words.WholeHeads(last))
	case e.Kind == answer.Outside && words.FirstHeads(e.Low.Value) <= words.LastHeads(e.High.Value):
		from := words.WholeHeads(words.LastHeads(e.High.Value) + 1)
		if upTo := words.FirstHeads(e.Low.Value) - 1; upTo >= 1 {
			return fmt.Sprintf("%s: no clear difference up to %s, nor from %s on", both, words.InFull(upTo), from)
		}
		return fmt.Sprintf("%s: no clear difference from %s on", both, from)
	case e.Kind == answer.Everywhere, e.Kind == answer.Outside:
		return both + ": no clear difference at any number of heads"
	case e.Kind == answer.Never:
		return both + ": never the same"
	case e.Heads.Known:
		return fmt.Sprintf("%s: about %s, how surely is not known", both, words.Heads(e.Heads.Value))
	}
	return both + ": never the same, as far as is known"
}

// evenRow is a pair's break-even with its words broken.
type evenRow struct {
	answer.BreakEven
	words []string
}

const evenBarHeight = 18

func (r evenRow) height() vg.Length { return plain.height(len(r.words)) + evenBarHeight }

// stretches are the heads at which both may take the same hours.
func (r evenRow) stretches() [][2]float64 {
	switch r.Kind {
	case answer.Interval:
		return [][2]float64{{r.Low.Value, r.High.Value}}
	case answer.Outside:
		stretches := [][2]float64{{r.High.Value, math.Inf(1)}}
		if r.Low.Known {
			stretches = append(stretches, [2]float64{0, r.Low.Value})
		}
		return stretches
	case answer.Everywhere:
		return [][2]float64{{0, math.Inf(1)}}
	}
	return nil
}

type evenRows []evenRow

// Plot draws the rows from the top of a plot's data area down.
func (rows evenRows) Plot(c draw.Canvas, p *plot.Plot) {
	toX, _ := p.Transforms(&c)
	top := c.Max.Y
	for _, r := range rows {
		plain.lines(c, margin, top, r.words)
		y := top - plain.height(len(r.words))
		top -= r.height()
		grid(c, p, y, top)
		for _, s := range r.stretches() {
			stretch(c, p, toX, s, y-evenBarHeight/2)
		}
		if h := r.Heads; h.Known && h.Value >= p.X.Min && h.Value <= p.X.Max {
			stamp(c, diamond, vg.Point{X: toX(h.Value), Y: y - evenBarHeight/2}, pointRadius, ink, false)
		}
	}
}

// evenFill is a grey, since a colour stands for a step.
var evenFill = greys[2]

// stretch draws a bar from one number of heads to another, with an arrow where
// it goes on beyond the axis.
func stretch(c draw.Canvas, p *plot.Plot, toX func(float64) vg.Length, s [2]float64, y vg.Length) {
	left, right := max(s[0], p.X.Min), min(s[1], p.X.Max)
	c.SetColor(evenFill)
	if left < right {
		c.Fill(box(toX(left), y-2.5, toX(right), y+2.5))
	}
	arrow := func(x, tip vg.Length) {
		c.FillPolygon(evenFill, []vg.Point{{X: x, Y: y - 5}, {X: x, Y: y + 5}, {X: tip, Y: y}})
	}
	if s[0] < p.X.Min {
		arrow(toX(p.X.Min), toX(p.X.Min)-8)
	}
	if s[1] > p.X.Max {
		arrow(toX(p.X.Max), toX(p.X.Max)+8)
	}
}
