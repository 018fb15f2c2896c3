package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

func TestDurationWithin(t *testing.T) {
	known, unknown := study.Known, study.Maybe{}
	for _, c := range []struct {
		hours     float64
		low, high study.Maybe
		want      string
	}{
		{61.0 / 60, known(57.0 / 60), known(65.0 / 60), "61 minutes, give or take 4"},
		{61.0 / 60, unknown, unknown, "61 minutes"},
		{61.0 / 60, known(55.0 / 60), known(70.0 / 60), "61 minutes (somewhere between 55 and 70)"},
		{20.0 / 3600, known(18.0 / 3600), known(22.0 / 3600), "20 seconds, give or take 2"},
		{2.4, known(2.1), known(2.7), "2.4 hours, give or take 0.3"},
		{1.0 / 60, unknown, unknown, "60 seconds"},
		{33.0 / 60, known(-20.0 / 60), known(86.0 / 60), "33 minutes, on so few readings that it may be anything up to 86"},
		{10.0 / 60, known(10.0 / 60), known(10.0 / 60), "10 minutes"},
		{120, known(90), known(150), "120 hours, give or take 30"},
		{6.1 / 60, known(0.2 / 60), known(12.0 / 60), "6.1 minutes, give or take 5.9"},
		{6.0 / 60, known(0.0 / 60), known(12.0 / 60), "6 minutes, give or take 6"},
	} {
		assert.Equal(t, c.want, durationWithin(c.hours, c.low, c.high))
	}
	assert.Equal(t, "2.1 minutes a grow, give or take 0.2", durationWithin(2.1/60, known(1.9/60), known(2.3/60), "a grow"))
}

func TestWords(t *testing.T) {
	assert.Equal(t, "a, b and c", words.Names([]string{"a", "b", "c"}))
	assert.Equal(t, "1 head", words.Heads(1.2))
	assert.Equal(t, "140 heads", words.Heads(142.9))
	assert.Equal(t, "0", words.Fixed(-0.004, 2)[:1])
	assert.Equal(t, "48", words.Count(48.000000000001))
	assert.Equal(t, "0.5", words.Count(0.5))
}

// Control characters, terminal escapes and marks that turn text round are shown
// as escapes, wherever a name is shown.
func TestNamesAreShownHarmless(t *testing.T) {
	for name, want := range map[string]string{
		"sow":             "sow",
		"se\u00e9 \u4e2d": "se\u00e9 \u4e2d",
		"\x1b[2Jsow":      `\x1b[2Jsow`,
		"a\tb\nc":         `a\tb\nc`,
		"\u202egnp.exe":   `\u202egnp.exe`,
		"\u2066x\u2069":   `\u2066x\u2069`,
		"\x00":            `\x00`,
	} {
		assert.Equal(t, want, words.Show(name))
	}
}

func hostile() answer.Comparison {
	const step, way = "=1+1", "<b>x</b> | \x1b[31m_red_\u202e\u009b\U000e0041"
	return answer.Comparison{
		Heads: 10, Confidence: 0.95, Notes: []string{},
		Workflows: []answer.Hours{{
			Workflow: way, Hours: 1, Gaps: []string{"@gap"},
			Steps: []answer.StepHours{{Step: step, Visits: 1, Setups: 1, Count: 10, Hours: study.Known(1), Share: study.Known(1)}},
			Rests: answer.Basis{Timed: []string{step}},
		}},
	}
}

func written(t *testing.T, format string, doc Doc, value any) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, format, doc, value, Style{}))
	return b.String()
}

func TestHostileNames(t *testing.T) {
	c := hostile()
	doc := Compare(c)
	text := written(t, "text", doc, c)
	assert.NotContains(t, text, "\x1b")
	md := written(t, "markdown", doc, c)
	assert.NotContains(t, md, "<b>")
	assert.NotContains(t, md, "\x1b")
	rows, err := csv.NewReader(strings.NewReader(written(t, "csv", doc, c))).ReadAll()
	require.NoError(t, err)
	assert.NotRegexp(t, `[\x1b\x{202e}\x{9b}]`, written(t, "csv", doc, c))
	assert.NotRegexp(t, `[\x1b\x{202e}\x{9b}\x{e0041}]`, written(t, "json", doc, c))
	for _, row := range rows {
		for _, cell := range row {
			assert.NotRegexp(t, `^[=+@-]`, cell)
		}
	}
	var back answer.Comparison
	require.NoError(t, json.Unmarshal([]byte(written(t, "json", doc, c)), &back))
	assert.Equal(t, c.Workflows[0].Workflow, back.Workflows[0].Workflow)
}

// Negative numbers are numbers in CSV, not text made safe.
func TestCSVKeepsNegativeNumbers(t *testing.T) {
	assert.Equal(t, "-0.25", plain(-0.25))
	assert.Equal(t, "-0.25", plain(study.Known(-0.25)))
	assert.Equal(t, "'-x", plain("-x"))
	assert.Equal(t, "sow \U0001f468\u200d\U0001f33e, in\ntwo", plain("sow \U0001f468\u200d\U0001f33e, in\ntwo"))
	assert.Equal(t, `\x1b[2J\u202e`, plain("\x1b[2J\u202e"))
	assert.Equal(t, "' =x", plain(" =x"))
	assert.Equal(t, "", plain(study.Maybe{}))
}

func TestTextKeepsToItsWidth(t *testing.T) {
	c := answer.Comparison{Heads: 48, Notes: []string{strings.Repeat("word ", 60)}}
	for i := range 5 {
		c.Workflows = append(c.Workflows, answer.Hours{
			Workflow: fmt.Sprintf("a rather long name of a way, number %d", i), Hours: 1.2,
			Rests: answer.Basis{Timed: []string{"x"}},
			Steps: []answer.StepHours{{Step: "a step with quite a long name indeed, as some have", Hours: study.Known(1.2)}},
		})
	}
	for _, line := range strings.Split(written(t, "text", Compare(c), c), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%q", line)
	}
}

func TestColourOnlyWhenAsked(t *testing.T) {
	c := hostile()
	var plain, coloured bytes.Buffer
	require.NoError(t, Write(&plain, "text", Compare(c), c, Style{}))
	require.NoError(t, Write(&coloured, "text", Compare(c), c, Style{Colour: true}))
	assert.NotContains(t, plain.String(), "\x1b[")
	assert.Contains(t, coloured.String(), bold)
}

func pair(low, high float64) answer.Pair {
	return answer.Pair{A: "A", B: "B", Difference: (low + high) / 2 / 60, Low: study.Known(low / 60), High: study.Known(high / 60)}
}

func TestPairSentence(t *testing.T) {
	unknown := pair(-6, -6)
	unknown.Low, unknown.High, unknown.TipsAtCV = study.Maybe{}, study.Maybe{}, study.Known(0.07)
	gap := pair(-8, -4)
	gap.Gaps = []string{"cover"}
	for want, p := range map[string]answer.Pair{
		`"B" is quicker than "A" for 48 heads, by 6 minutes, give or take 2.`:                                                                         pair(-8, -4),
		`"A" is quicker than "B" for 48 heads, by 6 minutes, give or take 2.`:                                                                         pair(4, 8),
		`No clear difference seen between "A" and "B" for 48 heads: the second may take up to 3 minutes less or up to 5 minutes more.`:                pair(-3, 5),
		`"B" takes 6.0 minutes less than "A" for 48 heads. If the same job done again varies by more than 7 %, that is no longer a clear difference.`: unknown,
		`Which of "A" and "B" is quicker cannot be told: they differ in cover, not timed. In all that is known "B" takes 6.0 minutes less.`:           gap,
	} {
		assert.Equal(t, want, pairSentence(p, 48))
	}
}

func TestBreakEvenSentence(t *testing.T) {
	known := study.Known
	for want, e := range map[string]answer.BreakEven{
		`"B" is quicker from about 90 heads on (somewhere between 60 and 210).`:     {Kind: answer.Interval, Heads: known(90), Low: known(60), High: known(210), Fixed: 9, PerHead: -0.1},
		`"B" is quicker from about 2 heads on (somewhere below 8 heads).`:           {Kind: answer.Interval, Heads: known(2), Low: known(0), High: known(8), Fixed: 9, PerHead: -4},
		`From 13 heads on "B" is quicker; for fewer no clear difference is seen.`:   {Kind: answer.Interval, Low: known(0), High: known(12), Fixed: -1, PerHead: -4},
		`It is "A" that is quicker at every number of heads.`:                       {Kind: answer.Never, Fixed: 3, PerHead: 1},
		`No number of heads shows a clear difference.`:                              {Kind: answer.Everywhere},
		`For up to 109 heads "A" is quicker; for more no clear difference is seen.`: {Kind: answer.Outside, High: known(110), Fixed: 5, PerHead: -0.001},
		`A clear difference is seen only from 21 to 49 heads.`:                      {Kind: answer.Outside, Low: known(20), High: known(50)},
		`For up to 417 heads "A" is quicker; for more no clear difference is seen.`: {Kind: answer.Outside, High: known(417.589), Fixed: 5, PerHead: -0.001},
		`From 2 heads on "A" is quicker; for fewer no clear difference is seen.`:    {Kind: answer.Interval, Low: known(0), High: known(1.478), PerHead: 1},
		`A clear difference is seen only for 5 heads.`:                              {Kind: answer.Outside, Low: known(4.2), High: known(5.5)},
		`As far as can be told, "B" is quicker from about 90 heads on.`:             {Heads: known(90), Fixed: 9, PerHead: -0.1},
	} {
		assert.Equal(t, want, breakEvenSentence(answer.Pair{A: "A", B: "B", BreakEven: e}, 48))
	}
	for e, want := range map[answer.BreakEven]string{ // limits below one head
		{Kind: answer.Interval, Low: known(0), High: known(0.352), PerHead: 1}: `It is "A" that is quicker at every number of heads.`,
		{Kind: answer.Outside, Low: known(0.0617), High: known(0.396)}:         "No number of heads shows a clear difference.",
	} {
		assert.Equal(t, want, breakEvenSentence(answer.Pair{A: "A", B: "B", BreakEven: e}, 48))
	}
}

func TestUnlikeStepsOnce(t *testing.T) {
	t.Parallel()
	pair := func(a, b string, steps ...answer.SameWork) answer.Pair {
		return answer.Pair{A: a, B: b, AssumedSame: steps}
	}
	step := func(name string, a, b float64, unlike bool) answer.SameWork {
		return answer.SameWork{Step: name, AUnit: study.Known(a), BUnit: study.Known(b), AReadings: 2, BReadings: 3, Unlike: unlike}
	}
	assert.Empty(t, unlikeNote(nil))
	assert.Empty(t, unlikeNote([]answer.Pair{pair("a", "b", step("sow", 1, 2, false))}))
	note := unlikeNote([]answer.Pair{
		pair("a", "b", step("sow", 4, 5, true), step("cut", 20, 30, true)), pair("a", "c", step("sow", 4, 8, true)), pair("b", "c", step("sow", 5, 8, false)),
	})
	assert.Equal(t, `counted as the same work, though timings differ: sow (4.0 s in "a", 8.0 s in "c"; 2 and 3 readings; in 2 pairs of ways); `+
		`cut (20 s in "a", 30 s in "b"; 2 and 3 readings). What is not the same work needs another name`, note)
	var many []answer.SameWork
	for _, name := range []string{"p", "q", "r", "s", "t", "u"} {
		many = append(many, step(name, 1, 3, true))
	}
	assert.Contains(t, unlikeNote([]answer.Pair{pair("a", "b", many...)}), `; 2 more steps.`)
}

func TestEnoughDigits(t *testing.T) {
	t.Parallel()
	known := study.Known
	for _, c := range []struct {
		want    int
		amounts []study.Maybe
	}{
		{2, nil}, {2, []study.Maybe{known(0), {}}}, {2, []study.Maybe{known(1.234)}}, {2, []study.Maybe{known(0.1)}},
		{3, []study.Maybe{known(0.042)}}, {4, []study.Maybe{known(-0.0042), known(3)}}, {7, []study.Maybe{known(1e-12)}},
	} {
		assert.Equal(t, c.want, enough(2, c.amounts...), c.amounts)
	}
	assert.Equal(t, 2, visible(2, known(0.042), known(0)), "it shows something as it is")
	assert.Equal(t, 4, visible(2, known(0.0042)))
}

func TestUnitsInWords(t *testing.T) {
	t.Parallel()
	for want, c := range map[string]struct {
		n    float64
		unit string
	}{
		"1 bag": {1, "bag"}, "41.8 bags": {41.8, "bag"}, "2 boxes": {2, "box"}, "0 bunches": {0, "bunch"}, "3 trays": {3, "tray"},
		"2 pastries": {2, "pastry"}, "2 × 250 g": {2, "250 g"}, "2 × лук": {2, "лук"},
	} {
		assert.Equal(t, want, unitsOf(c.n, c.unit))
	}
	for unit, want := range map[string]string{"bag": "a bag", "armful": "an armful", "250 g": "a unit of 250 g", "": "a unit of "} {
		assert.Equal(t, want, aUnit(unit))
	}
}

func TestNumbersApart(t *testing.T) {
	t.Parallel()
	for want, c := range map[string][2]float64{"14": {14, 14}, "15.2": {15.23, 14}, "14.04": {14.036, 14}, "0.998": {0.998, 1}, "3.63": {3.6281, 1}} {
		assert.Equal(t, want, words.Apart(c[0], c[1]))
	}
}
