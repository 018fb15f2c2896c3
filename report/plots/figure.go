package plots

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes in points. A phone that shows a figure 360 pixels wide shows its letters
// 11 pixels high.
const (
	width  = 420
	margin = 10
	inner  = width - 2*margin // what is left to draw in
)

// Figure is a drawing that can be written in several formats, with a text that
// says the same. The zero Figure is a white strip.
type Figure struct {
	blocks []block
	alt    string
}

// block is a part of a figure as wide as all of it; parts stand one below the
// other.
type block struct {
	height vg.Length
	draw   func(draw.Canvas)
}

// Alt is the figure in words, for those who cannot see it: what it shows and its
// main numbers.
func (f Figure) Alt() string { return f.alt }

func (f Figure) height() vg.Length {
	height := vg.Length(2 * margin)
	for _, b := range f.blocks {
		height += b.height
	}
	return height
}

func (f Figure) draw(c draw.Canvas) {
	// white, so that it reads on a dark page as well
	c.SetColor(color.White)
	c.Fill(c.Rectangle.Path())
	top := c.Max.Y - margin
	for _, b := range f.blocks {
		part := c
		part.Min, part.Max = vg.Point{X: margin, Y: top - b.height}, vg.Point{X: margin + inner, Y: top}
		b.draw(part)
		top -= b.height
	}
}

// paragraph is text over the whole width, as many lines as it takes.
func paragraph(l lettering, text string) block {
	lines := l.wrap(text, inner, maxLines)
	return block{l.height(len(lines)), func(c draw.Canvas) {
		l.lines(c, c.Min.X, c.Max.Y, lines)
	}}
}

// space is an empty strip.
func space(height vg.Length) block { return block{height, func(draw.Canvas) {}} }
