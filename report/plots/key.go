package plots

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// keyEntry is a sign and what it stands for.
type keyEntry struct {
	sign func(c draw.Canvas, center vg.Point)
	text string
}

// Widths of a sign, and of the space behind an entry.
const (
	signWidth = 22
	keyGap    = 14
)

// key lists signs side by side, over as many lines as they take.
func key(entries []keyEntry) block {
	type place struct {
		x    vg.Length
		line int
		text string
	}
	places := make([]place, len(entries))
	var x vg.Length
	line := 0
	for i, e := range entries {
		text := plain.cut(e.text, inner-signWidth)
		width := signWidth + plain.width(text)
		if x > 0 && x+width > inner {
			x, line = 0, line+1
		}
		places[i] = place{x, line, text}
		x += width + keyGap
	}
	if len(entries) == 0 {
		return space(0)
	}
	return block{plain.height(line + 1), func(c draw.Canvas) {
		for i, e := range entries {
			left, top := c.Min.X+places[i].x, c.Max.Y-plain.height(places[i].line)
			e.sign(c, vg.Point{X: left + signWidth/2 - 2, Y: top - plain.height(1)/2})
			plain.line(c, left+signWidth, top, places[i].text)
		}
	}}
}

// markSign is the sign of points.
func markSign(m mark, hue color.Color, hollow bool) func(draw.Canvas, vg.Point) {
	return func(c draw.Canvas, center vg.Point) { stamp(c, m, center, pointRadius, hue, hollow) }
}

// areaSign is the sign of a filled area.
func areaSign(fill color.Color) func(draw.Canvas, vg.Point) {
	return func(c draw.Canvas, center vg.Point) {
		shape := box(center.X-8, center.Y-5, center.X+8, center.Y+5)
		c.SetColor(fill)
		c.Fill(shape)
		c.SetLineStyle(outlineStyle)
		c.Stroke(shape)
	}
}

// lineSign is the sign of a line.
func lineSign(style draw.LineStyle) func(draw.Canvas, vg.Point) {
	return func(c draw.Canvas, center vg.Point) {
		c.StrokeLine2(style, center.X-9, center.Y, center.X+9, center.Y)
	}
}

// outlineStyle is the line around a filled area: pale ones would be lost on
// white.
var outlineStyle = draw.LineStyle{Color: greyInk, Width: 0.5}
