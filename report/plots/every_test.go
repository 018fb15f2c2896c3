package plots

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// Each kind of figure, of none, one, two and four things and of names that are awkward: its
// words are inside it and over no others, and all that is drawn is inside too.
func TestEveryFigureIsWhole(t *testing.T) {
	t.Parallel()
	for what, names := range map[string][]string{"none": nil, "one": someNames(1), "two": someNames(2), "four": someNames(4), "awkward": awkward} {
		for name, f := range everyFigure(names) {
			t.Run(name+" of "+what, func(t *testing.T) {
				readable(t, f)
				insideOf(t, f)
				words := says(f) + f.Alt()
				assert.NotRegexp(t, `NaN|Inf|%!|<nil>|null`, words)
				assert.NotRegexp(t, `\b1 (heads|steps|ways|readings|grows|weeks|days|pairs|hours|cells)\b`, words)
				assert.NotContains(t, f.Alt(), "  ")
				assert.NotEmpty(t, f.Alt())
				assert.True(t, utf8.ValidString(f.Alt()))
				assert.NotRegexp(t, `[\x00-\x1f\x{202a}-\x{202e}]`, words)
			})
		}
	}
}

// insideOf says that everything filled and stroked is inside the figure.
func insideOf(t *testing.T, f Figure) {
	t.Helper()
	var canvas recorder.Canvas
	f.draw(draw.NewCanvas(&canvas, width, f.height()))
	var turned bool
	check := func(p vg.Path) {
		if turned || len(p) == 0 {
			return
		}
		r := extent(p)
		inside := r.Min.X >= -0.01 && r.Max.X <= width+0.01 && r.Min.Y >= -0.01 && r.Max.Y <= f.height()+0.01
		assert.True(t, inside, "drawn from %v to %v, in %v", r.Min, r.Max, f.height())
	}
	for _, action := range canvas.Actions {
		switch a := action.(type) {
		case *recorder.Rotate:
			turned = true
		case *recorder.Pop:
			turned = false
		case *recorder.Fill:
			check(a.Path)
		case *recorder.Stroke:
			check(a.Path)
		}
	}
}

// What is written as SVG is XML of a few harmless elements, as large as the figure, with
// every number one that XML readers take.
func TestEveryFigureIsSVG(t *testing.T) {
	t.Parallel()
	numbers := regexp.MustCompile(`-?[0-9.]+(?:e[-+]?[0-9]+)?`)
	for name, f := range everyFigure(awkward) {
		t.Run(name, func(t *testing.T) {
			decoder := xml.NewDecoder(strings.NewReader(svg(t, f)))
			var seen []string
			for {
				token, err := decoder.Token()
				if err == io.EOF {
					break
				}
				require.NoError(t, err)
				start, ok := token.(xml.StartElement)
				if !ok {
					continue
				}
				seen = append(seen, start.Name.Local)
				for _, a := range start.Attr {
					assert.NotRegexp(t, `^on|href`, a.Name.Local)
					if start.Name.Local == "svg" && a.Name.Local == "viewBox" {
						box := strings.Fields(a.Value)
						wide, err := strconv.ParseFloat(box[2], 64)
						require.NoError(t, err)
						assert.InDelta(t, width, wide, 0.01)
					}
					if a.Name.Local == "d" {
						for _, n := range numbers.FindAllString(a.Value, -1) {
							x, err := strconv.ParseFloat(n, 64)
							assert.NoError(t, err)
							assert.False(t, math.IsNaN(x) || math.IsInf(x, 0))
						}
					}
				}
			}
			assert.Equal(t, "svg", seen[0])
			assert.Subset(t, []string{"svg", "g", "path", "text"}, seen)
		})
	}
}

// A figure above another: both are drawn, both are told, and what they lack alike is said once.
func TestFiguresAboveEachOther(t *testing.T) {
	t.Parallel()
	one, two := PerHead(waysOf("tray"), nil), CostPerHead(costsOf("tray"))
	one.lacks, two.lacks = []string{"weigh lacks."}, []string{"weigh lacks."}
	both := one.above(two)
	assert.Equal(t, one.Alt()+" "+two.Alt(), both.Alt())
	assert.Equal(t, 1, strings.Count(says(both), "weigh lacks."))
	assert.Contains(t, says(both), "Minutes a head")
	assert.Contains(t, says(both), "Cost of a head")
	upper, _ := where(both, "Minutes a head, in a grow of 48")
	lower, _ := where(both, "Cost of a head, in a grow of 48")
	assert.Greater(t, float64(upper.Min.Y), float64(lower.Max.Y))
	assert.NotContains(t, says(both.OnPage()), "weigh lacks.")
	assert.Contains(t, says(both), "weigh lacks.", "the figure itself is left as it is")
	assert.Less(t, float64(both.OnPage().height()), float64(both.height()))
	assert.Equal(t, two.Alt(), Figure{}.above(two).Alt())
	assert.Equal(t, one.Alt(), one.above(Figure{}).Alt())
	assert.InDelta(t, float64(2*margin), float64(Figure{}.height()), 1e-9)
	two.lacks = []string{"pack lacks."}
	assert.Contains(t, says(one.above(two)), "weigh lacks. pack lacks.")
}
