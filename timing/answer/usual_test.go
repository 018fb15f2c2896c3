package answer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// The prediction interval of the reference, R's predict(…, interval =
// "prediction"); Kutner et al., section 2.5, print 332.2 and 506.6.
func TestUsualIsThePredictionOfOneReading(t *testing.T) {
	ran := 0
	for _, c := range inferenceCases(t) {
		if c.Kind != "prediction" || len(c.Doings) > 0 {
			continue
		}
		ran++
		t.Run(c.ID, func(t *testing.T) {
			m := c.models(t)
			load := c.C[""]
			u, ok := m.Usual(m.Steps[0].Step.Name, load)
			require.True(t, ok)
			assert.InEpsilon(t, c.Expected["estimate"], u.Seconds, 1e-9)
			assert.InEpsilon(t, c.Expected["low"], u.Low.Value, 1e-9)
			assert.InEpsilon(t, c.Expected["high"], u.High.Value, 1e-9)
			assert.Equal(t, m.Steps[0].Readings, u.Readings)
			assert.True(t, u.StandsOut(u.Low.Value-0.1))
			assert.False(t, u.StandsOut(u.Low.Value+0.1))
			assert.False(t, u.StandsOut(u.High.Value-0.1))
			assert.True(t, u.StandsOut(u.High.Value+0.1))
		})
	}
	assert.Positive(t, ran)
}

// What is known of a step decides how much is said of it. The expected limits are
// worked by hand from the rule beside each.
func TestUsualByWhatIsKnown(t *testing.T) {
	two := 2
	st := study.Study{Confidence: 0.95, Steps: []study.Step{
		{Name: "gap"},
		{Name: "judged", Estimate: &study.Estimate{Low: 60, Likely: 120, High: 180, OfVisit: true}},
		{Name: "once"},
		{Name: "alike"},
		{Name: "wide", Spread: &two},
	}}
	readings := func(more ...study.Reading) []study.Reading { return more }
	for _, c := range []struct {
		name          string
		readings      []study.Reading
		step          string
		setups, count float64
		want          Usual // Readings left out: counted from readings
		known         bool
	}{
		{name: "neither timed nor judged", step: "gap", setups: 1, count: 10},
		{name: "not in the study", step: "weigh", setups: 1, count: 10},
		{name: "judged: mean ± z·(high − low)/6", step: "judged", setups: 1, count: 10, known: true,
			want: Usual{120, study.Known(120 - 20*1.959963984540054), study.Known(120 + 20*1.959963984540054), 0}},
		{name: "judged a visit, and this is a lap", step: "judged", setups: 0, count: 10},
		{name: "timed once, nothing to lend a spread", readings: readings(aReading("once", 10, 50)), step: "once", setups: 1, count: 20, known: true,
			want: Usual{Seconds: 100}},
		// unit: 5 s each, s² = ((50−50)² + (55−50)² + (45−50)²)/2 = 25, 1/Σn² = 1/300; at 20: 100 ± t₂·√(25·400/300 + 25)
		// setup: 50 s, the same s²: 50 ± t₂·√(25/3 + 25)
		{name: "alike counts: from all setup to all unit",
			readings: readings(aReading("alike", 10, 50), aReading("alike", 10, 55), aReading("alike", 10, 45)), step: "alike", setups: 1, count: 20, known: true,
			want: Usual{Seconds: 100, Low: study.Known(50 - 4.302652729696142*math.Sqrt(25./3+25)), High: study.Known(100 + 4.302652729696142*math.Sqrt(25*400./300+25))}},
		{name: "getting ready alone under a spread that grows with the count",
			readings: readings(aReading("wide", 10, 70), aReading("wide", 20, 120), aReading("wide", 40, 240)), step: "wide", setups: 1, count: 0, known: true,
			want: Usual{Seconds: 14.2857142857}},
	} {
		t.Run(c.name, func(t *testing.T) {
			u, known := Fit(st, c.readings, Options{Scatter: OwnScatter}).Usual(c.step, stepfit.Load{Setups: c.setups, Count: c.count})
			require.Equal(t, c.known, known)
			assert.InDelta(t, c.want.Seconds, u.Seconds, 1e-6)
			assert.Equal(t, c.want.Low.Known, u.Low.Known)
			assert.Equal(t, c.want.High.Known, u.High.Known)
			assert.InDelta(t, c.want.Low.Value, u.Low.Value, 1e-6)
			assert.InDelta(t, c.want.High.Value, u.High.Value, 1e-6)
			assert.Equal(t, len(c.readings), u.Readings)
			assert.Equal(t, u.Readings > 0 && u.Low.Known, u.StandsOut(1e6), "a judgement or a time without a spread is no bound")
		})
	}
}

// A spread that grows with the count holds for the one reading too: s²·n^q.
func TestUsualScatterGrowsWithTheCount(t *testing.T) {
	one := 1
	st := study.Study{Confidence: 0.95, Steps: []study.Step{{Name: "sow", Form: string(stepfit.Unit), Spread: &one}}}
	m := Fit(st, []study.Reading{aReading("sow", 10, 48), aReading("sow", 20, 104), aReading("sow", 40, 199)}, Options{Scatter: OwnScatter})
	f := m.Steps[0].Model
	u, ok := m.Usual("sow", stepfit.Load{Setups: 1, Count: 90})
	require.True(t, ok)
	// unit at q = 1: b = Σt/Σn, var b = s²/Σn, s² = Σ(t − bn)²/n / 2
	b := 351.0 / 70
	s2 := (math.Pow(48-10*b, 2)/10 + math.Pow(104-20*b, 2)/20 + math.Pow(199-40*b, 2)/40) / 2
	half := 4.302652729696142 * math.Sqrt(90*90*s2/70+90*s2)
	assert.InDelta(t, 90*b, u.Seconds, 1e-9)
	assert.InDelta(t, 90*b+half, u.High.Value, 1e-6)
	assert.InDelta(t, 90*b-half, u.Low.Value, 1e-6)
	assert.Equal(t, 1, f.Spread)
}
