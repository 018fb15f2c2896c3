package study

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestShow(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "sow Möhren": "sow Möhren", "a\x1b[2J\n": `a\x1b[2J\n`, "s\u202eow\u2066": `s\u202eow\u2066`, "1\u202f000": "1\u202f000",
		"so\u200bw": `so\u200bw`, "it's": "it's", "\xff": "\ufffd",
	} {
		assert.Equal(t, want, Show(text))
	}
}

func TestQuote(t *testing.T) {
	assert.Equal(t, `"s\u202e"`, Quote("s\u202e"))
	assert.Equal(t, `"`+strings.Repeat("ö", 60)+`"`, Quote(strings.Repeat("ö", 60)))
	assert.Equal(t, `"`+strings.Repeat("ö", 60)+`…"`, Quote(strings.Repeat("ö", 61)))
	assert.Equal(t, `a\x1b`+strings.Repeat("x", 238)+"…", Cause(errors.New("a\x1b"+strings.Repeat("x", 1000))))
}

func TestQuoteList(t *testing.T) {
	assert.Equal(t, ``, QuoteList(nil, 2))
	assert.Equal(t, `"a", "b"`, QuoteList([]string{"a", "b"}, 2))
	assert.Equal(t, `"a", "b" and 2 more`, QuoteList([]string{"a", "b", "c", "d"}, 2))
}

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

// A cell of a table keeps what joins letters and breaks lines, and loses what a terminal
// acts on.
func TestShowCell(t *testing.T) {
	for text, want := range map[string]string{
		"a\nb\tc": "a\nb\tc", "a\x1b[2J": `a\x1b[2J`, "s\u202eow": `s\u202eow`, "so\u200bw": "so\u200bw", "a\rb": `a\rb`, "\xff": "\ufffd",
	} {
		assert.Equal(t, want, ShowCell(text))
	}
}
