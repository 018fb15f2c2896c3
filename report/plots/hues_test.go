package plots

import (
	"image/color"
	"math"
	"testing"
	"time"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A step has one colour in every figure, whichever ways the figure is for, and no two
// steps of those that tell ways apart share one.
func TestOneColourAStep(t *testing.T) {
	m := modelsOf(t, demo)
	hues := HuesOf(m.Study)
	seen := map[any]string{}
	for i, step := range m.Study.StepsToTellApart() {
		fill := hues.of(step).fill
		if i >= 12 { // which is how many colours there are
			assert.Equal(t, restFill, fill)
			continue
		}
		assert.Empty(t, seen[fill], step)
		seen[fill] = step
	}
	for name, letters := range map[string]func(stepHue) bool{
		"letter": func(h stepHue) bool { return len(h.letter) == 1 },
		"name":   func(h stepHue) bool { return h.name != "" },
	} {
		for _, step := range m.Study.StepNames() {
			assert.True(t, letters(hues.of(step)), "%s of %s", name, step)
		}
	}
	c, err := m.Compare(nil, 48)
	require.NoError(t, err)
	in, err := m.Improve("tray, one seed", 48, nil)
	require.NoError(t, err)
	weekly := 7
	week, err := m.Calendar(answer.Schedule{Workflow: "tray, one seed", Heads: 48, Every: &weekly})
	require.NoError(t, err)
	fill := hues.of("transplant").fill
	for name, f := range map[string]Figure{
		"why": Why(c, hues), "per head": PerHead(c, hues), "shares": Shares(in, hues), "week": Days(week, time.Time{}, hues),
	} {
		assert.NotEmpty(t, filled(f, fill), name)
	}
	for _, r := range whyGroups(c, hues)[1].rows {
		if r.name == "transplant" {
			assert.Equal(t, fill, r.fill)
		}
	}
}

// Hatching stays within its rectangle.
func TestHatch(t *testing.T) {
	in := answer.Improvement{Heads: 20, Steps: []answer.StepShare{
		{Step: "harvest", Hours: known(1), SetupHours: known(0.25), UnitHours: known(0.75), Share: known(1)},
	}}
	plain, hatched := svg(t, Shares(in, nil)), Shares(in, nil)
	in.Steps[0].SetupHours, in.Steps[0].UnitHours = known(0), known(1)
	assert.Greater(t, len(plain), len(svg(t, Shares(in, nil))), "what is set-up is hatched")
	readable(t, hatched)
}

// WCAG 2.2, 1.4.11: what tells things apart stands out from what is behind it, on white
// and on the shade of what was timed; fills by the line around them.
func TestInksAreSeen(t *testing.T) {
	white := color.NRGBA{0xff, 0xff, 0xff, 0xff}
	inks := append([]color.NRGBA{ink, greyInk, evenFill}, workflowInks[:2]...)
	for i, c := range inks {
		assert.GreaterOrEqual(t, contrast(c, white), 3.0, i)
	}
	for i, c := range append([]color.NRGBA{ink, greyInk}, workflowInks[:2]...) {
		assert.GreaterOrEqual(t, contrast(c, timedFill), 3.0, i)
	}
	assert.Equal(t, greyInk, outlineStyle.Color)
	assert.GreaterOrEqual(t, contrast(greyInk, white), 4.5, "words in the second row")
	assert.GreaterOrEqual(t, contrast(ink, timedFill), 4.5)
}

// contrast is the ratio of WCAG 2.2 between two colours.
func contrast(a, b color.NRGBA) float64 {
	light := func(c color.NRGBA) (sum float64) {
		for i, part := range []uint8{c.R, c.G, c.B} {
			x := float64(part) / 255
			if x <= 0.04045 {
				x /= 12.92
			} else {
				x = math.Pow((x+0.055)/1.055, 2.4)
			}
			sum += []float64{0.2126, 0.7152, 0.0722}[i] * x
		}
		return sum
	}
	return (max(light(a), light(b)) + 0.05) / (min(light(a), light(b)) + 0.05)
}
