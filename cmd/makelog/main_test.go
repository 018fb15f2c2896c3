package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/tasklog"
)

func TestLogReadsWithoutAProblem(t *testing.T) {
	var out, again, errs bytes.Buffer
	require.Zero(t, run([]string{"--readings", "5000", "--seed", "7"}, &out, &errs))
	require.Zero(t, run([]string{"--readings", "5000", "--seed", "7"}, &again, &errs))
	assert.Equal(t, out.String(), again.String(), "the same seed gives the same bytes")
	log, err := tasklog.Read(&out, "big.csv", tasklog.Dialect{})
	require.NoError(t, err)
	assert.Len(t, log.Readings, 5000)
	assert.Empty(t, log.Warnings)
}

func TestUsage(t *testing.T) {
	var out, errs bytes.Buffer
	assert.Equal(t, 2, run([]string{"--reading", "5"}, &out, &errs))
	assert.Equal(t, 1, run([]string{"-o", filepath.Join(t.TempDir(), "no", "big.csv")}, &out, &errs))
	name := filepath.Join(t.TempDir(), "big.csv")
	require.Zero(t, run([]string{"-o", name}, &out, &errs))
	info, err := os.Stat(name)
	require.NoError(t, err)
	assert.Greater(t, info.Size(), int64(40000))
}

// Logs of every shape hold the same readings.
func TestShapes(t *testing.T) {
	var want []float64
	var usual bytes.Buffer
	require.Zero(t, run([]string{"--readings", "3000"}, &usual, &usual))
	log, err := tasklog.Read(&usual, "big.csv", tasklog.Dialect{})
	require.NoError(t, err)
	seconds := func(i int) float64 { return log.Readings[i].Seconds }
	for name := range shapes {
		var out, errs bytes.Buffer
		require.Zero(t, run([]string{"--readings", "3000", "--shape", name}, &out, &errs), errs.String())
		log, err := tasklog.Read(&out, "big.csv", tasklog.Dialect{})
		require.NoError(t, err, name)
		require.Len(t, log.Readings, 3000)
		var counts []float64
		for i, r := range log.Readings {
			counts = append(counts, r.Count)
			assert.InDelta(t, seconds(i), r.Seconds, 1, name) // clocks are whole seconds
		}
		if want == nil {
			want = counts
		}
		assert.Equal(t, want, counts, name)
	}
	var out, errs bytes.Buffer
	assert.Equal(t, 2, run([]string{"--shape", "round"}, &out, &errs))
	assert.Contains(t, errs.String(), `no shape is named "round": there are abreast, bare, clocks, grows`)
}
