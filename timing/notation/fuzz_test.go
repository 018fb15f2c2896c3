package notation

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzDuration: a time is a number of seconds from 0 on, or an error.
func FuzzDuration(f *testing.F) {
	for _, text := range []string{"187.4", "1,30", "3:07", "1:03:07.5", "3m7s", "3.5min", "PT1H3M7S"} {
		f.Add(text, true)
	}
	f.Fuzz(func(t *testing.T, text string, comma bool) {
		seconds, doubtful, err := Duration(text, comma)
		require.False(t, math.IsNaN(seconds) || math.IsInf(seconds, 0) || seconds < 0)
		require.False(t, doubtful && (err != nil || seconds >= 10))
		require.False(t, err == nil && strings.ContainsAny(text, "-+ "))
	})
}
