package plots

import (
	"cmp"
	"image/color"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing"
)

// growthLines draws tracks: bands, lines, points, and names at the right ends.
type growthLines struct {
	tracks []track
	figure func(timing.ScalePoint) (value, low, high timing.Maybe)
}

// bandOpacity lets bands show through each other.
const bandOpacity = 0x2e

// mostBands is how many lines may have a band before these are only a haze.
const mostBands = 6

// span is the range of the values above zero, and of the limits up to half as
// much again.
func (g growthLines) span() (low, high float64) {
	var top float64
	for _, t := range g.tracks {
		for _, p := range t.line.Points {
			value, least, most := g.figure(p)
			high, top = max(high, value.Value), max(top, most.Value)
			for _, x := range []timing.Maybe{value, least} {
				if x.Value > 0 && (low == 0 || x.Value < low) {
					low = x.Value
				}
			}
		}
	}
	return low, max(high, min(top, 1.5*high))
}

// Plot draws the lines onto a plot's data area.
func (g growthLines) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	at := func(heads int, value float64) vg.Point {
		// what is outside the axis lies on its end
		return vg.Point{X: toX(float64(heads)), Y: toY(min(max(value, p.Y.Min), p.Y.Max))}
	}
	if len(g.tracks) <= mostBands {
		for i, t := range g.tracks {
			g.band(c, t, see(strokes[i%len(strokes)], bandOpacity), at)
		}
	}
	var names []label
	for _, t := range g.tracks {
		if len(t.line.Points) == 0 {
			continue
		}
		places := make([]vg.Point, len(t.line.Points))
		for i, s := range t.line.Points {
			value, _, _ := g.figure(s)
			places[i] = at(s.Heads, value.Value)
		}
		t.stroke(c, places)
		for i, s := range t.line.Points {
			stamp(c, t.mark, places[i], pointRadius, t.style.Color, s.Extrapolated)
		}
		names = append(names, label{t, places[len(places)-1], 0})
	}
	nameEnds(c, names)
}

// band fills the interval of a line; of a single point it is a bar.
func (g growthLines) band(c draw.Canvas, t track, fill color.Color, at func(int, float64) vg.Point) {
	var upper, lower []vg.Point
	for _, s := range t.line.Points {
		_, low, high := g.figure(s)
		if !low.Known {
			return
		}
		upper, lower = append(upper, at(s.Heads, high.Value)), append(lower, at(s.Heads, low.Value))
	}
	slices.Reverse(lower)
	if len(upper) == 1 {
		c.StrokeLines(draw.LineStyle{Color: t.style.Color, Width: 1}, []vg.Point{upper[0], lower[0]})
		return
	}
	c.FillPolygon(fill, append(upper, lower...))
}

// stroke draws a line through places; to and from a point beyond what was timed
// it is dashed.
func (t track) stroke(c draw.Canvas, places []vg.Point) {
	points := t.line.Points
	beyond := func(i int) bool { return points[i].Extrapolated || points[i+1].Extrapolated }
	for from := 0; from+1 < len(places); {
		to := from + 1
		for to+1 < len(places) && beyond(to) == beyond(from) {
			to++
		}
		style := t.style
		if beyond(from) {
			style.Dashes = dashes
		}
		c.StrokeLines(style, places[from:to+1])
		from = to
	}
}

// label is the name of a line, at its end as near as the others leave room.
type label struct {
	track
	end vg.Point
	top vg.Length
}

func (l label) height() vg.Length { return plain.height(len(l.label)) }

// nameEnds writes the names of lines beside their ends, a thin line and the
// line's mark between.
func nameEnds(c draw.Canvas, names []label) {
	apart(names, c.Min.Y, c.Max.Y)
	for _, n := range names {
		x, middle := c.Max.X+leaderRoom, n.top-n.height()/2
		c.StrokeLines(draw.LineStyle{Color: n.style.Color, Width: 0.7},
			[]vg.Point{{X: n.end.X + 5, Y: n.end.Y}, {X: x - 11, Y: middle}})
		stamp(c, n.mark, vg.Point{X: x - 7, Y: middle}, pointRadius, n.style.Color, false)
		plain.lines(c, x, n.top, n.label)
	}
}

// apart sets the tops of labels: highest line first, none over another, all
// between bottom and top where they fit.
func apart(names []label, bottom, top vg.Length) {
	slices.SortStableFunc(names, func(a, b label) int { return cmp.Compare(b.end.Y, a.end.Y) })
	for i := range names {
		names[i].top = min(names[i].end.Y+names[i].height()/2, top)
		top = names[i].top - names[i].height()
	}
	for i := len(names) - 1; i >= 0; i-- {
		names[i].top = max(names[i].top, bottom+names[i].height())
		bottom = names[i].top
	}
}
