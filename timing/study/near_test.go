package study

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func word(r *rand.Rand, longest int) string {
	letters := []rune("abcö")
	var b strings.Builder
	for range r.IntN(longest + 1) {
		b.WriteRune(letters[r.IntN(len(letters))])
	}
	return b.String()
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
			d := plainDistance(strings.ReplaceAll(name, "ö", "o"), strings.ReplaceAll(k, "ö", "o"))
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
