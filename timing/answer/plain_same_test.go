package answer_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

// tree is an answer as its JSON is to be, by key; notes are left out.
type tree = map[string]any

// beside are keys that answers have beside what the pages list.
var beside = []string{"notes", "resown", "moved", "weekday_hours_h"}

// sameJSON holds an answer's JSON to what was worked out plainly: the same keys, the same
// texts, numbers to a billionth, and to a hundred-billionth of what scale says of numbers
// that are left of others. NaN and infinity are null.
func sameJSON(t *testing.T, want tree, got any, what string) {
	t.Helper()
	data, err := json.Marshal(got)
	require.NoError(t, err, what)
	var parsed any
	require.NoError(t, json.Unmarshal(data, &parsed), what)
	for _, d := range differing(want, parsed, what) {
		t.Error(d)
	}
}

func differing(want, got any, at string) (list []string) {
	differs := func(words string, args ...any) []string {
		return append(list, at+": "+fmt.Sprintf(words, args...))
	}
	switch w := want.(type) {
	case tree:
		g, ok := got.(tree)
		if !ok {
			return differs("%v, want an object", got)
		}
		keys := []string{}
		for key := range w {
			keys = append(keys, key)
		}
		for key := range g {
			if _, known := w[key]; !known && !slices.Contains(beside, key) {
				list = differs("has the key %s", key)
			}
		}
		slices.Sort(keys)
		for _, key := range keys {
			x, has := g[key]
			if !has {
				list = differs("lacks the key %s", key)
				continue
			}
			list = append(list, differing(w[key], x, at+"."+key)...)
		}
		return list
	case []any:
		g, ok := got.([]any)
		if !ok {
			return differs("%v, want a list", got)
		}
		if len(g) != len(w) {
			list = differs("%d items, want %d", len(g), len(w))
		}
		for i := range min(len(w), len(g)) {
			list = append(list, differing(w[i], g[i], fmt.Sprint(at, "[", i, "]"))...)
		}
		return list
	case nil:
	case string, bool:
		if got != want {
			return differs("%v, want %v", got, want)
		}
		return nil
	case int:
		return differing(float64(w), got, at)
	case study.Maybe:
		if w.Known {
			return differing(w.Value, got, at)
		}
	case float64:
		if math.IsNaN(w) || math.IsInf(w, 0) {
			break
		}
		share := 1e-9
		if strings.HasSuffix(at, "studentised") || strings.HasSuffix(at, "].p") {
			share = 1e-7 // what is left of a residual's square
		}
		g, ok := got.(float64)
		if !ok || abs(g-w) > share*abs(w)+1e-11 {
			return differs("%v, want %v", got, want)
		}
		return nil
	default:
		return differs("a %T cannot be compared", want)
	}
	if got != nil {
		return differs("%v, want null", got)
	}
	return nil
}

// known is a number, null where it is not.
func known(ok bool, x float64) any {
	if !ok {
		return nil
	}
	return x
}

// textOr is a text, null where there is none.
func textOr(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// forCases runs a check over invented cases, in parallel with those of other answers.
func forCases(t *testing.T, n uint64, check func(t *testing.T, p *plain)) {
	t.Parallel()
	for seed := range n {
		t.Run(fmt.Sprint(seed), func(t *testing.T) { check(t, model(invent(seed))) })
		if t.Failed() && testing.Short() {
			return
		}
	}
}
