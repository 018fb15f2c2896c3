package answer

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// curveOf is the curve of the only step that readings are of.
func curveOf(t *testing.T, st study.Study, readings []study.Reading, o Options) Curve {
	t.Helper()
	curves, err := Fit(st, readings, o).Curves(nil)
	require.NoError(t, err)
	require.Len(t, curves, 1)
	return curves[0]
}

// between is a line's limits at a count, straight between the counts that it was
// worked out at.
func (l CurveLine) between(count float64) (low, high float64) {
	for i, b := range l.At[1:] {
		if a := l.At[i]; a.Count <= count && count <= b.Count {
			share := (count - a.Count) / (b.Count - a.Count)
			return a.Low.Value + share*(b.Low.Value-a.Low.Value), a.High.Value + share*(b.High.Value-a.High.Value)
		}
	}
	return 0, 0
}

// Work hours of lots of refrigerator parts, with the limits of the mean that are
// printed in Kutner, Nachtsheim, Neter and Li, Applied Linear Statistical
// Models, 5th ed., section 2.4.
func TestCurveHoldsPublishedBand(t *testing.T) {
	readings := plainLog(t, "data/toluca.csv")
	constant := 0
	c := curveOf(t, studyOf(readings), readings, Options{Confidence: 0.90, Spread: &constant})
	assert.Len(t, c.Points, 25)
	require.Len(t, c.Lines, 1)
	for _, printed := range []struct{ count, low, high float64 }{{65, 277.4, 311.4}, {100, 394.9, 443.9}} {
		low, high := c.Lines[0].between(printed.count)
		assert.InDelta(t, printed.low, low, 0.2, "at %v", printed.count)
		assert.InDelta(t, printed.high, high, 0.2, "at %v", printed.count)
	}
	first, last := c.Lines[0].At[0], c.Lines[0].At[curveCounts-1]
	assert.Equal(t, []float64{0, 120}, []float64{first.Count, last.Count})
	assert.Equal(t, c.Setup.Value, first.Seconds)
	assert.Equal(t, []study.Maybe{c.SetupLow, c.SetupHigh}, []study.Maybe{first.Low, first.High})
}

func TestCurveLines(t *testing.T) {
	type line struct {
		form       stepfit.Form
		setups     float64
		from, to   float64
		start, end float64 // seconds
		band       bool
	}
	reading := func(setups, count, seconds float64) study.Reading {
		r := aReading("pot up", count, seconds)
		r.Setups = study.Known(setups)
		return r
	}
	cases := map[string]struct {
		readings []study.Reading
		want     []line
	}{
		"one reading: a line each for all unit and all setup, no band": {
			[]study.Reading{reading(1, 10, 50)},
			[]line{{stepfit.Unit, 1, 0, 10, 0, 50, false}, {stepfit.Setup, 1, 0, 10, 50, 50, false}},
		},
		"alike counts": {
			[]study.Reading{reading(1, 10, 50), reading(1, 10, 60)},
			[]line{{stepfit.Unit, 1, 0, 10, 0, 55, true}, {stepfit.Setup, 1, 0, 10, 55, 55, true}},
		},
		"alike counts, several setups: all setup is a stair": {
			[]study.Reading{reading(1, 10, 50), reading(1, 12, 60), reading(2, 20, 100)},
			[]line{
				{stepfit.Unit, 1, 0, 20, 0, 100, true},
				{stepfit.Setup, 1, 0, 12, 310. / 6, 310. / 6, true},
				{stepfit.Setup, 2, 15, 20, 310. / 3, 310. / 3, true},
			},
		},
		"a visit and its laps lie on lines of their own": {
			[]study.Reading{reading(1, 10, 70), reading(0, 20, 40), reading(0, 40, 80), reading(2, 80, 260)},
			[]line{
				{stepfit.SetupUnit, 0, 0, 40, 0, 80, true},
				{stepfit.SetupUnit, 1, 0, 10, 50, 70, true},
				{stepfit.SetupUnit, 2, 60, 80, 220, 260, true},
			},
		},
		"laps alone": {
			[]study.Reading{reading(0, 10, 20), reading(0, 20, 40)},
			[]line{{stepfit.Unit, 1, 0, 20, 0, 40, true}},
		},
		"getting ready alone": {
			[]study.Reading{reading(1, 0, 30), reading(1, 0, 40)},
			[]line{{stepfit.Setup, 1, 0, 1, 35, 35, true}},
		},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			curve := curveOf(t, studyOf(c.readings), c.readings, Options{Scatter: OwnScatter})
			assert.Len(t, curve.Points, len(c.readings))
			require.Len(t, curve.Lines, len(c.want))
			for i, want := range c.want {
				got := curve.Lines[i]
				first, last := got.At[0], got.At[len(got.At)-1]
				assert.Equal(t, want.form, got.Form)
				assert.Equal(t, want.setups, got.Setups)
				assert.InDeltaSlice(t, []float64{want.from, want.to, want.start, want.end},
					[]float64{first.Count, last.Count, first.Seconds, last.Seconds}, 1e-9)
				assert.Equal(t, want.band, last.Low.Known && last.High.Known)
			}
		})
	}
}

func TestCurvePoints(t *testing.T) {
	readings := plainLog(t, "data/stray_reading.csv")
	readings[0].Void = "a visitor came"
	judged := study.Step{Name: "carry", Estimate: &study.Estimate{Low: 1, Likely: 2, High: 3, OfVisit: true}}
	st := studyOf(readings)
	st.Steps = append(st.Steps, judged, study.Step{Name: "weigh"})
	st.Workflows = []study.Workflow{{Name: "quick", Tasks: []study.Task{{Step: "carry", Days: []int{1}}}}}
	models := Fit(st, readings, Options{})

	curves, err := models.Curves(nil)
	require.NoError(t, err)
	require.Len(t, curves, 3)
	var found []StandOut
	for _, p := range curves[0].Points {
		if p.StandsOut {
			found = append(found, StandOut{File: p.From.File, Line: p.Line, Count: p.Count, Seconds: p.Seconds})
		}
	}
	require.Len(t, found, 1)
	assert.Equal(t, curves[0].StandsOut[0].Seconds, found[0].Seconds)
	assert.Equal(t, curves[0].StandsOut[0].Count, found[0].Count)
	assert.Len(t, curves[0].Points, len(readings)-1, "the voided one is left out")
	for _, c := range curves[1:] {
		assert.Empty(t, c.Points, c.Step)
		assert.Empty(t, c.Lines, c.Step)
	}

	curves, err = models.Curves([]string{"quick"})
	require.NoError(t, err)
	require.Len(t, curves, 1)
	assert.Equal(t, "carry", curves[0].Step)
	_, err = models.Curves([]string{"slow"})
	assert.ErrorAs(t, err, new(study.UnknownName))
}

// studyOf is a study for readings that have none: its steps in the order in
// which they first appear.
func studyOf(readings []study.Reading) study.Study {
	st := study.Study{Confidence: study.DefaultConfidence}
	seen := map[string]bool{}
	for _, r := range readings {
		if !seen[r.Step] {
			seen[r.Step] = true
			st.Steps = append(st.Steps, study.Step{Name: r.Step})
		}
	}
	return st
}
