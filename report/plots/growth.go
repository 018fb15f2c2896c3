package plots

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/report"
	"headhours/timing/answer"
)

// Growth draws minutes a head against heads, a line for each way with its mark and
// intervals; what was timed is shaded, what is beyond it dashed. Below, for each pair, the
// heads at which both may take the same hours.
func Growth(s answer.Scale, pairs []answer.Pair) Figure {
	tracks := tracksOf(s)
	drawn := tracks[:min(len(tracks), maxBars)]
	blocks := []block{paragraph(heading, "Minutes a head against heads, for one grow"), space(4)}
	if heads := headsOf(drawn); len(heads) > 0 {
		blocks = append(blocks, key(growthKey(s, drawn)), space(8), growthChart(minutesChart(drawn, heads), drawn), space(10))
		blocks = append(blocks, evens(pairs, heads)...)
	}
	if left := len(tracks) - len(drawn); left > 0 {
		blocks = append(blocks, paragraph(faint, notDrawn(left, "more way", "")))
	}
	lacks := make([]lackOf, len(drawn))
	for i, t := range drawn {
		lacks[i] = lackOf{t.line.Workflow, t.line.Gaps}
	}
	return Figure{blocks: blocks, alt: growthAlt(s, pairs), lacks: lackWords(lacks)}
}

// growthKey explains the signs that occur.
func growthKey(s answer.Scale, tracks []track) []keyEntry {
	hasTimed, beyond, ranges := false, false, false
	for _, t := range tracks {
		for _, p := range t.line.Points {
			hasTimed, beyond = hasTimed || !p.Extrapolated, beyond || p.Extrapolated
			ranges = ranges || p.Low.Known && p.Low.Value < p.High.Value && len(tracks) <= maxRanges
		}
	}
	line := draw.LineStyle{Color: greyInk, Width: 1.4}
	var entries []keyEntry
	if _, _, ok := timedHeads(tracks); ok {
		entries = append(entries, keyEntry{areaSign(timedFill), "was timed"})
	} else if hasTimed && beyond {
		entries = append(entries, keyEntry{lineSign(line), "was timed"})
	}
	if line.Dashes = dashes; beyond {
		text := "projected"
		if len(entries) > 0 {
			text = "beyond it, projected"
		}
		entries = append(entries, keyEntry{lineSign(line), text})
	}
	if ranges {
		entries = append(entries, keyEntry{rangeSign, percent(s.Confidence) + " interval of the mean"})
	}
	return entries
}

// rangeSign is the sign of an interval.
func rangeSign(c draw.Canvas, center vg.Point) {
	upright(c, center.X, center.Y-7, center.Y+7, greyInk)
}

// growthChart is a plot with the names of its lines at their right ends.
func growthChart(p *plot.Plot, tracks []track) block {
	const axisHeight = 40
	height := vg.Length(230)
	var labels vg.Length
	for _, t := range tracks {
		labels += plain.height(len(t.label))
	}
	height = max(height, labels) + axisHeight
	return block{height, func(c draw.Canvas) {
		between(p, c, c.Min.X+gutter, c.Max.X-labelRoom)
	}}
}

func minutesChart(tracks []track, heads []int) *plot.Plot {
	p := chart("heads a grow", "minutes a head")
	headsAxis(p, heads)
	lines := growthLines{tracks}
	low, high := lines.span()
	switch {
	case high <= 0:
		low, high = 0, 1
	case low >= high:
		low, high = 0, 1.2*high
	}
	room := 0.06 * (high - low)
	p.Y.Min, p.Y.Max = max(0, low-room), high+room
	p.Y.Tick.Marker = even{6, 0}
	p.Add(lines)
	return p
}

func growthAlt(s answer.Scale, pairs []answer.Pair) string {
	sentences := append([]string{"Minutes a head against heads, a line for each way."}, report.Scale(s).Words()...)
	if len(pairs) > 0 {
		sentences = append(sentences, "Heads at which two ways take the same hours:")
	}
	for _, p := range pairs {
		sentences = append(sentences, evenWords(p)+".")
	}
	return spoken(sentences...)
}
