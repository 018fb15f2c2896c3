package answer

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// The cases of testdata/reference were computed in R; where a book or standard
// prints figures they agree with those. The source of each stands in its file.
const reference = "../../testdata/reference/"

// asked is a linear form as the reference writes it: a load by step.
type asked map[string]struct{ Setups, Count float64 }

// UnmarshalJSON reads a load by step, or one load of the only step there is.
func (a *asked) UnmarshalJSON(data []byte) error {
	var loads map[string]struct{ Setups, Count float64 }
	if err := json.Unmarshal(data, &loads); err == nil {
		*a = loads
		return nil
	}
	var only struct{ Setups, Count float64 }
	err := json.Unmarshal(data, &only)
	*a = asked{"": only}
	return err
}

type inferenceCase struct {
	ID, Kind, Data, Step, Form string
	Confidence                 float64
	C, D0, D1                  asked
	Input                      json.RawMessage
	Judged                     *struct {
		Low    float64 `json:"low_s"`
		Likely float64 `json:"likely_s"`
		High   float64 `json:"high_s"`
	}
	Doings map[string][]struct {
		Count          float64
		SetupsOfADoing float64 `json:"setups_of_the_doing"`
		SharedBy       float64 `json:"shared_by"`
	}
	Readings []struct {
		Step  string
		Count float64
		Time  float64 `json:"time_s"`
	}
	Expected map[string]any
}

func inferenceCases(t *testing.T) []inferenceCase {
	t.Helper()
	text, err := os.ReadFile(reference + "inference.json")
	require.NoError(t, err)
	var file struct{ Cases []inferenceCase }
	require.NoError(t, json.Unmarshal(text, &file))
	return file.Cases
}

// plainLog reads a plain log of the reference: step, count, time, setups.
func plainLog(t *testing.T, name string) []study.Reading {
	t.Helper()
	f, err := os.Open(reference + name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	column := map[string]int{}
	for i, head := range rows[0] {
		column[head] = i
	}
	var readings []study.Reading
	for _, row := range rows[1:] {
		number := func(head string) float64 {
			x, err := strconv.ParseFloat(row[column[head]], 64)
			require.NoError(t, err)
			return x
		}
		r := aReading(row[column["step"]], number("count"), number("time"))
		if i, ok := column["setups"]; ok && row[i] != "" {
			r.Setups = study.Known(number("setups"))
		}
		readings = append(readings, r)
	}
	return readings
}

func aReading(step string, count, seconds float64) study.Reading {
	return study.Reading{Step: step, Count: count, Seconds: seconds, People: 1, Rating: 100}
}

// models fits the readings of a case, its judged step beside them.
func (c inferenceCase) models(t *testing.T) *Models {
	t.Helper()
	return c.fit(c.logged(t), Options{Confidence: c.Confidence, Scatter: OwnScatter, Grouping: NoGrouping})
}

func (c inferenceCase) logged(t *testing.T) []study.Reading {
	t.Helper()
	var readings []study.Reading
	if c.Data != "" {
		readings = plainLog(t, c.Data)
	}
	for _, r := range c.Readings {
		readings = append(readings, aReading(r.Step, r.Count, r.Time))
	}
	return readings
}

func (c inferenceCase) fit(readings []study.Reading, o Options) *Models {
	st := studyOf(readings)
	if j := c.Judged; j != nil {
		st.Steps = append(st.Steps, study.Step{Name: "judged", Estimate: &study.Estimate{Low: j.Low, Likely: j.Likely, High: j.High, OfVisit: true}})
	}
	return Fit(st, readings, o)
}

func (m *Models) linearOf(t *testing.T, a asked) linear {
	t.Helper()
	l := make(linear, len(m.Steps))
	for name, load := range a {
		i, ok := m.Index[name]
		require.True(t, ok || name == "", name)
		l[i] = stepfit.Load(load)
	}
	return l
}

// visitsOf are the doings of a case; where it names none, one visit of each
// step with its load.
func (c inferenceCase) visitsOf(m *Models) []visit {
	var visits []visit
	for name, load := range c.C {
		visit := visit{step: m.Index[name], count: load.Count, whole: stepfit.Load(load), sharedBy: 1}
		if c.Doings == nil {
			visits = append(visits, visit)
		}
		for _, d := range c.Doings[name] {
			visit.whole, visit.sharedBy = stepfit.Load{Setups: d.SetupsOfADoing, Count: d.Count * d.SharedBy}, d.SharedBy
			visits = append(visits, visit)
		}
	}
	return visits
}

// near holds a figure against the reference's to nine significant digits.
func near(t *testing.T, want any, got study.Maybe, what string) {
	t.Helper()
	if want == nil {
		assert.False(t, got.Known, what)
		return
	}
	require.True(t, got.Known, what)
	number := want.(float64)
	if number == 0 {
		assert.Zero(t, got.Value, what)
		return
	}
	assert.InEpsilon(t, number, got.Value, 1e-9, what)
}

// Totals, differences, brackets, the next grow and Fieller's sets.
func TestInferenceAgreesWithReference(t *testing.T) {
	seen := map[string]int{}
	for _, c := range inferenceCases(t) {
		check, ok := map[string]func(*testing.T, inferenceCase){
			"linear_form": checkSpan, "total": checkSpan, "difference": checkSpan,
			"one_count_bracket": checkSpan, "bracket": checkSpan,
			"prediction": checkNext, "next_grow": checkNext,
			"fieller": checkFieller, "break_even": checkBreakEven,
			"welch_satterthwaite": checkSatterthwaite, "borrowed_spread": checkBorrowed,
			"tips_at_cv": checkTips,
		}[c.Kind]
		if !ok {
			continue // Welch's t and the grower's own guess have tests of their own
		}
		seen[c.Kind]++
		t.Run(c.ID, func(t *testing.T) { check(t, c) })
	}
	assert.Len(t, seen, 12)
}

func checkSpan(t *testing.T, c inferenceCase) {
	m := c.models(t)
	span := m.span(workload{loads: m.linearOf(t, c.C)})
	if c.Expected["unit"] == "hours" {
		span = span.times(1.0 / 3600)
	}
	want := c.Expected
	if c.Kind == "one_count_bracket" {
		want["estimate"] = want["unit"].(map[string]any)["estimate"]
	}
	near(t, want["estimate"], study.Known(span.Value), "estimate")
	near(t, want["low"], span.Low, "low")
	near(t, want["high"], span.High, "high")
	near(t, want["df"], span.DF, "df")
	if p, ok := want["p"]; ok {
		near(t, p, span.P, "p")
	}
}

func checkNext(t *testing.T, c inferenceCase) {
	m := c.models(t)
	span := m.span(workload{m.linearOf(t, c.C), c.visitsOf(m)})
	near(t, c.Expected["estimate"], study.Known(span.Value), "estimate")
	if low, ok := c.Expected["next_low"]; ok {
		near(t, low, span.NextLow, "next_low")
		near(t, c.Expected["next_high"], span.NextHigh, "next_high")
		return
	}
	near(t, c.Expected["low"], span.NextLow, "low")
	near(t, c.Expected["high"], span.NextHigh, "high")
}

func checkFieller(t *testing.T, c inferenceCase) {
	var in struct {
		A, B, DF, VAA, VAB, VBB float64
	}
	var raw map[string]float64
	require.NoError(t, json.Unmarshal(c.Input, &raw))
	in.A, in.B, in.DF, in.VAA, in.VAB, in.VBB = raw["A"], raw["B"], raw["df"], raw["V_AA"], raw["V_AB"], raw["V_BB"]
	kind, low, high := setOf(in.A, in.B, in.VAA, in.VAB, in.VBB, stepfit.Quantile(c.Confidence, in.DF))
	want := c.Expected
	if above, ok := want["above_zero"].(map[string]any); ok {
		want = above
	} else if l, ok := want["low"].(float64); ok && l < 0 {
		want["low"] = 0.0 // cut to heads above 0
	}
	assert.EqualValues(t, want["kind"], kind)
	near(t, want["low"], low, "low")
	near(t, want["high"], high, "high")
}

func checkBreakEven(t *testing.T, c inferenceCase) {
	m := c.models(t)
	even := m.crossing(m.linearOf(t, c.D0), m.linearOf(t, c.D1))
	assert.EqualValues(t, c.Expected["kind"], even.Kind)
	near(t, c.Expected["heads"], even.Heads, "heads")
	if c.ID == "break_even/by hand less by machine" { // whose one step left a form: its doubts are the full form's
		assert.NotNil(t, m.Steps[m.Index["by machine"]].Model.Full)
		assert.NotEqual(t, c.Expected["low"], even.Low.Value)
		return
	}
	near(t, c.Expected["low"], even.Low, "low")
	near(t, c.Expected["high"], even.High, "high")
}

// JCGM 100:2008 (GUM), example H.1: an end-gauge calibration.
func checkSatterthwaite(t *testing.T, c inferenceCase) {
	var in struct{ U, DF []float64 }
	require.NoError(t, json.Unmarshal(c.Input, &in))
	var u uncertainty
	for i := range in.U {
		u.steps.add(in.U[i]*in.U[i], in.DF[i])
	}
	variance, df := u.total()
	near(t, c.Expected["u_c"], study.Known(math.Sqrt(variance)), "u_c")
	near(t, c.Expected["df"], study.Known(df), "df")
	near(t, c.Expected["k99_at_16"], study.Known(stepfit.Quantile(0.99, 16)), "k99")
}

func checkBorrowed(t *testing.T, c inferenceCase) {
	m := c.models(t)
	near(t, c.Expected["pooled_cv"], study.Known(m.lending.cv()), "pooled_cv")
	near(t, c.Expected["pooled_df"], study.Known(m.lending.df), "pooled_df")
	fit := m.fitOf(m.Index[c.Step])
	near(t, c.Expected["residual_sd_s"], fit.ResidualSD, "residual_sd_s")
	near(t, c.Expected["unit_s"], fit.Unit, "unit_s")
	near(t, c.Expected["unit_se_s"], fit.UnitSE, "unit_se_s")
	near(t, c.Expected["unit_low_s"], fit.UnitLow, "unit_low_s")
	near(t, c.Expected["unit_high_s"], fit.UnitHigh, "unit_high_s")
	assert.True(t, fit.Borrowed)
}

// The case is worked out with both steps taken as all unit time. Left to the
// default, single readings are bracketed, and the lesser of the two settings is
// smaller: sow all unit (540 s) and pellets all setup (500 s) differ by 40 s.
func checkTips(t *testing.T, c inferenceCase) {
	m := c.models(t)
	d := m.linearOf(t, c.C)
	near(t, 40/(stepfit.Quantile(0.95, math.Inf(1))*math.Hypot(540, 500)), m.tipsAtCV(d), "by default")
	m = c.fit(c.logged(t), Options{Confidence: c.Confidence, Form: stepfit.Unit, Scatter: OwnScatter})
	span := m.span(workload{loads: d})
	near(t, c.Expected["difference"], study.Known(span.Value), "difference")
	assert.False(t, span.Low.Known)
	near(t, c.Expected["tips_at_cv"], m.tipsAtCV(d), "tips_at_cv")
}

// A step that nobody can lend a spread to takes that of its own estimate.
func TestOwnGuess(t *testing.T) {
	for _, c := range inferenceCases(t) {
		if c.Kind != "own_guess" {
			continue
		}
		estimate := &study.Estimate{Low: 52, Likely: 52, High: 100} // as the case says
		st := study.Study{Confidence: 0.95, Steps: []study.Step{{Name: "pack", Estimate: estimate}}}
		m := Fit(st, []study.Reading{aReading("pack", 5, 50)}, Options{Scatter: OwnScatter})
		fit := m.fitOf(0)
		near(t, c.Expected["unit_s"], fit.Unit, "unit_s")
		near(t, c.Expected["unit_se_s"], fit.UnitSE, "unit_se_s")
		near(t, c.Expected["unit_low_s"], fit.UnitLow, "unit_low_s")
		near(t, c.Expected["unit_high_s"], fit.UnitHigh, "unit_high_s")
		near(t, c.Expected["residual_sd_s"], fit.ResidualSD, "residual_sd_s")
		near(t, nil, fit.DF, "df")
		assert.True(t, fit.Borrowed)
		return
	}
	t.Fatal("the case own_guess is missing")
}
