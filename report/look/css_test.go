package look

import (
	"image/color"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each colour of a scheme has the name that pages know it by, and no other's.
func TestNamesOfColours(t *testing.T) {
	t.Parallel()
	at := func(n int) color.NRGBA { return rgb(uint32(n) * 0x010203) }
	s := Scheme{
		Ground: at(1), Card: at(2), Ink: at(3), Soft: at(4), Edge: at(5), Rule: at(6), Leaf: at(7), OnLeaf: at(8), Straw: at(9), OnStraw: at(10), AroundStraw: at(11),
		Bad: at(12), Chart: at(13), Shade: at(14),
	}
	for i, name := range []string{"--ground", "--card", "--ink", "--soft", "--edge", "--rule", "--leaf", "--on-leaf", "--straw", "--on-straw", "--around-straw", "--bad", "--chart", "--shade"} {
		assert.Contains(t, s.properties(), property{name, css(at(i + 1))})
	}
	assert.Equal(t, "  --ground: #010203;\n", s.declarations("  ")[:21])
}

func TestColoursAsCSSWritesThem(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "#0a141e", css(color.NRGBA{10, 20, 30, 0xff}))
	assert.Equal(t, "#0a141e99", css(color.NRGBA{10, 20, 30, 0x99}))
	assert.Equal(t, "#00000000", css(color.NRGBA{}))
	assert.Equal(t, color.NRGBA{0x12, 0x34, 0x56, 0xff}, rgb(0x123456))
	assert.Equal(t, "#374b3f", Hex(deepGreen))
	assert.Equal(t, "#00000099", css(dark.Shade), "what waits is half to be seen")
}

// The style sheet gives each scheme's colours to the screen by day, the screen by night and
// paper, each in its own block, and none of what follows has a colour of its own.
func TestStyleSheet(t *testing.T) {
	t.Parallel()
	sheet := CSS()
	require.True(t, strings.HasPrefix(sheet, ":root {\n  color-scheme: light dark;\n  --ground: #f3f5f1;\n"))
	night := regexp.MustCompile(`(?s)@media \(prefers-color-scheme: dark\) \{\n  :root \{\n    (--ground.*?);\n  \}\n\}\n`).FindStringSubmatch(sheet)
	require.Len(t, night, 2)
	print := regexp.MustCompile(`(?s)@media print \{\n  :root \{\n    color-scheme: light;\n    (--ground.*?);\n  \}\n\}\n`).FindStringSubmatch(sheet)
	require.Len(t, print, 2)
	for _, p := range dark.properties() {
		assert.Contains(t, night[1]+";", p.name+": "+p.value+";")
	}
	for _, p := range paper.properties() {
		assert.Contains(t, print[1]+";", p.name+": "+p.value+";")
	}
	assert.Equal(t, strings.Count(sheet, "{"), strings.Count(sheet, "}"))
	assert.True(t, strings.HasSuffix(sheet, basics))
	named := regexp.MustCompile(`var\((--[a-z-]+)\)`).FindAllStringSubmatch(basics, -1)
	for _, use := range named {
		assert.Contains(t, sheet, " "+use[1]+": ", "which no rule gives a value")
	}
}

// Steps have the colours in order, a letter each as far as the alphabet goes, and beyond the
// colours a grey that none of them is.
func TestLookOfSteps(t *testing.T) {
	t.Parallel()
	seen := map[StepLook]bool{}
	for i := range 26 {
		s := StepAt(i)
		assert.False(t, seen[s], "step %d looks as another does", i)
		seen[s] = true
		assert.Equal(t, string(rune('a'+i)), s.Letter)
		if i < len(fills) {
			assert.Equal(t, fills[i], s.Fill)
		} else {
			assert.Equal(t, RestFill, s.Fill)
		}
	}
	assert.Equal(t, StepLook{Fill: RestFill}, StepAt(26))
	assert.NotContains(t, fills, RestFill)
	assert.NotContains(t, fills, SameFill)
	for i, a := range Greys {
		assert.NotContains(t, Greys[:i], a)
		assert.LessOrEqual(t, max(a.R, a.G, a.B)-min(a.R, a.G, a.B), uint8(10), "a grey has hardly a hue")
	}
}

// Relative luminance and contrast as WCAG 2.2 prints them: (L1 + 0.05) / (L2 + 0.05), with
// L = 0.2126 R + 0.7152 G + 0.0722 B of linear light. Pure red, green and blue have these
// weights themselves.
func TestContrastByItsFormula(t *testing.T) {
	t.Parallel()
	for want, c := range map[float64]color.NRGBA{0.2126: rgb(0xff0000), 0.7152: rgb(0x00ff00), 0.0722: rgb(0x0000ff)} {
		assert.InDelta(t, want, luminance(c), 1e-12)
		assert.InDelta(t, 1.05/(want+0.05), contrast(c, white), 1e-9)
		assert.InDelta(t, (want+0.05)/0.05, contrast(black, c), 1e-9, "either way round")
		assert.InDelta(t, contrast(c, white), contrast(white, c), 0)
	}
	assert.InDelta(t, 10.0/255/12.92, linear(10), 1e-15, "0.039 is on the straight part")
	assert.InDelta(t, 0.003346535763899161, linear(11), 1e-12, "0.043 is on the curve: ((0.0431 + 0.055) / 1.055) ^ 2.4")
	assert.Equal(t, white, Onto(black))
	assert.Equal(t, black, Onto(white))
	assert.Equal(t, white, Onto(deepGreen))
	assert.Equal(t, black, Onto(straw))
}

// Soft words are fainter than those of the first row, and a rule fainter than an edge.
func TestFirstThingsFirst(t *testing.T) {
	t.Parallel()
	for name, s := range schemes {
		assert.Greater(t, contrast(s.Ink, s.Ground), contrast(s.Soft, s.Ground), name)
		assert.Greater(t, contrast(s.Edge, s.Ground), contrast(s.Rule, s.Ground), name)
		assert.Greater(t, contrast(s.Rule, s.Card), 1.15, "%s: to be seen all the same", name)
		assert.Equal(t, white, s.Chart, "figures have the inks of light")
	}
	assert.Less(t, luminance(dark.Ground), 0.02)
	assert.Greater(t, luminance(Light.Ground), 0.85)
	assert.Equal(t, white, paper.Ground)
}
