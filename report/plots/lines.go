package plots

import (
	"cmp"
	"image/color"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing/answer"
	"headhours/timing/study"
)

// growthLines draws the minutes a head of tracks: lines, marks with intervals, and names
// at the right ends. What was timed of some way lies on a shade.
type growthLines struct{ tracks []track }

const (
	// maxRanges is how many lines may have intervals before these are only a haze.
	maxRanges = 6
	// marksALine is how many marks a line of many points has.
	marksALine = 5
)

// perHead is a point's minutes a head, and the limits of its interval.
func perHead(s answer.ScalePoint) (value float64, low, high study.Maybe) {
	a := 60 / float64(s.Heads)
	return s.MinutesPerHead, s.Low.Times(a), s.High.Times(a)
}

// span is the range of the values above zero, and of the limits up to half as
// much again.
func (g growthLines) span() (low, high float64) {
	var top float64
	for i, t := range g.tracks {
		for j, p := range t.line.Points {
			value, from, to := perHead(p)
			high = max(high, value)
			limits := []float64{value}
			if g.marked(i, j) {
				top, limits = max(top, to.Value), append(limits, from.Value)
			}
			for _, x := range limits {
				if x > 0 && (low == 0 || x < low) {
					low = x
				}
			}
		}
	}
	return low, max(high, min(top, 1.5*high))
}

// marked says whether a line has a mark at a point: at all of few, else at some, which
// are others in each line so that marks stand side by side.
func (g growthLines) marked(line, point int) bool {
	n := len(g.tracks[line].line.Points)
	if n <= 2*marksALine {
		return true
	}
	for m := range marksALine {
		if at := (float64(m) + (float64(line)+0.5)/float64(len(g.tracks))) * float64(n) / marksALine; int(at) == point {
			return true
		}
	}
	return false
}

// Plot draws the lines onto a plot's data area.
func (g growthLines) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	// what is outside the axis lies on its end
	y := func(value float64) vg.Length { return toY(min(max(value, p.Y.Min), p.Y.Max)) }
	if minHeads, maxHeads, ok := timedHeads(g.tracks); ok {
		c.SetColor(timedFill)
		c.Fill(box(toX(float64(minHeads)), c.Min.Y, toX(float64(maxHeads)), c.Max.Y))
	}
	var names []label
	for _, t := range g.tracks {
		if len(t.line.Points) == 0 {
			continue
		}
		places := make([]vg.Point, len(t.line.Points))
		for i, s := range t.line.Points {
			value, _, _ := perHead(s)
			places[i] = vg.Point{X: toX(float64(s.Heads)), Y: y(value)}
		}
		t.stroke(c, places)
		names = append(names, label{t, places[len(places)-1], 0})
	}
	for i, t := range g.tracks {
		for j, s := range t.line.Points {
			if !g.marked(i, j) {
				continue
			}
			value, low, high := perHead(s)
			at := vg.Point{X: toX(float64(s.Heads)), Y: y(value)}
			if low.Known && low.Value < high.Value && len(g.tracks) <= maxRanges {
				upright(c, at.X, y(low.Value), y(high.Value), t.style.Color)
			}
			stamp(c, t.mark, at, pointRadius, t.style.Color, s.Extrapolated)
		}
	}
	nameEnds(c, names)
}

// upright draws an interval: a line with its ends marked.
func upright(c draw.Canvas, x, low, high vg.Length, hue color.Color) {
	style := draw.LineStyle{Color: hue, Width: 0.9}
	c.StrokeLine2(style, x, low, x, high)
	for _, y := range []vg.Length{low, high} {
		c.StrokeLine2(style, x-2.5, y, x+2.5, y)
	}
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
// line's mark between; of a line that ends above the figure the mark alone.
func nameEnds(c draw.Canvas, names []label) {
	setApart(names, c.Min.Y, c.Max.Y)
	for _, n := range names {
		x, middle := c.Max.X+leaderRoom, n.top-n.height()/2
		if n.end.Y <= c.Max.Y {
			c.StrokeLines(draw.LineStyle{Color: n.style.Color, Width: 0.7},
				[]vg.Point{{X: n.end.X + 5, Y: n.end.Y}, {X: x - 11, Y: middle}})
		}
		stamp(c, n.mark, vg.Point{X: x - 7, Y: middle}, pointRadius, n.style.Color, false)
		plain.lines(c, x, n.top, n.label)
	}
}

// setApart sets the tops of labels: highest line first, none over another, all
// between bottom and top where they fit.
func setApart(names []label, bottom, top vg.Length) {
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
