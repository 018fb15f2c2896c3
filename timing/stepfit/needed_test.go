package stepfit

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Cycles to time by the handbooks' formula, to the digits that they print, and by
// Student's t. Sources stand in the reference.
func TestReadingsNeededAgreeWithHandbooks(t *testing.T) {
	text, err := os.ReadFile("../../testdata/reference/timestudy.json")
	require.NoError(t, err)
	var file struct {
		Cases []struct {
			ID, Kind, Source string
			Input            json.RawMessage
			Expected         struct {
				N         float64
				RoundedUp int `json:"rounded_up"`
				TBased    int `json:"t_based"`
			}
			Published struct {
				N         float64
				RoundedUp int `json:"rounded_up"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(text, &file))
	ran := 0
	for _, c := range file.Cases {
		if c.Kind != "readings_needed" {
			continue
		}
		ran++
		t.Run(c.ID, func(t *testing.T) {
			var in struct {
				Readings []float64
				Share    float64 `json:"relative_error"`
				Z        float64
				Divisor  string
			}
			require.NoError(t, json.Unmarshal(c.Input, &in))
			var sums Sums
			for _, x := range in.Readings {
				sums.Add(Load{1, 1}, x)
			}
			fit := sums.fitOf(Setup, 0)
			cv, ok := fit.CV()
			require.True(t, ok)
			confidence := 0.95
			if in.Z == 2.58 {
				confidence = 0.99
			}
			needed, ok := fit.ReadingsFor(in.Share, confidence, func(own float64) float64 { return own })
			require.True(t, ok)
			assert.Equal(t, c.Expected.TBased, needed)

			if n := float64(len(in.Readings)); in.Divisor == "n" {
				cv *= math.Sqrt((n - 1) / n)
			}
			got := CyclesNeeded(cv, in.Share, in.Z)
			assert.InEpsilon(t, c.Expected.N, got, 1e-12)
			assert.EqualValues(t, c.Expected.RoundedUp, math.Ceil(got))
			if c.Published.RoundedUp != 0 {
				assert.EqualValues(t, c.Published.RoundedUp, math.Ceil(got), c.Source)
			}
			// of the other two one is rounded on the way, one has its digits swapped
			switch c.ID {
			case "sample/ilo_7_6_7_7_6":
				assert.InDelta(t, c.Published.N, got, 0.0055, c.Source)
			case "sample/pilot_of_six": // from the mean and deviation as printed
				assert.InDelta(t, c.Published.N, CyclesNeeded(0.253/5.4, in.Share, in.Z), 5e-5, c.Source)
			}
		})
	}
	assert.Equal(t, 4, ran)
}
