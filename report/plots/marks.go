package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// mark is the shape of a point.
type mark func(center vg.Point, radius vg.Length) vg.Path

// marks tell lines apart together with strokes.
var marks = []mark{circle, square, triangle, diamond, pentagon}

// pointRadius is the size of the mark of a point, in points.
const pointRadius = 3.2

// stamp draws a mark, filled with its colour or hollow.
func stamp(c draw.Canvas, m mark, at vg.Point, radius vg.Length, hue color.Color, hollow bool) {
	shape := m(at, radius)
	c.SetColor(hue)
	if hollow {
		c.SetColor(color.White)
	}
	c.Fill(shape)
	c.SetLineStyle(draw.LineStyle{Color: hue, Width: 1.3})
	c.Stroke(shape)
}

func circle(center vg.Point, radius vg.Length) vg.Path {
	var p vg.Path
	p.Move(vg.Point{X: center.X + radius, Y: center.Y})
	p.Arc(center, radius, 0, 2*math.Pi)
	p.Close()
	return p
}

func square(center vg.Point, radius vg.Length) vg.Path {
	return polygon(center, 1.25*radius, 4, 0.5)
}

func diamond(center vg.Point, radius vg.Length) vg.Path {
	return polygon(center, 1.35*radius, 4, 0)
}

func triangle(center vg.Point, radius vg.Length) vg.Path {
	return polygon(center, 1.35*radius, 3, 0)
}

func pentagon(center vg.Point, radius vg.Length) vg.Path {
	return polygon(center, 1.25*radius, 5, 0)
}

// polygon is a regular one; turned is the share of a side by which its first
// corner is off the top.
func polygon(center vg.Point, radius vg.Length, corners int, turned float64) vg.Path {
	var p vg.Path
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + turned) / float64(corners))
		at := vg.Point{X: center.X + radius*vg.Length(sin), Y: center.Y + radius*vg.Length(cos)}
		if i == 0 {
			p.Move(at)
		} else {
			p.Line(at)
		}
	}
	p.Close()
	return p
}

func box(left, bottom, right, top vg.Length) vg.Path {
	return vg.Rectangle{Min: vg.Point{X: left, Y: bottom}, Max: vg.Point{X: right, Y: top}}.Path()
}

// whiskerLine draws an interval: a line with its ends marked.
func whiskerLine(c draw.Canvas, left, right, y vg.Length) {
	style := draw.LineStyle{Color: ink, Width: 1.6}
	c.StrokeLine2(style, left, y, right, y)
	for _, x := range []vg.Length{left, right} {
		c.StrokeLine2(style, x, y-3, x, y+3)
	}
}
