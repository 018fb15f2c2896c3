package plots

import (
	"image/color"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing/answer"
)

// track is a way with the line that it is drawn as.
type track struct {
	name  string
	label []string // the name, broken for the right margin
	line  answer.ScaleLine
	mark  mark
	style draw.LineStyle
}

// Room right of the lines, in points: for thin lines to their names, and for
// both.
const (
	leaderRoom = 24
	labelRoom  = 124
)

// tracksOf gives each way its mark: a colour stands for a step.
func tracksOf(s answer.Scale) []track {
	tracks := make([]track, len(s.Workflows))
	for i, line := range s.Workflows {
		name := show(line.Workflow)
		tracks[i] = track{
			name: name, label: plain.wrap(name, labelRoom-leaderRoom, 3), line: line,
			mark:  marks[i%len(marks)],
			style: draw.LineStyle{Color: workflowInks[i/len(marks)%len(workflowInks)], Width: 1.4},
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

// timedHeads are the least and most heads that are within what was timed of some way; ok
// is false where there are none, or where nothing is beyond, as where all is judged.
func timedHeads(tracks []track) (minHeads, maxHeads int, ok bool) {
	within, beyond := false, false
	for _, t := range tracks {
		for _, p := range t.line.Points {
			if beyond = beyond || p.Extrapolated; p.Extrapolated {
				continue
			}
			if !within || p.Heads < minHeads {
				minHeads = p.Heads
			}
			maxHeads, within = max(maxHeads, p.Heads), true
		}
	}
	return minHeads, maxHeads, within && beyond && minHeads < maxHeads
}

// headsAxis is an axis of heads.
func headsAxis(p *plot.Plot, heads []int) {
	const length = inner - gutter - labelRoom
	p.X.Min, p.X.Max = float64(heads[0]), float64(heads[len(heads)-1])
	if len(heads) == 1 {
		p.X.Min, p.X.Max = p.X.Min/2, p.X.Max*2
	}
	p.X.Tick.Marker = across(length, p.X.Max, 1)
}

// Inks of ways that share a mark, and the shade of what was timed.
var (
	workflowInks = []color.NRGBA{ink, greys[2], greys[5]}
	timedFill    = color.NRGBA{0xe2, 0xea, 0xe4, 0xff}
)
