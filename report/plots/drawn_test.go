package plots

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"headhours/timing/answer"
	"headhours/timing/folder"
)

// Two studies of this module: the demo, and one worked through in R.
const (
	demo  = "../../cmd/headhours/demo"
	chard = "../../testdata/reference/study_chard"
)

// modelsOf fits a study of this module.
func modelsOf(t *testing.T, dir string) *answer.Models {
	t.Helper()
	opened, err := folder.Open(dir, nil, folder.How{})
	require.NoError(t, err)
	return answer.NewModels(opened.Readings, answer.Options{})
}

// answers are what the figures of a study show.
type answers struct {
	curves     []answer.Curve
	comparison answer.Comparison
	scale      answer.Scale
	costs      answer.Costs
	hues       Hues
}

func answersOf(t *testing.T, m *answer.Models, heads int) (a answers) {
	t.Helper()
	var err error
	a.hues = HuesOf(m.Study)
	a.curves, err = m.Curves(nil)
	require.NoError(t, err)
	a.comparison, err = m.Compare(nil, heads)
	require.NoError(t, err)
	a.scale, err = m.Scale(nil, nil)
	require.NoError(t, err)
	a.costs, err = m.Cost(nil, heads, answer.WhatIf{})
	require.NoError(t, err)
	return a
}

// figures are all figures of a study's answers, by name.
func (a answers) figures() map[string]Figure {
	return map[string]Figure{
		"steps": StepTimes(a.curves, a.hues), "per head": PerHead(a.comparison, a.hues),
		"growth": Growth(a.scale, a.comparison.Pairs), "cost": CostPerHead(a.costs),
	}
}

// written is text of a figure and the room that it takes.
type written struct {
	text string
	size vg.Length
	vg.Rectangle
}

// texts are all texts of a figure, as drawn.
func texts(f Figure) []written {
	var canvas recorder.Canvas
	f.draw(draw.NewCanvas(&canvas, width, f.height()))
	var found []written
	upright := true
	for _, action := range canvas.Actions {
		switch a := action.(type) {
		case *recorder.Rotate:
			upright = false // a quarter to the left: the labels of y
		case *recorder.Pop:
			upright = true
		case *recorder.FillString:
			face := font.DefaultCache.Lookup(a.Font, a.Size)
			long, extents := face.Width(a.String), face.Extents()
			room := vg.Rectangle{
				Min: a.Point.Add(vg.Point{Y: -extents.Descent}), Max: a.Point.Add(vg.Point{X: long, Y: extents.Ascent}),
			}
			if !upright {
				room = vg.Rectangle{
					Min: vg.Point{X: -a.Point.Y - extents.Ascent, Y: a.Point.X},
					Max: vg.Point{X: -a.Point.Y + extents.Descent, Y: a.Point.X + long},
				}
			}
			found = append(found, written{a.String, a.Size, room})
		}
	}
	return found
}

// readable says that all text of a figure is inside it, large enough for a phone
// and not over other text.
func readable(t *testing.T, f Figure) {
	t.Helper()
	all := texts(f)
	const spare = 1.5 // ascent and descent leave a little room
	for i, a := range all {
		assert.GreaterOrEqual(t, float64(a.size)*360/width, 11.0, a.text)
		assert.True(t, a.Min.X >= 0 && a.Max.X <= width, "%q reaches from %v to %v", a.text, a.Min.X, a.Max.X)
		assert.True(t, a.Min.Y >= 0 && a.Max.Y <= f.height(), "%q is above or below", a.text)
		for _, b := range all[:i] {
			over := a.Min.X < b.Max.X-spare && b.Min.X < a.Max.X-spare && a.Min.Y < b.Max.Y-2*spare && b.Min.Y < a.Max.Y-2*spare
			assert.False(t, over, "%q stands over %q", a.text, b.text)
		}
	}
}

// says is all text of a figure in a row.
func says(f Figure) string {
	var b strings.Builder
	for _, w := range texts(f) {
		b.WriteString(w.text + " ")
	}
	return b.String()
}

// svg is a figure as SVG.
func svg(t *testing.T, f Figure) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, f.Write(&b, "svg"))
	return b.String()
}

// filled are the extents of what is filled with a colour, in the order drawn.
func filled(f Figure, hue any) []vg.Rectangle {
	var canvas recorder.Canvas
	f.draw(draw.NewCanvas(&canvas, width, f.height()))
	var found []vg.Rectangle
	var color any
	for _, action := range canvas.Actions {
		switch a := action.(type) {
		case *recorder.SetColor:
			color = a.Color
		case *recorder.Fill:
			if color == hue {
				found = append(found, extent(a.Path))
			}
		}
	}
	return found
}

func extent(p vg.Path) vg.Rectangle {
	r := vg.Rectangle{Min: vg.Point{X: vg.Length(math.Inf(1)), Y: vg.Length(math.Inf(1))}, Max: vg.Point{X: vg.Length(math.Inf(-1)), Y: vg.Length(math.Inf(-1))}}
	for _, c := range p {
		if c.Type == vg.CloseComp {
			continue
		}
		r.Min.X, r.Max.X = min(r.Min.X, c.Pos.X), max(r.Max.X, c.Pos.X)
		r.Min.Y, r.Max.Y = min(r.Min.Y, c.Pos.Y), max(r.Max.Y, c.Pos.Y)
	}
	return r
}
