package folder

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func numbered(form string, n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, form, i)
	}
	return b.String()
}

// More than any study holds is refused before the library looks for keys that stand
// twice, which takes it time with the square of their number.
func TestCrowded(t *testing.T) {
	const keys, values = "is not read: the file has a table of more than 10000 keys", "is not read: the file has more than 250000 values"
	for _, c := range []struct {
		name, text, want string
		line             int
	}{
		{"keys", "[labour]\n" + numbered("k%d = 1\n", 40_000), keys, 10_002},
		{"keys in bounds", "[labour]\n" + numbered("k%d = 1\n", maxKeys), "", 0},
		{"dotted keys", numbered("a.k%d = 1\n", 40_000), keys, 10_001},
		{"tables", numbered("[k%d]\n", 40_000), keys, 10_001},
		{"tables of a table", numbered("[a.b.k%d]\n", 40_000), keys, 10_001},
		{"lists of tables", numbered("[[k%d]]\n", 40_000), keys, 10_001},
		{"one list of tables", strings.Repeat("[[step]]\n[step.estimate]\na = 1\n", 20_000), "", 0},
		{"keys on a line", "a = [1, {" + strings.TrimSuffix(numbered("k%d = 1, ", 40_000), ", ") + "}]", keys, 1},
		{"values", "a = [" + strings.Repeat("1,", maxValues) + "]", values, 1},
		{"a key of many parts", "[a" + strings.Repeat(".a", 100_000) + "]\n", "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			began := time.Now()
			s := newSource([]byte(c.text), "study.toml")
			f := s.crowded()
			assert.Less(t, time.Since(began), 3*time.Second)
			if c.want == "" {
				assert.Nil(t, f)
				return
			}
			if assert.NotNil(t, f) {
				assert.Equal(t, c.want, f.text)
				assert.Equal(t, c.line, s.place(f.at).Line)
			}
		})
	}
}

// The library names a letter by the first of its bytes, and a key in full.
func TestFaultShown(t *testing.T) {
	for text, want := range map[string]string{
		"\u202ea = 1\n":   "cannot be read: a line begins with a key, as in heads = 48, found U+202E",
		"a = é\n":         `cannot be read: this is no value, found 'é': text stands in quotes, name = "sow"`,
		"a = \"\\ö\"\n":   "cannot be read: a \\ within text is written twice, or the text stands in single quotes, found 'ö'",
		"a = \"ä\" ? ö\n": "cannot be read: there is something behind the value: a line has one key and one value, found '?'",
	} {
		assert.Equal(t, want, newSource([]byte(text), "").parse().text)
	}
	long := strings.Repeat("k", 1<<18)
	assert.Less(t, len(newSource([]byte(long+"=1\n"+long+"=2\n"), "").parse().text), 500)
	assert.NotContains(t, newSource([]byte("\"a\u202e\"=1\n\"a\u202e\"=2\n"), "").parse().text, "\u202e")
}
