package stepfit

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The cases of testdata/reference were computed in R and, where a book or
// standard prints figures, agree with those; the source of each stands in it.
const reference = "../../testdata/reference/"

type fitCase struct {
	ID, Data, Step, Form string
	Spread               *int
	Confidence           float64
	Expected             map[string]any
}

func readCases(t *testing.T, name string) []fitCase {
	t.Helper()
	text, err := os.ReadFile(reference + name)
	require.NoError(t, err)
	var file struct{ Cases []fitCase }
	require.NoError(t, json.Unmarshal(text, &file))
	require.NotEmpty(t, file.Cases)
	return file.Cases
}

// sumsOf reads the readings of a step from a plain log of the reference.
func sumsOf(t *testing.T, file, step string) (Sums, []Reading) {
	t.Helper()
	f, err := os.Open(reference + file)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	number := func(row []string, name string) float64 {
		i, ok := column[name]
		if !ok || row[i] == "" {
			return 1 // setups that are not noted
		}
		x, err := strconv.ParseFloat(row[i], 64)
		require.NoError(t, err)
		return x
	}
	var s Sums
	var readings []Reading
	for _, row := range rows[1:] {
		if row[column["step"]] != step {
			continue
		}
		r := Reading{Load{number(row, "setups"), number(row, "count")}, number(row, "time")}
		s.Add(r.Load, r.Seconds)
		readings = append(readings, r)
	}
	require.NotEmpty(t, readings)
	return s, readings
}

// near compares with a figure of the reference: to nine significant digits, or
// where it is rounding about zero, to that.
func near(t *testing.T, want, got float64, what string) {
	t.Helper()
	if math.Abs(want) < 1e-13 {
		assert.InDelta(t, want, got, 1e-12, what)
		return
	}
	assert.InEpsilon(t, want, got, 1e-9, what)
}

// figures are a fit's, under the reference's names.
func figures(f Fit, confidence float64) map[string]float64 {
	out := map[string]float64{
		"readings": float64(f.Readings), "spread": float64(f.Spread), "df": f.DF,
		"residual_sd_s": f.SD, "weighted_rss": f.RSS, "log_likelihood": f.LogLikelihood,
	}
	if r2, ok := f.R2(); ok {
		out["r2"] = r2
	}
	if n, ok := f.ReadingsFor(0.1, confidence, func(own float64) float64 { return own }); ok {
		out["readings_for_10_percent"] = float64(n)
	}
	limits := func(name string, value, variance float64) {
		half := Quantile(confidence, f.DF) * math.Sqrt(variance)
		out[name+"_s"], out[name+"_se_s"] = value, math.Sqrt(variance)
		out[name+"_low_s"], out[name+"_high_s"] = value-half, value+half
	}
	if f.Form.HasSetup() {
		limits("setup", f.SetupSec, f.Variance(Load{Setups: 1}))
	}
	if f.Form.HasUnit() {
		limits("unit", f.UnitSec, f.Variance(Load{Count: 1}))
	}
	if f.Form == SetupUnit {
		out["setup_unit_cov_s2"] = f.CovarianceOf(Load{Setups: 1}, Load{Count: 1})
	}
	return out
}

// agree holds a fit's figures against all those that a case expects.
func agree(t *testing.T, c fitCase, f Fit, skip ...string) {
	t.Helper()
	got := figures(f, c.Confidence)
	for name, want := range c.Expected {
		number, isNumber := want.(float64)
		if _, known := got[name]; !known || !isNumber || contains(skip, name) {
			continue
		}
		near(t, number, got[name], name)
	}
	if form, ok := c.Expected["form"]; ok {
		assert.EqualValues(t, form, f.Form)
	}
}

func contains(names []string, name string) bool {
	for _, n := range names {
		if n == name {
			return true
		}
	}
	return false
}

// Fits of published sets and made-up readings: NIST's Norris and NoInt1,
// Montgomery's shelf stocking, Kutner's Toluca and others.
func TestFitAgreesWithReference(t *testing.T) {
	for _, c := range readCases(t, "fits.json") {
		t.Run(c.ID, func(t *testing.T) {
			sums, _ := sumsOf(t, c.Data, c.Step)
			spread := 0
			if c.Spread != nil {
				spread = *c.Spread
			}
			agree(t, c, sums.fitOf(Form(c.Form), spread))
		})
	}
}

// What the default form and spread give, and which readings stand out.
func TestChooseAgreesWithReference(t *testing.T) {
	for _, c := range readCases(t, "auto.json") {
		t.Run(c.ID, func(t *testing.T) {
			sums, readings := sumsOf(t, c.Data, c.Step)
			model := sums.Choose(Options{})
			if model.DF == 0 { // lent by other steps: tested where steps meet
				near(t, c.Expected["unit_s"].(float64), model.UnitSec, "unit_s")
				return
			}
			agree(t, c, model.Fit)
			if bracket, ok := c.Expected["bracket"].(map[string]any); ok {
				require.NotNil(t, model.Bracket)
				agree(t, fitCase{Confidence: c.Confidence, Expected: bracket}, *model.Bracket)
			} else if c.Expected["form"] != "unit" || c.ID == "auto/setups/laps alone" {
				assert.Nil(t, model.Bracket)
			}
			standsOutAgrees(t, c, model, readings)
		})
	}
}

func standsOutAgrees(t *testing.T, c fitCase, model Model, readings []Reading) {
	t.Helper()
	screen, ok := model.Screen()
	require.True(t, ok)
	largest := 0.0
	found := []any{}
	for i, r := range readings {
		_, stands := screen.Check(r)
		out := screen.outlier(r, screen.studentised(r))
		if math.Abs(out.Studentised) > math.Abs(largest) {
			largest = out.Studentised
		}
		if stands {
			one := map[string]any{
				"row": float64(i + 1), "count": r.Count, "time_s": r.Seconds,
				"studentised": out.Studentised, "p": out.P, "setup_s": nil, "unit_s": nil,
			}
			if model.Form.HasSetup() {
				one["setup_s"] = out.SetupSec
			}
			if model.Form.HasUnit() {
				one["unit_s"] = out.UnitSec
			}
			found = append(found, one)
		}
	}
	assert.InEpsilon(t, c.Expected["largest_studentised"], largest, 1e-7)
	want := c.Expected["stands_out"].([]any)
	require.Len(t, found, len(want))
	for i := range want {
		for name, x := range want[i].(map[string]any) {
			got := found[i].(map[string]any)[name]
			if x == nil {
				assert.Nil(t, got, name)
			} else {
				assert.InEpsilon(t, x, got, 1e-6, name)
			}
		}
	}
}

// NIST StRD, linear regression, data set NoInt2, certified values from memory.
func TestNoInt2(t *testing.T) {
	var s Sums
	for _, r := range [][2]float64{{4, 3}, {5, 4}, {6, 4}} {
		s.Add(Load{1, r[0]}, r[1])
	}
	f := s.fitOf(Unit, 0)
	assert.InEpsilon(t, 0.727272727272727, f.UnitSec, 1e-12)
	assert.InEpsilon(t, 0.0420827318078432, math.Sqrt(f.Variance(Load{Count: 1})), 1e-12)
	assert.InEpsilon(t, 0.369274472937998, f.SD, 1e-12)
	r2, ok := f.R2()
	assert.True(t, ok)
	assert.InEpsilon(t, 0.993348115299335, r2, 1e-12)
}
