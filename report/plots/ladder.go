package plots

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// rung is a bar of a ladder: its name, spans of the axis, and its figures in words.
type rung struct {
	name  string
	words string
	spans []stretchOf
}

// stretchOf is a span of the axis in a colour.
type stretchOf struct {
	from, to float64
	fill     color.NRGBA
	hatched  bool
}

// Sizes of a rung in points.
const (
	rungHeight = 18
	rungBar    = 11
	rungNames  = 150 // left of the bars
	rungWords  = 96  // right of them, at least
	rungLonger = 170 // and at most
)

// ladder draws many bars over a common axis, each with its name before it and its figures
// behind it. Where mark is not nil a line stands at it from top to bottom.
func ladder(axis string, low, high float64, mark *float64, all []rung) block {
	if low == high {
		high = low + 1
	}
	room := wordsRoom(all)
	p := chart(faint.cut(axis, inner-rungNames-room), "") // a wider one would push the bars aside
	p.HideY()
	p.X.Min, p.X.Max = low, high
	p.X.Tick.Marker = across(inner-rungNames-room, high, 0)
	p.Add(rungs{all, mark, room})
	height := vg.Length(len(all)) * rungHeight
	axisHeight := 2*faint.height(1) + 8
	return block{height + axisHeight, func(c draw.Canvas) {
		between(p, c, c.Min.X+rungNames, c.Max.X-room)
	}}
}

// wordsRoom is the room right of the bars: what the longest figures in words take.
func wordsRoom(all []rung) vg.Length {
	room := vg.Length(rungWords)
	for _, r := range all {
		room = max(room, plain.width(r.words)+wordsGap)
	}
	return min(room, rungLonger)
}

// wordsGap is between a bar and its figures in words.
const wordsGap = 6

type rungs struct {
	all  []rung
	mark *float64
	room vg.Length // of the words
}

// Plot draws the rungs from the top of a plot's data area down.
func (r rungs) Plot(c draw.Canvas, p *plot.Plot) {
	toX, _ := p.Transforms(&c)
	top := c.Max.Y
	bottom := top - rungHeight*vg.Length(len(r.all))
	grid(c, p, top, bottom)
	for _, rung := range r.all {
		words := plain.cut(rung.words, r.room-wordsGap)
		plain.line(c, margin, top-1, plain.cut(rung.name, rungNames-8))
		plain.line(c, margin+inner-plain.width(words), top-1, words)
		bar := top - (rungHeight-rungBar)/2
		for _, s := range rung.spans {
			left, right := toX(min(s.from, s.to)), toX(max(s.from, s.to))
			shape := box(left, bar-rungBar, right, bar)
			c.SetColor(s.fill)
			c.Fill(shape)
			if s.hatched {
				hatch(c, left, bar-rungBar, right, bar, s.fill)
			}
			c.SetLineStyle(outlineStyle)
			c.Stroke(shape)
		}
		top -= rungHeight
	}
	if r.mark != nil {
		c.StrokeLine2(draw.LineStyle{Color: ink, Width: 1.4}, toX(*r.mark), bottom, toX(*r.mark), c.Max.Y)
	}
}
