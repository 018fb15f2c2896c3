package plots

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// Sizes of a panel, in points.
const (
	panelHeight = 158 // axes included, without what is written above
	panelGap    = 12
)

// panels is a row of panels.
func panels(curves []answer.Curve, columns int, hues Hues) block {
	width := (inner - panelGap*vg.Length(columns-1)) / vg.Length(columns)
	names := make([][]string, len(curves))
	lines := 0
	for i, c := range curves {
		names[i] = bold.wrap(show(c.Step), width-signWidth, 2)
		lines = max(lines, len(names[i]))
	}
	above := plain.height(lines + 1)
	return block{above + 4 + panelHeight, func(row draw.Canvas) {
		for i, c := range curves {
			part := row
			part.Min.X += (width + panelGap) * vg.Length(i)
			part.Max.X = part.Min.X + width
			letteredSign(hues.of(c.Step))(part, vg.Point{X: part.Min.X + 8, Y: part.Max.Y - bold.height(1)/2})
			bold.lines(part, part.Min.X+signWidth, part.Max.Y, names[i])
			faint.line(part, part.Min.X, part.Max.Y-plain.height(len(names[i])), faint.cut(formula(c), width))
			part.Max.Y -= above + 4
			between(stepChart(c, width-gutter-overhang), part, part.Min.X+gutter, part.Max.X-overhang)
		}
	}}
}

// stepChart is the plot of one step, its axis of counts of a length.
func stepChart(c answer.Curve, length vg.Length) *plot.Plot {
	d := newStepData(c)
	unit, seconds := "seconds", 1.0
	switch {
	case d.top >= 3*3600:
		unit, seconds = "hours", 3600
	case d.top >= 3*60:
		unit, seconds = "minutes", 60
	}
	d.scale = 1 / seconds
	count := "count"
	if c.Per != nil {
		count = faint.cut("count ("+show(*c.Per)+")", length)
	}
	p := chart(count, unit+" of work")
	p.X.Min, p.X.Max = 0, d.right*1.06
	p.Y.Min, p.Y.Max = d.bottom*d.scale, d.top*d.scale
	p.X.Tick.Marker, p.Y.Tick.Marker = across(length, p.X.Max, d.minStep()), even{5, 0}
	p.Add(d)
	return p
}

// formula is a step's model in few words.
func formula(c answer.Curve) string {
	per := "unit"
	if c.Per != nil {
		per = show(*c.Per)
	}
	var parts []string
	if c.Setup.Known {
		parts = append(parts, words.Plain(c.Setup.Value)+" s a setup")
	}
	if c.Unit.Known {
		parts = append(parts, fmt.Sprintf("%s s a %s", words.Plain(c.Unit.Value), per))
	}
	if c.Bracket != nil {
		return fmt.Sprintf("%s or %s s a setup", parts[0], words.Plain(c.Bracket.SetupSec))
	}
	return strings.ReplaceAll(strings.Join(parts, " + "), "+ -", "- ")
}
