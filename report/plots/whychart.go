package plots

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/report/look"
	"headhours/timing/study"
)

// Sizes of the bars that say why, in points.
const (
	whyRowHeight = 18
	whyBar       = 13
	whyNames     = 150 // left of the bars
	whyValues    = 46  // right of them, at least
	whyGap       = 8
)

// whyChart draws the groups one below the other, over one axis.
func whyChart(groups []whyGroup) block {
	w := whyBars{groups: groups}
	p := chart("minutes a grow, rest included", "")
	p.HideY()
	p.X.Min, p.X.Max = 0, 0 // every bar begins at 0, whatever all signs are
	var height vg.Length
	values := vg.Length(whyValues)
	for _, g := range groups {
		title := bold.wrap(g.title, inner, 3)
		w.titles = append(w.titles, title)
		height += bold.height(len(title)) + whyRowHeight*vg.Length(len(g.rows)) + whyGap
		for _, r := range g.rows {
			values = max(values, bold.width(r.words)+wordsGap)
			p.X.Min, p.X.Max = min(p.X.Min, r.minutes), max(p.X.Max, r.minutes)
			if r.low.Known {
				p.X.Min, p.X.Max = min(p.X.Min, r.low.Value), max(p.X.Max, r.high.Value)
			}
		}
	}
	if p.X.Min == p.X.Max {
		p.X.Max++
	}
	p.X.Tick.Marker = across(inner-whyNames-values-20, max(p.X.Max, -p.X.Min), 0)
	p.Add(w)
	axisHeight := 2*faint.height(1) + 8
	return block{height + axisHeight, func(c draw.Canvas) {
		between(p, c, c.Min.X+whyNames, c.Max.X-values)
	}}
}

// whyBars are the groups with their titles broken.
type whyBars struct {
	groups []whyGroup
	titles [][]string
}

// Plot draws the groups from the top of a plot's data area down.
func (w whyBars) Plot(c draw.Canvas, p *plot.Plot) {
	toX, _ := p.Transforms(&c)
	top := c.Max.Y
	zero := draw.LineStyle{Color: ink, Width: 1.2}
	for i, g := range w.groups {
		bold.lines(c, margin, top, w.titles[i])
		top -= bold.height(len(w.titles[i]))
		bottom := top - whyRowHeight*vg.Length(len(g.rows))
		grid(c, p, top, bottom)
		for j, r := range g.rows {
			l := plain
			if j == len(g.rows)-1 {
				l = bold
			}
			r.draw(c, toX, top-whyRowHeight*vg.Length(j), l)
		}
		c.StrokeLine2(zero, toX(0), bottom, toX(0), top)
		top = bottom - whyGap
	}
}

// draw draws one change: its name, its bar and its minutes.
func (r whyRow) draw(c draw.Canvas, toX func(float64) vg.Length, top vg.Length, l lettering) {
	l.line(c, margin, top-1, l.cut(r.name, whyNames-8))
	words := l.width(r.words)
	l.line(c, margin+inner-words, top-1, r.words)
	left, right := toX(min(r.minutes, 0)), toX(max(r.minutes, 0))
	middle := top - whyRowHeight/2
	if r.minutes != 0 {
		shape := box(left, middle-whyBar/2, right, middle+whyBar/2)
		c.SetColor(r.fill)
		c.Fill(shape)
		c.SetLineStyle(outlineStyle)
		c.Stroke(shape)
	}
	if r.letter != "" && right-left >= plain.width(r.letter)+4 {
		in := plain.in(look.Onto(r.fill))
		in.line(c, (left+right-in.width(r.letter))/2, middle+in.height(1)/2, r.letter)
	}
	if r.low.Known {
		whiskerLine(c, toX(r.low.Value), toX(r.high.Value), middle)
	}
}

// whyGroup is a way beside the first: what it comes to, a bar for each change, and one
// for the sum.
type whyGroup struct {
	title string
	rows  []whyRow
}

// whyRow is a change in minutes, its range where it is the sum.
type whyRow struct {
	name, words string
	minutes     float64
	fill        color.NRGBA
	letter      string
	low, high   study.Maybe
}
