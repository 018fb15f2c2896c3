package study

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// An error of a name lists a few of those that there are, each in short.
func TestUnknownName(t *testing.T) {
	known := make([]string, 300)
	for i := range known {
		known[i] = strings.Repeat("z", 500)
	}
	text := UnknownName{Kind: "step", Name: strings.Repeat("x", 1<<20), Known: known}.Error()
	assert.Less(t, len(text), 1000)
	assert.Contains(t, text, `zz…" and 292 more`)
	assert.Equal(t, `no step is named "sew": did you mean "sow"`, UnknownName{Kind: "step", Name: "sew", Known: []string{"sow"}}.Error())
	assert.Equal(t, `no change is named "board": there is none at all`, UnknownName{Kind: "change", Name: "board"}.Error())
}

func TestSortProblems(t *testing.T) {
	at := func(line, column int) Problem { return Problem{Place: Place{Line: line, Column: column}} }
	ps := Problems{at(3, 1), at(2, 2), at(2, 1), unlisted(5)}
	ps.Sort()
	assert.Equal(t, Problems{at(2, 1), at(2, 2), at(3, 1), unlisted(5)}, ps)
}

// A text stands in a study file in quotes that TOML reads as the text that it was.
func TestTOMLText(t *testing.T) {
	for text, want := range map[string]string{
		"": `""`, "Möhren": `"Möhren"`, `say "so"`: `"say \"so\""`, `a\b`: `"a\\b"`, "two\nlines\t": `"two\u000Alines\u0009"`,
		"\U000e0001": `"\U000E0001"`, "it's 5 °C": `"it's 5 °C"`,
	} {
		assert.Equal(t, want, TOMLText(text))
	}
}
