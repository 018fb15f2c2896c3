package plots

import (
	"strings"
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"
)

func TestWrap(t *testing.T) {
	cases := map[string]struct {
		text  string
		width vg.Length
		most  int
		want  []string
	}{
		"short":              {"sow", 100, 2, []string{"sow"}},
		"nothing":            {"", 100, 2, []string{""}},
		"blanks":             {"  sow  the\nseed ", 100, 2, []string{"sow the seed"}},
		"two lines":          {"wash trays and rafts", 80, 2, []string{"wash trays", "and rafts"}},
		"cut":                {"wash trays and rafts and pots", 80, 2, []string{"wash", "trays…d pots"}},
		"a word too long":    {"Blumentopferde", 60, 3, []string{"Blumento", "pferde"}},
		"a word far too":     {"Blumentopferdensack", 60, 2, []string{"Blumento", "p…nsack"}},
		"narrower than one":  {"WWW", 1, 2, []string{"W", ellipsis}},
		"a letter a line":    {"WW", 1, 2, []string{"W", "W"}},
		"letters of 3 bytes": {"栽培栽培栽培栽培", 40, 2, nil},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			got := plain.wrap(c.text, c.width, c.most)
			if c.want != nil {
				assert.Equal(t, c.want, got)
			}
			assert.LessOrEqual(t, len(got), c.most)
			for _, line := range got {
				assert.True(t, plain.width(line) <= max(c.width, plain.width(ellipsis)), line)
			}
		})
	}
}

// Letters that the typeface lacks take their room, and are drawn as boxes.
func TestMissingLetters(t *testing.T) {
	assert.InDelta(t, 39, float64(plain.width("栽培栽")), 1e-9)
	assert.InDelta(t, float64(plain.width("ab"))+13, float64(plain.width("a栽b")), 0.5)
	var canvas recorder.Canvas
	outlined{&canvas}.FillString(plain.face(), vg.Point{}, "é栽č")
	var fills, strokes int
	for _, action := range canvas.Actions {
		switch action.(type) {
		case *recorder.Fill:
			fills++
		case *recorder.Stroke:
			strokes++
		}
	}
	assert.Equal(t, []int{2, 1}, []int{fills, strokes})
}

func TestCut(t *testing.T) {
	assert.Equal(t, "count (head)", plain.cut("count (head)", 100))
	assert.Equal(t, "cou…d)", plain.cut("count (head)", 50))
	assert.Equal(t, ellipsis, plain.cut("count", 1))
}

// Names that differ at their ends alone stay apart where they are cut.
func TestCutNamesStayApart(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "Prick out seed…, tray B", plain.cut("Prick out seedlings, tray B", 142))
	a, b := strings.Repeat("prick out ", 20)+"tray A", strings.Repeat("prick out ", 20)+"tray B"
	assert.NotEqual(t, show(a), show(b))
	assert.NotEqual(t, plain.wrap(a, 100, 3), plain.wrap(b, 100, 3))
	for name, f := range map[string]Figure{
		"steps": StepTimes([]answer.Curve{curveOf(a), curveOf(b)}, nil), "why": Why(waysOf(a, b), nil), "growth": Growth(scaleOf(a, b), nil),
		"shares": Shares(improvementOf(a, b), nil), "swing": Swing(inputsOf(a, b)), "checked": GrowFactors(factorsOf(a, b)), "per head": PerHead(waysOf(a, b), nil),
	} {
		said := says(f)
		assert.Regexp(t, `[y…] ?A\b`, said, name)
		assert.Regexp(t, `[y…] ?B\b`, said, name)
	}
}

func TestShow(t *testing.T) {
	assert.Equal(t, "Ána čaj 栽", show("Ána čaj 栽"))
	assert.Equal(t, "a\ufffdb\ufffd\ufffdc", show("a\x1bb\n\u202ec"))
	assert.Equal(t, maxName+1, len([]rune(show(strings.Repeat("x", 1e6)))))
	assert.Equal(t, "a, b and c", list([]string{"a", "b", "c"}))
	assert.Contains(t, list(make([]string, 50)), " and 30 more")
}
