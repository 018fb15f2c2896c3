package plots

import (
	"image/color"
	"testing"
	"time"

	"headhours/report/look"
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
		if i >= len(look.Fills) {
			assert.Equal(t, restFill, fill)
			continue
		}
		assert.Empty(t, seen[fill], step)
		seen[fill] = step
	}
	for name, letters := range map[string]func(hue) bool{
		"letter": func(h hue) bool { return len(h.letter) == 1 },
		"name":   func(h hue) bool { return h.name != "" },
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
		assert.GreaterOrEqual(t, look.Contrast(c, white), 3.0, i)
	}
	for i, c := range append([]color.NRGBA{ink, greyInk}, workflowInks[:2]...) {
		assert.GreaterOrEqual(t, look.Contrast(c, timedFill), 3.0, i)
	}
	assert.Equal(t, greyInk, outlineStyle.Color)
	assert.GreaterOrEqual(t, look.Contrast(greyInk, white), 4.5, "words in the second row")
	assert.GreaterOrEqual(t, look.Contrast(ink, timedFill), 4.5)
}
