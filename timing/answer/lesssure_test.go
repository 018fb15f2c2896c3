package answer

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// What the newest day changed is said where the answer is less sure for it, and not else.
func TestLessSure(t *testing.T) {
	day := func(d int) time.Time { return time.Date(2026, time.March, d, 0, 0, 0, 0, time.UTC) }
	reading := func(d int, count, seconds float64) study.Reading {
		r := aReading("pack", count, seconds)
		r.Date = day(d)
		return r
	}
	steady := []study.Reading{reading(1, 20, 200), reading(1, 20, 204), reading(2, 20, 198), reading(2, 20, 201)}
	for name, c := range map[string]struct {
		newest []study.Reading
		want   string
	}{
		"varies more":    {[]study.Reading{reading(3, 20, 280)}, `"way" is less sure than without the newest readings, of 2026-03-03: pack varies more than it seemed to (one new reading)`},
		"another form":   {[]study.Reading{reading(3, 60, 900)}, "pack is now taken as"},
		"nothing to say": {[]study.Reading{reading(3, 20, 200)}, ""},
		"one day alone":  {nil, ""},
	} {
		t.Run(name, func(t *testing.T) {
			readings := append(append([]study.Reading{}, steady...), c.newest...)
			if name == "one day alone" {
				readings = readings[:2]
			}
			notes, err := Fit(oneStep(study.Step{}), readings, Options{}).LessSure(nil, 20)
			require.NoError(t, err)
			if c.want == "" {
				assert.Empty(t, notes)
				return
			}
			require.Len(t, notes, 1)
			assert.Contains(t, notes[0], c.want)
		})
	}
	_, err := Fit(study.Study{}, steady, Options{}).LessSure(nil, 20)
	assert.ErrorContains(t, err, "the study has no [[workflow]]")

	st := oneStep(study.Step{})
	again := st.Workflows[0]
	again.Name = "other way"
	st.Workflows = append(st.Workflows, again)
	notes, err := Fit(st, append(steady, reading(3, 20, 280)), Options{}).LessSure(nil, 20)
	require.NoError(t, err)
	require.Len(t, notes, 1, "one reason is said once")
	assert.Contains(t, notes[0], `"way" and "other way" are less sure than`)
}
