package study

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// apartBy is the optimal string alignment distance by its definition, without any bound.
func apartBy(a, b []rune) int {
	switch {
	case len(a) == 0:
		return len(b)
	case len(b) == 0:
		return len(a)
	}
	lastA, lastB := a[len(a)-1], b[len(b)-1]
	change := 1
	if lastA == lastB {
		change = 0
	}
	least := min(apartBy(a[:len(a)-1], b)+1, apartBy(a, b[:len(b)-1])+1, apartBy(a[:len(a)-1], b[:len(b)-1])+change)
	if len(a) > 1 && len(b) > 1 && lastA == b[len(b)-2] && lastB == a[len(a)-2] {
		least = min(least, apartBy(a[:len(a)-2], b[:len(b)-2])+1)
	}
	return least
}

func word(r *rand.Rand, longest int) string {
	letters := []rune("abcö")
	var b strings.Builder
	for range r.IntN(longest + 1) {
		b.WriteRune(letters[r.IntN(len(letters))])
	}
	return b.String()
}

// Within its bound the distance is that of the definition, and beyond no more than the
// bound.
func TestEditDistanceByDefinition(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 1500 {
		a, b := []rune(word(r, 5)), []rune(word(r, 5))
		want := apartBy(a, b)
		for most := 1; most <= 8; most++ {
			got := editDistance(a, b, most)
			if want < most {
				require.Equal(t, want, got, "%q %q %d", string(a), string(b), most)
			} else {
				require.GreaterOrEqual(t, got, most, "%q %q", string(a), string(b))
			}
		}
	}
}

// The nearest is the first of those that differ least, where that is a third of the typed
// letters at most and one at least stays.
func TestNearestByDefinition(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 3))
	found := 0
	for range 300 {
		name := word(r, 6)
		known := []string{word(r, 6), word(r, 6), word(r, 6), word(r, 6)}
		typed := []rune(name)
		want, least := "", 100
		for _, k := range known {
			d := apartBy(typed, []rune(k))
			if d <= max(1, len(typed)/3) && d < len(typed) && d < least {
				want, least = k, d
			}
		}
		require.Equal(t, want, Nearest(name, known), "%q of %q", name, known)
		if want != "" {
			found++
		}
	}
	require.Greater(t, found, 40)
}

func TestNearestByCase(t *testing.T) {
	assert.Equal(t, "Sow", Nearest("SOW", []string{"Sow", "sew"}))
	assert.Equal(t, "Möhren säen", Nearest("MÖHREN SAEN", []string{"ernten", "Möhren säen"}))
	assert.Empty(t, Nearest("x", []string{"y"}), "no letter agrees")
	assert.Empty(t, Nearest("", []string{"a", ""}))
	assert.Empty(t, Nearest("sow", nil))
	long := strings.Repeat("ä", longName)
	assert.Equal(t, long, Nearest(long, []string{long}))
	assert.Empty(t, Nearest(long+"ä", []string{long + "ä"}), "nobody mistypes so long a name")
}

func TestSameName(t *testing.T) {
	for _, c := range []struct {
		name  string
		known []string
		want  string
		ok    bool
	}{
		{"sow", []string{"Sow", "sow"}, "sow", true},
		{"SOW", []string{"thin", "sow"}, "sow", true},
		{" look   over ", []string{"Look over"}, "Look over", true},
		{"sow", []string{"Sow", "SOW"}, "", false},
		{"lookover", []string{"look over"}, "", false},
		{"sow", nil, "", false},
		{"", []string{"a"}, "", false},
		{"ÄRNTEN", []string{"ärnten"}, "ärnten", true},
	} {
		got, ok := SameName(c.name, c.known)
		assert.Equal(t, c.want, got, c.name)
		assert.Equal(t, c.ok, ok, c.name)
	}
}
