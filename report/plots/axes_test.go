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
		"minutes":      {even{5, 0}, 0, 9.9, []string{"0", "2", "4", "6", "8"}},
		"decimals":     {even{5, 0}, 0, 0.3, []string{"0", "0.1", "0.2", "0.3"}},
		"fifths":       {even{6, 0}, 0, 1, []string{"0", "0.2", "0.4", "0.6", "0.8", "1.0"}},
		"below zero":   {even{4, 0}, -1.2, 2, []string{"-1", "0", "1", "2"}},
		"whole counts": {even{6, 1}, 0, 1.06, []string{"0", "1"}},
		"large":        {even{4, 0}, 0, 4e9, []string{"0", "1e+09", "2e+09", "3e+09", "4e+09"}},
		"small":        {even{4, 0}, 0, 2e-6, []string{"0", "5e-07", "1e-06", "1.5e-06", "2e-06"}},
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
