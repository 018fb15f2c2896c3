package page

import (
	"strings"
	"testing"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/words"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tableIn is a table of a name and so many columns of figures, so many rows.
func tableIn(columns, rows int, name, figure string) report.Table {
	t := report.Table{Title: "Table", Columns: []report.Column{{Head: "name", Key: "name"}}}
	for range columns {
		t.Columns = append(t.Columns, report.Column{Head: "x", Right: true})
	}
	for range rows {
		row := []report.Cell{{Text: name}}
		for range columns {
			row = append(row, report.Cell{Text: figure})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// Which columns the page shows: none for programs' sake, none with nothing but bars.
func TestColumnsOfThePage(t *testing.T) {
	t.Parallel()
	table := report.Table{Title: "Table", Columns: []report.Column{
		{Head: "step"}, {Head: "min", Long: "minutes of it", Right: true}, {Head: "full", Full: true}, {Head: "bar"}, {Head: "empty"}, {Head: "mark"},
	}, Rows: [][]report.Cell{
		{{Text: "sow"}, {Text: "3"}, {Text: "x"}, {Text: "▇▇"}, {}, {}},
		{{Text: "cut"}, {Text: "4"}, {Text: "y"}, {Text: "▇"}, {}, {Text: "best"}},
	}}
	g := tableOf(table, false, pagePart{})
	var heads []string
	for _, c := range g.Columns {
		heads = append(heads, c.Head)
	}
	assert.Equal(t, []string{"step", "minutes of it", "mark"}, heads)
	assert.Equal(t, [][]string{{"sow", "3", ""}, {"cut", "4", "best"}}, g.Rows)
	assert.Equal(t, "min", table.Columns[1].Head, "the answer's own is left as it is")
}

// What of a table is folded, stacked or scrolled, by its size and where it stands.
func TestHowTablesAreShown(t *testing.T) {
	t.Parallel()
	figure := pagePart{Figure: &plots.Figure{}}
	for _, c := range []struct {
		name                    string
		columns, rows           int
		tucked                  bool
		part                    pagePart
		folded, narrow, stacked bool
		scrolls                 bool
	}{
		{"small", 2, 3, false, pagePart{}, false, false, false, false},
		{"tucked", 2, 3, true, pagePart{}, true, false, false, false},
		{"as long as stands open", 2, 14, false, pagePart{}, false, false, false, false},
		{"long", 2, 15, false, pagePart{}, true, false, false, false},
		{"wide for a phone", 3, 5, false, pagePart{}, false, false, true, false},
		{"wide for a phone, and longer", 3, 6, false, pagePart{}, true, true, true, false},
		{"wide for a phone, and long", 3, 15, false, pagePart{}, true, false, true, false},
		{"wide beside a figure", 6, 3, false, figure, false, false, true, true},
		{"as wide alone", 6, 3, false, pagePart{}, false, false, true, false},
		{"wide for any page", 9, 3, false, pagePart{}, false, false, true, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := tableOf(tableIn(c.columns, c.rows, "sow", "1.00"), c.tucked, c.part)
			assert.Equal(t, []bool{c.folded, c.narrow, c.stacked, c.scrolls}, []bool{g.Folded, g.Narrow, g.Stacks, g.Scrolls}, "%.0f wide", g.width())
			assert.Equal(t, c.stacked, g.Role("row") == ` role="row"`)
			assert.Equal(t, c.stacked, g.Label(0) == "name")
		})
	}
}

// The width of a table grows with what is in it: words are broken between, figures never.
func TestWidthOfTables(t *testing.T) {
	t.Parallel()
	width := func(name, figure string) float64 {
		return tableOf(tableIn(1, 1, name, figure), false, pagePart{}).width()
	}
	base := width("sow", "1")
	assert.InDelta(t, base, width("sow the seed in trays", "1"), 1e-9, "words of a name are broken between")
	assert.Greater(t, width("Blattgemüseanbauverfahren", "1"), base)
	assert.InDelta(t, width("Blattgemüse", "1"), width("Blattgemüse", "12"), 1e-9, "short figures have room")
	assert.InDelta(t, 7.6*20, width("sow", "12345678901234567890")-width("sow", "1")+60, 1e-9)
	assert.Greater(t, width("種まきと収穫と種まきと収穫", "1"), base, "wide letters are wide")
	long := report.Table{Columns: []report.Column{{Head: "a"}, {Head: "b"}}, Rows: [][]report.Cell{{{Text: "x"}, {Text: strings.Repeat("word ", 20)}}}}
	short := report.Table{Columns: long.Columns, Rows: [][]report.Cell{{{Text: "x"}, {Text: "word"}}}}
	assert.InDelta(t, 240-7.6*4, tableOf(long, false, pagePart{}).width()-tableOf(short, false, pagePart{}).width(), 1e-9)
	assert.True(t, grid{}.Long(strings.Repeat("x", 61)))
	assert.False(t, grid{}.Long(strings.Repeat("x ", 30)))
	assert.True(t, grid{}.Long("a "+strings.Repeat("x", 31)), "a word that is to be broken")
	assert.False(t, grid{}.Long("a "+strings.Repeat("x", 30)))
	assert.True(t, grid{}.Pair("1.25 (1.12–1.38)"))
	assert.False(t, grid{}.Pair("1.12–1.3812"), "11 columns are no pair, whatever the bytes")
	assert.InDelta(t, 8, longestWord("a twowords種 b c"), 2)
}

// A column moved or left out takes its cells with it.
func TestColumnsMoved(t *testing.T) {
	t.Parallel()
	table := report.Table{Title: "T", For: report.Programs, Columns: []report.Column{{Head: "a", Key: "a"}, {Head: "b", Key: "b"}, {Head: "c", Key: "c"}},
		Rows: [][]report.Cell{{{Text: "1"}, {Text: "2"}, {Text: "3"}}, {{Text: "4"}, {Text: "5"}, {Text: "6"}}}}
	texts := func(t report.Table) (all string) {
		for _, c := range t.Columns {
			all += c.Head
		}
		for _, row := range t.Rows {
			all += " "
			for _, cell := range row {
				all += cell.Text
			}
		}
		return all
	}
	assert.Equal(t, "bca 231 564", texts(last(table, "a")))
	assert.Equal(t, "ac 13 46", texts(without(table, "b")))
	assert.Equal(t, "abc 123 456", texts(without(table, "d")))
	assert.Equal(t, "abc 123 456", texts(last(table, "d")))
	assert.Equal(t, "abc 123 456", texts(table))
	assert.Equal(t, "T", without(table, "a").Title)
	assert.Equal(t, report.Programs, without(table, "a").For)
}

func TestParagraphs(t *testing.T) {
	t.Parallel()
	assert.Equal(t, paragraph{Text: "one"}, paragraphOf("one"))
	assert.Equal(t, paragraph{Text: "these:", List: []string{"a", "b"}}, paragraphOf("these:\na\nb"))
	assert.Equal(t, paragraph{List: []string{"a", "b"}}, paragraphOf("a\nb"))
	assert.Equal(t, []string{"c"}, only([]string{"a", "c"}, []string{"a", "b"}))
	assert.Nil(t, only([]string{"a"}, []string{"a"}))
	programs, empty, shown := tableIn(1, 1, "p", "1"), tableIn(1, 0, "e", "1"), tableIn(1, 1, "s", "1")
	programs.For = report.Programs
	assert.Len(t, people([]report.Table{programs, empty, shown}), 1)
	assert.Equal(t, []string{"1 head", "2 heads", "0 heads"}, []string{words.Many(1, "head"), words.Many(2, "head"), words.Many(0, "head")})
}

// Text in a style sheet is a string of CSS whatever it is.
func TestStringsOfCSS(t *testing.T) {
	t.Parallel()
	assert.Equal(t, `"a, B-9"`, cssString("a, B-9"))
	assert.Equal(t, `"\000022\00005c\00000a\00003c\00002f"`, cssString("\"\\\n</"))
	assert.Equal(t, `"\01f331"`, cssString("🌱"))
}

// The page and its Markdown say the same: every sentence and every figure of a table.
func TestMarkdownSaysWhatThePageSays(t *testing.T) {
	t.Parallel()
	w := invented(3)
	w.Notes, w.Settings = []string{"a note"}, []report.Setting{{Name: "wage", Value: "18"}}
	html, md := wordsOf(htmlOf(t, w)), markdownOf(t, w)
	plain := strings.NewReplacer(`\`, "", "&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(md)
	var check func(parts []pagePart)
	check = func(parts []pagePart) {
		for _, p := range parts {
			for _, text := range append(append([]string{p.Title, p.Fold}, p.Notes...), p.Answer...) {
				for _, line := range strings.Split(text, "\n") {
					assert.Contains(t, plain, line)
					assert.Contains(t, strings.Join(strings.Fields(html), " "), strings.Join(strings.Fields(line), " "))
				}
			}
			for _, table := range append(p.Tables, p.More...) {
				assert.Contains(t, plain, table.Title)
			}
			check(p.Parts)
		}
	}
	for _, s := range sections(w) {
		require.NotEmpty(t, s.Parts, s.ID)
		assert.Contains(t, plain, "\n## "+s.Title+"\n")
		check(s.Parts)
	}
	for _, line := range []string{"Quickest for 48 heads: \"way 0\".", "0.50 EUR a head costs (0.40 to 0.60)"} {
		assert.Contains(t, plain, line)
	}
	ids := map[string]bool{}
	for _, s := range sections(w) {
		assert.False(t, ids[s.ID], s.ID)
		ids[s.ID] = true
	}
	assert.Equal(t, 1, strings.Count(htmlOf(t, w), `id="care"`))
	one := markdownOf(t, invented(1))
	assert.Contains(t, one, "\n- 1.25 minutes a head (1.12 to 1.38)\n", "one way alone is not named before its numbers")
}
