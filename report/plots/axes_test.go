package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/plot"
)

func labels(ticks []plot.Tick) (all []string) {
	for _, tick := range ticks {
		if tick.Label != "" {
			all = append(all, tick.Label)
		}
	}
	return all
}

func TestTicks(t *testing.T) {
	cases := map[string]struct {
		ticker    plot.Ticker
		low, high float64
		want      []string
	}{
		"minutes":            {even{5, 0}, 0, 9.9, []string{"0", "2", "4", "6", "8"}},
		"decimals":           {even{5, 0}, 0, 0.3, []string{"0", "0.1", "0.2", "0.3"}},
		"fifths":             {even{6, 0}, 0, 1, []string{"0", "0.2", "0.4", "0.6", "0.8", "1.0"}},
		"below zero":         {even{4, 0}, -1.2, 2, []string{"-1", "0", "1", "2"}},
		"whole counts":       {even{6, 1}, 0, 1.06, []string{"0", "1"}},
		"large":              {even{4, 0}, 0, 4e9, []string{"0", "1e+09", "2e+09", "3e+09", "4e+09"}},
		"small":              {even{4, 0}, 0, 2e-6, []string{"0", "5e-07", "1e-06", "1.5e-06", "2e-06"}},
		"five decades":       {logarithmic{226, 34}, 1, 1e5, []string{"1", "10", "100", "1000", "10000", "100000"}},
		"heads":              {logarithmic{226, 34}, 10, 5000, []string{"10", "30", "100", "300", "1000", "3000"}},
		"hours":              {logarithmic{200, 20}, 0.6, 130, []string{"1", "2", "5", "10", "20", "50", "100"}},
		"within a decade":    {logarithmic{200, 20}, 20, 80, []string{"20", "40", "60", "80"}},
		"many decades":       {logarithmic{200, 50}, 1e-6, 1e6, []string{"1e-06", "0.001", "1", "1000", "1e+06"}},
		"at its ends, twice": {logarithmic{226, 34}, 10, 100, []string{"10", "20", "50", "100"}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			ticks := c.ticker.Ticks(c.low, c.high)
			assert.Equal(t, c.want, labels(ticks))
			for _, tick := range ticks {
				assert.True(t, tick.Value >= c.low*(1-1e-8)-1e-12 && tick.Value <= c.high*(1+1e-8), "%v", tick.Value)
			}
		})
	}
	assert.Empty(t, even{4, 0}.Ticks(0, math.NaN()))
}
