package plots

import (
	"image/color"
	"slices"

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
	lacks  []string // what totals in it are without, a sentence each
}

// OnPage is the figure without the sentences that name what was never timed, for a page
// that says so itself.
func (f Figure) OnPage() Figure {
	f.lacks = nil
	return f
}

// above is a figure with another below it, where there is anything on both.
func (f Figure) above(below Figure) Figure {
	switch {
	case len(f.blocks) == 0 && below.alt != "":
		return below
	case len(below.blocks) == 0:
		return f
	}
	return Figure{
		blocks: slices.Concat(f.blocks, []block{space(14)}, below.blocks), alt: f.alt + " " + below.alt,
		lacks: slices.Compact(slices.Concat(f.lacks, below.lacks)),
	}
}

// ofCrop is what a title says of a crop, where there are several.
func ofCrop(crop string) string {
	if crop == "" {
		return " of no named crop"
	}
	return " of " + show(crop)
}

// all are the blocks with those of what is lacking.
func (f Figure) all() []block {
	blocks := f.blocks[:len(f.blocks):len(f.blocks)]
	for _, sentence := range f.lacks {
		blocks = append(blocks, space(3), paragraph(faint, sentence))
	}
	return blocks
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
	for _, b := range f.all() {
		height += b.height
	}
	return height
}

func (f Figure) draw(c draw.Canvas) {
	// white, so that it reads on a dark page as well
	c.SetColor(color.White)
	c.Fill(c.Rectangle.Path())
	top := c.Max.Y - margin
	for _, b := range f.all() {
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
