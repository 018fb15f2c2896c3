package plots

import (
	"testing"

	"headhours/report/look"
	"headhours/timing/answer"
	"headhours/timing/stepfit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// drawnOn is a figure with one block in which something is drawn.
func drawnOn(height vg.Length, paint func(c draw.Canvas)) Figure {
	return Figure{blocks: []block{{height, paint}}}
}

// Hatching is lines at an angle of half a right one, from edge to edge of its rectangle.
func TestHatchingStaysInside(t *testing.T) {
	t.Parallel()
	fill := look.StepAt(0).Fill
	var left, bottom, right, top vg.Length
	f := drawnOn(60, func(c draw.Canvas) {
		left, bottom, right, top = c.Min.X+20, c.Min.Y+10, c.Min.X+93, c.Min.Y+31
		hatch(c, left, bottom, right, top, fill)
	})
	lines := stroked(f, look.Onto(fill), 0.9)
	assert.InDelta(t, (73.0+21)/5, float64(len(lines)), 1, "one every five points")
	whole := 0
	for _, l := range lines {
		assert.True(t, l.Min.X >= left-1e-6 && l.Max.X <= right+1e-6 && l.Min.Y >= bottom-1e-6 && l.Max.Y <= top+1e-6, "%v", l)
		assert.InDelta(t, float64(l.Max.X-l.Min.X), float64(l.Max.Y-l.Min.Y), 1e-6)
		onEdge := l.Min.X < left+1e-6 || l.Min.Y < bottom+1e-6
		assert.True(t, onEdge, "a line begins on an edge")
		if l.Max.Y > top-1e-6 && l.Min.Y < bottom+1e-6 {
			whole++
		}
	}
	assert.Positive(t, whole)
}

// A part of a bar bears as much as it has room for.
func TestWordsInBars(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		wide vg.Length
		want []string
	}{{200, []string{"transplant 1.25"}}, {90, []string{"transplant"}}, {30, []string{"c"}}, {10, nil}} {
		f := drawnOn(40, func(c2 draw.Canvas) {
			barPart{name: "transplant", amount: 1.25, fill: look.StepAt(0).Fill, letter: "c"}.label(c2, c2.Min.X, c2.Min.X+c.wide, c2.Max.Y-20)
		})
		var said []string
		for _, w := range texts(f) {
			said = append(said, w.text)
			assert.InDelta(t, margin+float64(c.wide)/2, float64(w.Min.X+w.Max.X)/2, 0.6, "in its middle")
		}
		assert.Equal(t, c.want, said, "%v wide", c.wide)
	}
	unnamed := drawnOn(40, func(c draw.Canvas) { barPart{name: "transplant", amount: 1}.label(c, c.Min.X, c.Min.X+20, c.Max.Y-20) })
	assert.Empty(t, texts(unnamed), "without a letter nothing stands in a narrow part")
}

// Letters of stacked bars are written where bars are wide and high enough.
func TestLettersInStacks(t *testing.T) {
	t.Parallel()
	few := Days(everyWeek(), monday, dayHues)
	letters := map[string]int{}
	for _, w := range texts(few) {
		letters[w.text]++
	}
	assert.Equal(t, []int{2, 2}, []int{letters["b"], letters["c"]}, "in the key and in the bar")
	var many stackedBars
	for i := range 300 {
		many.at = append(many.at, float64(i))
	}
	many.stacks = []stack{{make([]float64, 300), dayHues["sow"]}}
	for i := range many.stacks[0].amounts {
		many.stacks[0].amounts[i] = 1
	}
	f := Figure{blocks: []block{many.asBlock()}}
	assert.NotContains(t, says(f), " a ", "300 bars have no room for a letter")
	assert.Len(t, filled(f, look.StepAt(0).Fill), 300)
	insideOf(t, f)
}

// The names of the two lines of alike counts stand clear of readings and lines.
func TestNamesBesideLines(t *testing.T) {
	t.Parallel()
	c := curveOf("pot")
	c.Bracket = &stepfit.Fit{SetupSec: 60}
	c.Lines[0].Form = "unit"
	c.Lines = append(c.Lines, answer.CurveLine{Form: "setup", Setups: 1, At: []answer.CurveTime{{Count: 0, Seconds: 60}, {Count: 20, Seconds: 60}, {Count: 40, Seconds: 60}}})
	f := StepTimes([]answer.Curve{c}, nil)
	readable(t, f)
	for _, name := range []string{"all unit", "all setup"} {
		w, ok := where(f, name)
		require.True(t, ok, name)
		for _, mark := range stroked(f, ink, 1.3) {
			apart := mark.Max.X < w.Min.X || mark.Min.X > w.Max.X || mark.Max.Y < w.Min.Y || mark.Min.Y > w.Max.Y
			assert.True(t, apart, "%s stands over a reading", name)
		}
	}
	outer := vg.Rectangle{Max: vg.Point{X: 100, Y: 100}}
	assert.True(t, inside(outer, outer))
	for _, inner := range []vg.Rectangle{
		{Min: vg.Point{X: -1}, Max: vg.Point{X: 9, Y: 9}}, {Min: vg.Point{Y: -1}, Max: vg.Point{X: 9, Y: 9}}, {Max: vg.Point{X: 101, Y: 9}}, {Max: vg.Point{X: 9, Y: 101}},
	} {
		assert.False(t, inside(outer, inner))
	}
	spot := vg.Rectangle{Min: vg.Point{X: 10, Y: 10}, Max: vg.Point{X: 30, Y: 20}}
	for _, c := range []struct {
		at   vg.Point
		free bool
	}{{vg.Point{X: 20, Y: 15}, false}, {vg.Point{X: 8, Y: 15}, false}, {vg.Point{X: 32, Y: 15}, false}, {vg.Point{X: 5, Y: 15}, true}, {vg.Point{X: 35, Y: 15}, true}, {vg.Point{X: 20, Y: 9}, true}, {vg.Point{X: 20, Y: 21}, true}} {
		assert.Equal(t, c.free, free(spot, []vg.Point{c.at}), "%v", c.at)
	}
}

// The title is on top, then the key, then what is drawn, then what is to be said of it.
func TestOrderOfFigures(t *testing.T) {
	t.Parallel()
	for name, f := range everyFigure(someNames(2)) {
		all := texts(f)
		top := all[0]
		for _, w := range all[1:] {
			assert.LessOrEqual(t, float64(w.Min.Y), float64(top.Max.Y), "%s: %q stands above its title", name, w.text)
		}
		assert.GreaterOrEqual(t, float64(top.size), 13.0)
	}
	for kind, title := range map[string]string{
		"seeding": "Seeds a cell, and seeds that come up", "season": "The whole place, week by week", "swing": "What moves the cost of a head", "steps": "Time of each reading, and the time fitted",
		"growth": "Minutes a head against heads, for one grow", "checked": "How long each grow took, as factors of what was expected",
	} {
		_, ok := where(everyFigure(someNames(2))[kind], title)
		assert.True(t, ok, title)
	}
	f := CostPerHead(costsOf("tray"))
	title, _ := where(f, "Cost of a head, in a grow of 48")
	sign, _ := where(f, "labour")
	axis, _ := where(f, "EUR a head")
	note, _ := where(f, "Below a bar: the interval of its total.")
	assert.Greater(t, float64(title.Min.Y), float64(sign.Max.Y)-3)
	assert.Greater(t, float64(sign.Min.Y), float64(axis.Max.Y))
	assert.Greater(t, float64(axis.Min.Y), float64(note.Max.Y)-3)
}

// Letters as outlines are as wide as the face says, so that PNG and PDF are as SVG is.
func TestOutlinesAreAsWide(t *testing.T) {
	t.Parallel()
	for _, text := range []string{"sow", "Transplant", "iiii", "WWWW", "AV", "栽培", ""} {
		var canvas recorder.Canvas
		outlined{&canvas}.FillString(plain.face(), vg.Point{X: 50, Y: 20}, text)
		left, right := vg.Length(1e9), vg.Length(-1e9)
		for _, action := range canvas.Actions {
			switch a := action.(type) {
			case *recorder.Fill:
				r := extent(a.Path)
				left, right = min(left, r.Min.X), max(right, r.Max.X)
			case *recorder.Stroke:
				r := extent(a.Path)
				left, right = min(left, r.Min.X), max(right, r.Max.X)
			}
		}
		if text == "" {
			assert.Greater(t, float64(left), float64(right), "nothing is drawn")
			continue
		}
		assert.InDelta(t, 50, float64(left), 3, text)
		assert.InDelta(t, 50+float64(plain.width(text)), float64(right), 3, text)
	}
}
