package plots

import (
	"fmt"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/report"
	"headhours/timing"
)

// Growth draws hours against heads, and minutes a head against heads, a line for
// each way of working with its interval; what is beyond the counts that were
// timed is dashed. Below, for each pair, the heads at which both may take the
// same hours.
func Growth(s timing.Scale, pairs []timing.Pair) Figure {
	tracks := tracksOf(s)
	drawn := tracks[:min(len(tracks), mostBars)]
	blocks := []block{paragraph(heading, "Hours against heads, for one grow"), space(4)}
	if heads := headsOf(drawn); len(heads) > 0 {
		blocks = append(blocks, key(growthKey(s, drawn)), space(8),
			growthChart(hoursChart(drawn, heads), drawn), space(10),
			growthChart(minutesChart(drawn, heads), drawn), space(10))
		blocks = append(blocks, evens(pairs, heads)...)
	}
	for _, sentence := range gapWords(drawn) {
		blocks = append(blocks, paragraph(faint, sentence))
	}
	if left := len(tracks) - len(drawn); left > 0 {
		blocks = append(blocks, paragraph(faint, fmt.Sprintf("%d more ways of working are not drawn.", left)))
	}
	return Figure{blocks, growthAlt(s, pairs)}
}

// gapWords say which lines lack what, once where they all lack the same.
func gapWords(tracks []track) []string {
	var order []string
	lacking := map[string][]string{}
	for _, t := range tracks {
		if gaps := list(t.line.Gaps); gaps != "" {
			if lacking[gaps] == nil {
				order = append(order, gaps)
			}
			lacking[gaps] = append(lacking[gaps], quoted(t.name))
		}
	}
	for i, gaps := range order {
		who := "All lines"
		if names := lacking[gaps]; len(names) < len(tracks) {
			who = list(names)
		}
		order[i] = fmt.Sprintf("%s: at least, without %s, never timed.", who, gaps)
	}
	return order
}

// track is a way of working with the line that it is drawn as.
type track struct {
	name  string
	label []string // the name, broken for the right margin
	line  timing.ScaleLine
	mark  mark
	style draw.LineStyle
}

// Room right of the lines, in points: for thin lines to their names, and for
// both.
const (
	leaderRoom = 24
	labelRoom  = 124
)

func tracksOf(s timing.Scale) []track {
	tracks := make([]track, len(s.Workflows))
	for i, line := range s.Workflows {
		name := show(line.Workflow)
		hue := strokes[i%len(strokes)]
		tracks[i] = track{
			name: name, label: plain.wrap(name, labelRoom-leaderRoom, 3), line: line,
			mark:  marks[i%len(marks)],
			style: draw.LineStyle{Color: hue, Width: 1.6},
		}
	}
	return tracks
}

// headsOf are the numbers of heads that the lines have points at, rising.
func headsOf(tracks []track) []int {
	var heads []int
	for _, t := range tracks {
		for _, p := range t.line.Points {
			heads = append(heads, p.Heads)
		}
	}
	slices.Sort(heads)
	return slices.Compact(heads)
}

var dashes = []vg.Length{5, 3}

// growthKey explains the signs that occur.
func growthKey(s timing.Scale, tracks []track) []keyEntry {
	timed, beyond, band := false, false, false
	for _, t := range tracks {
		for _, p := range t.line.Points {
			timed, beyond = timed || !p.Extrapolated, beyond || p.Extrapolated
			band = band || p.Low.Known && len(tracks) <= mostBands
		}
	}
	sign := func(hollow bool, style draw.LineStyle) func(draw.Canvas, vg.Point) {
		return func(c draw.Canvas, center vg.Point) {
			lineSign(style)(c, center)
			stamp(c, circle, center, pointRadius, greyInk, hollow)
		}
	}
	var entries []keyEntry
	if timed {
		entries = append(entries, keyEntry{sign(false, draw.LineStyle{Color: greyInk, Width: 1.6}), "within what was timed"})
	}
	if beyond {
		entries = append(entries, keyEntry{sign(true, draw.LineStyle{Color: greyInk, Width: 1.6, Dashes: dashes}), "beyond it, projected"})
	}
	if band {
		entries = append(entries, keyEntry{areaSign(see(strokes[0], bandOpacity)), percent(s.Confidence) + " interval of the mean"})
	}
	return entries
}

// growthChart is a plot with the names of its lines at their right ends.
func growthChart(p *plot.Plot, tracks []track) block {
	const axisHeight = 40
	height := vg.Length(210)
	var labels vg.Length
	for _, t := range tracks {
		labels += plain.height(len(t.label))
	}
	height = max(height, labels) + axisHeight
	return block{height, func(c draw.Canvas) {
		between(p, c, c.Min.X+gutter, c.Max.X-labelRoom)
	}}
}

// headsAxis is a logarithmic axis of heads.
func headsAxis(p *plot.Plot, heads []int) {
	const length = inner - gutter - labelRoom
	p.X.Scale = plot.LogScale{}
	p.X.Min, p.X.Max = float64(heads[0]), float64(heads[len(heads)-1])
	if len(heads) == 1 {
		p.X.Min, p.X.Max = p.X.Min/2, p.X.Max*2
	}
	p.X.Tick.Marker = logarithmic{length, faint.width(number(p.X.Max)) + 5}
}

func hoursChart(tracks []track, heads []int) *plot.Plot {
	p := chart("heads a grow", "hours of work")
	headsAxis(p, heads)
	lines := growthLines{tracks, func(s timing.ScalePoint) (value, low, high timing.Maybe) {
		return timing.Known(s.Hours), s.Low, s.High
	}}
	low, high := lines.span()
	if high <= 0 {
		low, high = 0.1, 1 // nothing known: all lie on the axis
	}
	// a limit at zero or below lies on the axis too
	const most = 1e6
	low = max(low, high/most)
	if low == high {
		low, high = low/2, high*2
	}
	p.Y.Scale = plot.LogScale{}
	p.Y.Min, p.Y.Max = low, high
	p.Y.Tick.Marker = logarithmic{200, 20}
	p.Add(lines)
	return p
}

func minutesChart(tracks []track, heads []int) *plot.Plot {
	p := chart("heads a grow", "minutes a head")
	headsAxis(p, heads)
	lines := growthLines{tracks, func(s timing.ScalePoint) (value, low, high timing.Maybe) {
		perHead := 60 / float64(s.Heads)
		return timing.Known(s.MinutesPerHead), s.Low.Times(perHead), s.High.Times(perHead)
	}}
	_, high := lines.span()
	if high <= 0 {
		high = 1
	}
	p.Y.Min, p.Y.Max = 0, 1.04*high
	p.Y.Tick.Marker = even{6, 0}
	p.Add(lines)
	return p
}

func growthAlt(s timing.Scale, pairs []timing.Pair) string {
	sentences := append([]string{"Hours, and minutes a head, against heads, a line for each way of working."}, report.Scale(s).Words()...)
	if len(pairs) > 0 {
		sentences = append(sentences, "Heads at which two ways take the same hours:")
	}
	for _, p := range pairs {
		sentences = append(sentences, evenWords(p)+".")
	}
	return spoken(sentences...)
}
