package report

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"regexp"
	"strings"
	"testing"

	"headhours/timing/study"
	"headhours/timing/words"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// awkward are names as a study may have them: with what terminals, pages, tables and
// spreadsheets act on, wide, long, and of none of these.
var awkward = []string{
	"sow", "", "a|b", "| --- |", "`x`", "*x*", "_x_", "~~x~~", "# x", "[x](y)", "![x](y)", "<b>x</b>", "a & b &lt; c", `a\|b`, "a\nb", "\x1b[31mred", "\u202egnp",
	"=1+1", "+1", "-1", "@x", " =x", "\tx", "a,b", `say "x"`, "種まき", "🌱🌱", "👨‍👩‍👧", "זריעה", strings.Repeat("long", 40), "a\r\nb", "\x00", "'x",
}

// tableOf is a table with a row for each name, a figure and what is left out of short text.
func tableOf(names []string) Table {
	t := Table{Title: "Names", Columns: []Column{{Head: "name", Key: "name"}, {Head: "minutes", Key: "minutes", Right: true}, {Head: "only where there is room", Key: "more", Full: true}, {Head: "bar"}}}
	for i, name := range names {
		t.Rows = append(t.Rows, []Cell{{words.Show(name), name}, {words.Fixed(float64(i), 1), float64(i)}, {"more", i%2 == 0}, {Text: "▇"}})
	}
	return t
}

func TestTablesInText(t *testing.T) {
	t.Parallel()
	assert.Equal(t, []string{
		"name  minutes  bar",
		"sow       0.0  ▇",
		"種ま      1.0  ▇",
		"🌱        2.0  ▇",
	}, textTable(tableOf([]string{"sow", "種ま", "🌱"}), 80), "letters of two columns push nothing aside")
	narrow := textTable(tableOf([]string{"wash the trays of the week"}), 30)
	assert.Equal(t, []string{
		"name              minutes  bar",
		"wash the trays        0.0  ▇",
		"  of the week",
	}, narrow, "a long name goes on below, its figures beside its beginning")
	assert.Equal(t, []string{
		"name            minutes  bar",
		"pneumonoultramicroscopic",
		"                    0.0  ▇",
	}, textTable(tableOf([]string{"pneumonoultramicroscopic"}), 20), "a word that is too long has a line to itself")
	assert.Equal(t, []string{"name  minutes  bar"}, textTable(tableOf(nil), 80))
	assert.Equal(t, "12 ", pad("12", 3, false))
	assert.Equal(t, " 12", pad("12", 3, true))
	assert.Equal(t, "1234", pad("1234", 3, true), "no figure is cut")
}

// A column stands in one place in every row, whatever is in the others.
func TestColumnsOfTextLineUp(t *testing.T) {
	t.Parallel()
	lines := textTable(tableOf(awkward), 60)
	at := -1
	for _, line := range lines[1:] {
		before, _, found := strings.Cut(line, "▇")
		if !found {
			continue
		}
		if at < 0 {
			at = ansi.StringWidth(before)
		}
		assert.Equal(t, at, ansi.StringWidth(before), line)
	}
	assert.Positive(t, at)
}

func TestWrap(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text   string
		width  int
		indent string
		want   string
	}{
		{"", 10, "", ""},
		{"one two", 7, "", "one two"},
		{"one two", 6, "", "one\ntwo"},
		{"one two three", 9, "  ", "one two\n  three"},
		{"one two three", 7, "  ", "one two\n  three"},
		{"  one   two ", 20, "", "one two"},
		{"extraordinary two", 5, "", "extraordinary\ntwo"},
		{"種 まき", 4, "", "種\nまき"}, // two columns each
		{"é é é", 3, "", "é é\né"},
	} {
		assert.Equal(t, c.want, Wrap(c.text, c.width, c.indent), "%q to %d", c.text, c.width)
	}
}

func TestText(t *testing.T) {
	t.Parallel()
	doc := Doc{Title: "Title", Notes: []string{strings.Repeat("note ", 20)}}
	doc.say("a", "first of all", "a block:\none "+strings.Repeat("word ", 20)+"\ntwo")
	doc.show("a", tableOf([]string{"sow"}))
	doc.show("b", Table{Title: "for programs", For: Programs, Columns: []Column{{Head: "x", Key: "x"}}})
	assert.Equal(t, `Title

first of all

a block:
one word word word word word word word word word word word word word word word
  word word word word word
two

Names
name  minutes  bar
sow       0.0  ▇

Notes
- note note note note note note note note note note note note note note note
  note note note note note
`, written(t, "text", doc, nil))
	var coloured strings.Builder
	require.NoError(t, Write(&coloured, "text", doc, nil, Style{Colour: true, Width: 40}))
	for _, part := range []string{bold + "Title" + reset, bold + "Names" + reset, faint + "name  minutes  bar" + reset, bold + "Notes" + reset} {
		assert.Contains(t, coloured.String(), part)
	}
	for _, line := range strings.Split(ansi.Strip(coloured.String()), "\n") {
		assert.LessOrEqual(t, ansi.StringWidth(line), 40)
	}
}

// No name breaks a table of Markdown: every row has the cells of its head, and nothing is
// left that Markdown or HTML would act on.
func TestNoNameBreaksMarkdown(t *testing.T) {
	t.Parallel()
	doc := Of(tableOf(awkward))
	doc.Title, doc.Notes = "<i>|", []string{"# x | y"}
	doc.say("", "*all* <of> it")
	md := written(t, "markdown", doc, nil)
	assert.Contains(t, md, "# &lt;i&gt;\\|\n\n\\*all\\* &lt;of&gt; it\n")
	assert.Contains(t, md, "- \\# x \\| y\n")
	unescaped := regexp.MustCompile(`(?:^|[^\\])(?:\\\\)*\|`)
	rows := 0
	for _, line := range strings.Split(md, "\n") {
		if strings.HasPrefix(line, "|") {
			rows++
			assert.Len(t, unescaped.FindAllString(line, -1), 5, line)
			assert.Equal(t, rows == 2, strings.HasPrefix(line, "|---|"), line)
		}
		assert.NotRegexp(t, `[^\\][*_\x60~\[\]]|<|>|&[^alg#]`, line)
		assert.NotRegexp(t, `[\x00-\x08\x1b\x{202e}\r]`, line)
	}
	assert.Equal(t, len(awkward)+2, rows)
	assert.Contains(t, md, "|---|---:|---|---|\n", "figures stand to the right")
	assert.Contains(t, md, "| a &amp; b &amp;lt; c |", "which is read as it was written")
}

// A spreadsheet gets back what was written, figures to six digits, and runs no name.
func TestCSVReadsBack(t *testing.T) {
	t.Parallel()
	rows, err := csv.NewReader(strings.NewReader(written(t, "csv", Of(tableOf(awkward)), nil))).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, len(awkward)+1)
	assert.Equal(t, []string{"name", "minutes", "more"}, rows[0], "the column without a key is for people")
	for i, name := range awkward {
		row := rows[i+1]
		assert.NotRegexp(t, `^[ ]*=|^[+@\t-]`, row[0])
		want := strings.ReplaceAll(words.ShowCell(name), "\r\n", "\n")
		assert.Equal(t, want, strings.TrimPrefix(row[0], map[bool]string{true: "'"}[name != "" && strings.ContainsAny(strings.TrimLeft(name, " ")[:1], "=+-@\t")]))
		assert.Equal(t, words.Fixed(float64(i), 0), row[1])
		assert.Equal(t, map[bool]string{true: "true", false: "false"}[i%2 == 0], row[2])
	}
	semicolons := csv.NewReader(strings.NewReader(written(t, Semicolons, Of(tableOf(awkward)), nil)))
	semicolons.Comma = ';'
	again, err := semicolons.ReadAll()
	require.NoError(t, err)
	assert.Equal(t, rows, again, "texts stay as they are")
	figures := Table{Columns: []Column{{Head: "a", Key: "a"}, {Head: "b", Key: "b"}, {Head: "c", Key: "c"}, {Head: "d", Key: "d"}},
		Rows: [][]Cell{{{"", 1234.5}, {"", study.Known(-0.25)}, {"", "1.5; 2.5"}, {"", 3}}}}
	assert.Equal(t, "a;b;c;d\r\n1234,5;-0,25;\"1.5; 2.5\";3\r\n", written(t, Semicolons, Of(figures), nil))
	for want, value := range map[string]any{
		"0.123457": 0.12345678, "12": 12, "1234.57": study.Known(1234.5678), "a; b": []string{"a", "b"}, "'=a; b": []string{"=a", "b"}, "'-a": []string{"-a"},
		"-0.5": -0.5, "": nil, "true": true, "1e300": "1e300",
	} {
		assert.Equal(t, want, plain(value))
	}
	assert.Empty(t, plain([]string{}))
	assert.Empty(t, plain([]string(nil)))
}

// CSV is the first table that a spreadsheet may have; of an answer in words alone, nothing.
func TestCSVIsOfOneTable(t *testing.T) {
	t.Parallel()
	var doc Doc
	doc.say("a", "words")
	assert.Empty(t, written(t, "csv", doc, nil))
	people, first, second := tableOf(nil), tableOf([]string{"first"}), tableOf([]string{"second"})
	people.For, first.For = onlyPeople, Programs
	doc.show("b", people)
	doc.show("c", first)
	doc.show("d", second)
	assert.Contains(t, written(t, "csv", doc, nil), "first")
	assert.NotContains(t, written(t, "csv", doc, nil), "second")
	assert.Equal(t, []string{"c", "d"}, doc.TableIDs())
	assert.NotContains(t, written(t, "text", doc, nil), "first", "which is for programs")
	assert.NotContains(t, written(t, "markdown", doc, nil), "first")
}

// JSON says every name as it is, though nothing in it is acted on.
func TestJSONKeepsNames(t *testing.T) {
	t.Parallel()
	names := append([]string{"\U000e0041", "\u200b", "a\u2028b"}, awkward...)
	text := written(t, "json", Doc{}, names)
	assert.NotRegexp(t, `[\x00-\x09\x0b-\x1f\x7f\x{80}-\x{9f}\x{202a}-\x{202e}\x{2066}-\x{2069}\x{e0000}-\x{e007f}]`, text)
	assert.Contains(t, text, `"<b>x</b>"`, "which is JSON, not HTML")
	assert.True(t, strings.HasSuffix(text, "]\n"))
	var back []string
	require.NoError(t, json.Unmarshal([]byte(text), &back))
	assert.Equal(t, names, back)
	assert.Error(t, Write(&strings.Builder{}, "json", Doc{}, func() {}, Style{}))
}

func TestEveryFormatGivesTheErrorOfItsTarget(t *testing.T) {
	t.Parallel()
	for _, format := range Formats {
		assert.ErrorIs(t, Write(noRoom{}, format, Of(tableOf(awkward)), "x", Style{}), errNoRoom, format)
	}
}

var errNoRoom = errors.New("no room left")

type noRoom struct{}

func (noRoom) Write([]byte) (int, error) { return 0, errNoRoom }

func TestSectionsByID(t *testing.T) {
	t.Parallel()
	var doc Doc
	doc.say("a", "one")
	doc.show("b", tableOf(nil))
	doc.say("b", "two", "three")
	doc.say("a", "four")
	assert.Equal(t, []string{"one", "four", "two", "three"}, doc.Words(), "in the order in which sections are begun")
	assert.Len(t, doc.Tables(), 1)
	assert.Equal(t, []string{"two", "three"}, doc.Section("b").Answer)
	assert.Equal(t, Section{ID: "c"}, doc.Section("c"))
	assert.Equal(t, []string{"one", "four"}, doc.Only("c", "a").Words())
	assert.Equal(t, []string{"two", "three"}, doc.Only("b").Words())
	assert.Equal(t, []string{"one", "four"}, doc.Without("b", "c").Words())
	assert.Len(t, doc.Sections, 2, "and nothing is taken out of the answer itself")

	doc.Notes = []string{"n", "two", "m"}
	kept := doc.Notes
	doc.First([]string{"careful", "two"})
	assert.Equal(t, []string{"careful", "two", "one", "four", "two", "three"}, doc.Words())
	assert.Equal(t, []string{"n", "m"}, doc.Notes, "what is said first is no note any more")
	assert.Equal(t, []string{"n", "two", "m"}, kept)
	doc.First(nil)
	assert.Len(t, doc.Sections, 3)
}
