package plots

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing/answer"
)

// nameLines writes beside the lines of alike counts which is all unit and which
// all setup.
func nameLines(c draw.Canvas, curve answer.Curve, at func(count, seconds float64) vg.Point) {
	var occupied []vg.Point
	for _, p := range curve.Points {
		occupied = append(occupied, at(p.Count, p.Seconds))
	}
	for _, line := range curve.Lines {
		for _, t := range line.At {
			occupied = append(occupied, at(t.Count, t.Seconds))
		}
	}
	// the one that is all unit stands first
	for _, lines := range [][]answer.CurveLine{curve.Lines[:1], curve.Lines[1:]} {
		text := "all " + string(lines[0].Form)
		spot := besideLines(c, lines, at, plain.width(text), occupied)
		plain.line(c, spot.Min.X, spot.Max.Y, text)
		occupied = append(occupied, spot.Min, spot.Max, vg.Point{X: (spot.Min.X + spot.Max.X) / 2, Y: spot.Min.Y})
	}
}

// besideLines is the first spot of a width beside lines that nothing stands in;
// where there is none, it is over the middle of the first.
func besideLines(c draw.Canvas, lines []answer.CurveLine, at func(count, seconds float64) vg.Point, width vg.Length, occupied []vg.Point) vg.Rectangle {
	const away = 5
	size := vg.Point{X: width, Y: plain.height(1)}
	rectangle := func(left, bottom vg.Length) vg.Rectangle {
		corner := vg.Point{X: left, Y: bottom}
		return vg.Rectangle{Min: corner, Max: corner.Add(size)}
	}
	for _, line := range lines {
		for _, t := range line.At {
			p := at(t.Count, t.Seconds)
			for _, spot := range []vg.Rectangle{
				rectangle(p.X+away, p.Y+2), rectangle(p.X+away, p.Y-size.Y-2), rectangle(p.X-size.X-away, p.Y+2),
			} {
				if inside(c.Rectangle, spot) && free(spot, occupied) {
					return spot
				}
			}
		}
	}
	middle := lines[0].At[len(lines[0].At)/2]
	p := at(middle.Count, middle.Seconds)
	return rectangle(p.X-size.X/2, p.Y+2)
}

func inside(outer, inner vg.Rectangle) bool {
	return inner.Min.X >= outer.Min.X && inner.Min.Y >= outer.Min.Y &&
		inner.Max.X <= outer.Max.X && inner.Max.Y <= outer.Max.Y
}

// free says whether no point lies in a spot, or its mark reaches into it.
func free(spot vg.Rectangle, occupied []vg.Point) bool {
	for _, p := range occupied {
		if p.X > spot.Min.X-pointRadius && p.X < spot.Max.X+pointRadius && p.Y > spot.Min.Y && p.Y < spot.Max.Y {
			return false
		}
	}
	return true
}
