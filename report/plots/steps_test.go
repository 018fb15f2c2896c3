package plots

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// markStroke is what the outline of a mark alone is drawn with.
const markStroke = "stroke-width:1.3"

// Every reading that counts is drawn once, and those that stand out are ringed.
func TestStepsDrawsEveryReading(t *testing.T) {
	curves := answersOf(t, modelsOf(t, demo), 48).curves
	readings, out, met := 0, 0, map[string]bool{}
	single := 0
	for _, c := range curves {
		if Single(c) {
			single++
			continue
		}
		readings += c.Readings
		out += len(c.StandsOut)
		for _, p := range c.Points {
			met[kindOf(p.Setups).name] = true
		}
	}
	require.Equal(t, 3, single)
	require.Greater(t, readings, 70)
	require.Equal(t, 1, out)
	require.Len(t, met, 3)
	f := StepTimes(curves, nil)
	text := svg(t, f)
	assert.Equal(t, readings+len(met), strings.Count(text, markStroke), "and one of each kind in the key")
	assert.Equal(t, out+1, strings.Count(text, "stroke-width:1.8"), "and one in the key")
	for _, want := range []string{
		">count (seed)<", ">minutes of work<", ">seconds of work<", ">95 % interval of the mean<",
		">a lap, no setup<", ">several setups<", ">stands out<",
	} {
		assert.Contains(t, text, want)
	}
	for _, c := range curves {
		if c.Readings > 0 && !Single(c) {
			assert.Contains(t, text, ">"+formula(c)+"<")
		}
	}
	said := says(f)
	assert.Contains(t, said, "Timed one at a time, so not drawn: wash and sanitise (")
	assert.Contains(t, said, "Judged, not timed: carry trays to the pond (190 s a setup).")
	assert.Contains(t, said, "Neither timed nor judged: weigh and label.")
	assert.NotContains(t, text, ">weigh and label<", "it has no panel")
}

// What alike counts leave open is drawn as the two lines that it lies between.
func TestStepsDrawsBracket(t *testing.T) {
	m := answer.Fit(study.Study{Confidence: 0.95, Steps: []study.Step{{Name: "pot up"}}}, []study.Reading{
		{Step: "pot up", Count: 10, Seconds: 50, People: 1, Rating: 100},
		{Step: "pot up", Count: 12, Seconds: 66, People: 1, Rating: 100},
	}, answer.Options{})
	curves, err := m.Curves(nil)
	require.NoError(t, err)
	f := StepTimes(curves, nil)
	text := svg(t, f)
	assert.Equal(t, 2+1, strings.Count(text, "stroke-width:1.2;")+strings.Count(text, `stroke-width:1.2"`), "and one in the key")
	assert.Contains(t, text, ">all unit<")
	assert.Contains(t, text, ">all setup<")
	assert.Len(t, filled(f, bandFill), 2+1)
	assert.Contains(t, f.Alt(), "pot up: 2 readings at counts from 10 to 12; 5.3 s a unit or 58 s a setup.")
	readable(t, f)
}

func TestStepsWithoutSpread(t *testing.T) {
	m := answer.Fit(study.Study{Confidence: 0.95, Steps: []study.Step{{Name: "sow"}}}, []study.Reading{
		{Step: "sow", Count: 10, Seconds: 4 * 3600, People: 1, Rating: 100},
	}, answer.Options{Scatter: answer.OwnScatter})
	curves, err := m.Curves(nil)
	require.NoError(t, err)
	f := StepTimes(curves, nil)
	assert.Empty(t, filled(f, bandFill), "no interval, so no band")
	assert.Contains(t, says(f), "No interval, because how much it varies is not known yet: sow.")
	assert.Contains(t, says(f), "hours of work")
	assert.Contains(t, f.Alt(), "sow: 1 reading at a count of 10")
}

func TestFormula(t *testing.T) {
	per := "head"
	for want, fit := range map[string]answer.StepFit{
		"129 s a setup + 24 s a head":  {Setup: known(129.4), Unit: known(24), Per: &per},
		"129 s a setup - 1.5 s a unit": {Setup: known(129), Unit: known(-1.52)},
		"0.88 s a unit":                {Unit: known(0.876)},
		"15000000 s a setup":           {Setup: known(1.5e7)},
		"45 s a head or 283 s a setup": {Unit: known(45), Per: &per, Bracket: &stepfit.Fit{SetupSec: 283}},
	} {
		assert.Equal(t, want, formula(answer.Curve{StepFit: fit}))
	}
}

func TestMoreStepsThanPanels(t *testing.T) {
	curves := answersOf(t, invented(maxPanels+3, 1, nil), 20).curves
	assert.Contains(t, says(StepTimes(curves, nil)), "3 more steps, timed too, are not drawn.")
}

// A spread that other steps lend is told apart from the grower's own guess.
func TestStepsSayWhoseSpread(t *testing.T) {
	form, band := "unit", []answer.CurveLine{{At: []answer.CurveTime{{Low: known(1), High: known(2)}}}}
	curve := func(step string, df study.Maybe) answer.Curve {
		return answer.Curve{
			StepFit: answer.StepFit{Step: step, Form: &form, Borrowed: true, DF: df},
			Points:  make([]answer.CurvePoint, 1), Lines: band,
		}
	}
	said := stepsWords([]answer.Curve{curve("sow", known(7)), curve("thin", study.Maybe{})}, 0)
	assert.Equal(t, []string{
		"Timed too seldom to show how much it varies, so it is taken to vary as other steps and handwork do: sow.",
		"Timed too seldom for an interval of its own, so the grower's own guess of the spread is used: thin.",
	}, said[:2])
}

// Of very many readings some are drawn, which the figure says, and its words tell of all.
func TestStepsOfVeryMany(t *testing.T) {
	readings := make([]study.Reading, 5000)
	for i := range readings {
		readings[i] = study.Reading{Step: "pot up", Count: float64(10 + i%7), Seconds: float64(100 + 5*(i%7) + i*3%11), People: 1, Rating: 100}
	}
	curves, err := answer.Fit(study.Study{Steps: []study.Step{{Name: "pot up"}}}, readings, answer.Options{}).Curves(nil)
	require.NoError(t, err)
	f := StepTimes(curves, nil)
	assert.Contains(t, says(f), "Of so many readings only some are drawn, and all that stand out: pot up.")
	assert.Contains(t, f.Alt(), "pot up: 5000 readings at counts from 10 to 16")
}
