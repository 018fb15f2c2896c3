package report

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"
)

// An interval is "give or take" where its arms are alike, a range where they are not, and
// it never gives more digits than it supports.
func TestDoubtOfDurations(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		mean, low, high float64 // minutes
		want            string
	}{
		{30, 25, 35, "30 minutes, give or take 5"},
		{30, 28.1, 31.9, "30.0 minutes, give or take 1.9"}, // half below 1.95
		{30, 28, 32, "30 minutes, give or take 2"},         // and not below
		{30, 29.81, 30.19, "30.00 minutes, give or take 0.19"},
		{30, 29.8, 30.2, "30.0 minutes, give or take 0.2"},
		{30, 29.999, 30.001, "30.00 minutes, give or take less than 0.01"},
		{30, 20, 41, "30 minutes, give or take 10"}, // arms of 10 and 11: just alike
		{30, 20, 41.5, "30 minutes (somewhere between 20 and 42)"},
		{30, 18, 40, "30 minutes (somewhere between 18 and 40)"},
		{30, 0, 60, "30 minutes, give or take 30"}, // 0 is no time below nothing
		{6.4, 0, 13.3, "6 minutes (anything up to 13)"},
		{30, -1, 61, "30 minutes, on so few readings that it may be anything up to 61"},
		{30, -1, 30.1, "30 minutes, on so few readings that it may be anything up to 30"},
		{-30, -40, -20, "-30 minutes, give or take 10"},
		{30, 30, 30, "30 minutes"},
		{0, 0, 0, "0.00 seconds"},
		{150, 130, 170, "2.5 hours, give or take 0.3"},
		{1, 0.5, 1.5, "60 seconds, give or take 30"},
	} {
		assert.Equal(t, c.want, durationWithin(c.mean/60, minutes(c.low), minutes(c.high)), "%v", c)
	}
	assert.Equal(t, "30 minutes a grow", durationWithin(0.5, unknown, unknown, "a grow"))
	assert.Equal(t, "30 minutes a grow", durationWithin(0.5, minutes(30), minutes(30), "a grow"))
	assert.Equal(t, "30 minutes more a grow (somewhere between 20 and 42)", durationWithin(0.5, minutes(20), minutes(41.5), "more", "a grow"))
	assert.Equal(t, "30 minutes a grow (anything up to 70)", durationWithin(0.5, minutes(0), minutes(70), "a grow"), "cut off at nothing")
	assert.Equal(t, "30 minutes a grow, on so few readings that it may be anything up to 70", durationWithin(0.5, minutes(-10), minutes(70), "a grow"))
}

// A sentence may begin with a name, in any alphabet.
func TestCapitals(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{"": "", "sow": "Sow", "éclaircir": "Éclaircir", "ölen": "Ölen", "лук": "Лук", "種まき": "種まき", "🌱 sow": "🌱 sow", "2 cuts": "2 cuts", "ǆ": "Ǆ"} {
		assert.Equal(t, want, words.Capital(text))
	}
	assert.Equal(t, "a week, The", words.Uncapital("A week, The"))
	in := improvementOf(0)
	in.Steps[0].Step = "éclaircir"
	assert.Equal(t, "Éclaircir takes 50 % of the 100 minutes.", largestSentence(in))
}

// Units of what is sold take a plural where they are words, and none where they are weights.
func TestPluralsOfUnits(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ unit, one, several string }{
		{"head", "1 head", "3 heads"}, {"box", "1 box", "3 boxes"}, {"bunch", "1 bunch", "3 bunches"}, {"dish", "1 dish", "3 dishes"}, {"class", "1 class", "3 classes"},
		{"tray", "1 tray", "3 trays"}, {"key", "1 key", "3 keys"}, {"toy", "1 toy", "3 toys"}, {"posy", "1 posy", "3 posies"}, {"quartz", "1 quartz", "3 quartzes"},
		{"kg", "1 kg", "3 kg"}, {"lb", "1 lb", "3 lb"}, {"g", "1 g", "3 g"}, {"oz", "1 oz", "3 oz"},
		{"250 g", "1 × 250 g", "3 × 250 g"}, {"ящик", "1 × ящик", "3 × ящик"}, {"箱", "1 × 箱", "3 × 箱"}, {"bag\x1b", `1 × bag\x1b`, `3 × bag\x1b`}, {"", "1 × ", "3 × "},
	} {
		assert.Equal(t, c.one, unitsOf(1, c.unit))
		assert.Equal(t, c.several, unitsOf(3, c.unit))
	}
	for unit, want := range map[string]string{"egg": "an egg", "Iris": "an Iris", "ounce": "an ounce", "unit": "a unit", "box": "a box", "kg": "a kg", "箱": "a unit of 箱", "1 kg": "a unit of 1 kg"} {
		assert.Equal(t, want, aUnit(unit))
	}
}

func TestWayLetters(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for i := range 80 {
		letter := workflowLetter(i)
		assert.False(t, seen[letter], "%s stands for two ways", letter)
		seen[letter] = true
	}
	assert.Equal(t, []string{"A", "Z", "A1", "B1", "A2"}, []string{workflowLetter(0), workflowLetter(25), workflowLetter(26), workflowLetter(27), workflowLetter(52)})
}

// What is not known is never shown as a figure, least of all 0, in any cell.
func TestUnknownIsNoFigure(t *testing.T) {
	t.Parallel()
	none := study.Maybe{Value: 7} // a value that nobody knows is left over
	for what, cell := range map[string]Cell{
		"maybe": maybe(none, 2), "seconds": seconds(none), "a range of seconds": secondsRange(none, none), "full": full(none), "a range": rangeCell(none, none, 2),
		"break-even": breakEvenCell(breakEvenWithout("")), "no count": voidedCount(none), "no text": textOr(nil), "no number": wholeOr(nil, "once"),
	} {
		assert.NotRegexp(t, `[0-9]`, cell.Text, what)
		assert.Empty(t, plain(cell.Value), what)
	}
	assert.Equal(t, "?", dashed(none, none, 2))
	assert.Empty(t, between(none, none, 2))
	assert.Empty(t, somewhere(none, none))
	assert.Equal(t, "≥ 3", atLeast([]string{"sow"}, "3"))
	assert.Equal(t, "≤ 3", atMost([]string{"sow"}, "3"))
	assert.Equal(t, "?", atLeast([]string{"sow"}, "?"), "at least something unknown says nothing")
	assert.Equal(t, "?", atMost([]string{"sow"}, "?"))
	assert.Equal(t, "3", atLeast(nil, "3"))
	assert.Equal(t, "3", atMost([]string{}, "3"))
}

func TestRangesInCells(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "1.20–3.40", dashed(known(1.2), known(3.4), 2))
	assert.Equal(t, "0.00–3.40", dashed(known(0), known(3.4), 2))
	assert.Equal(t, "-1.20 to 3.40", dashed(known(-1.2), known(3.4), 2))
	assert.Equal(t, " (1–3)", between(known(1.2), known(3.4), 0))
	assert.Empty(t, between(known(1.2), known(1.2), 2), "no doubt is no range")
	assert.Equal(t, "12 s", seconds(known(12.3)).Text)
	assert.Equal(t, "1.2 s", seconds(known(1.23)).Text)
	assert.Equal(t, "0.0042 s", seconds(known(0.0042)).Text, "a time is not 0.00")
	assert.Equal(t, "0.00 s", seconds(known(0)).Text)
	assert.Equal(t, "0.0031–0.0053", secondsRange(known(0.0031), known(0.0053)).Text)
	assert.Equal(t, "72–108", secondsRange(known(72), known(108)).Text)
	assert.Equal(t, " (somewhere between 0.10 and 0.20)", somewhere(known(0.1), known(0.2)))
	assert.Equal(t, " (somewhere between -0.0020 and 0.0030)", somewhere(known(-0.002), known(0.003)))
	assert.Empty(t, somewhere(unknown, known(3)))
	assert.Empty(t, somewhere(known(0.101), known(0.102)), "which is no range as it is written")
}

func TestBarsAreOfEight(t *testing.T) {
	t.Parallel()
	for x := range 17 {
		bar := bar(float64(x), 16)
		assert.Len(t, []rune(bar), (x+1)/2, fmt.Sprint(x))
		assert.Empty(t, strings.Trim(bar, "▇"))
	}
}

func breakEvenWithout(kind answer.BreakEvenKind) answer.BreakEven {
	return answer.BreakEven{Kind: kind}
}

func TestBreakEvenCells(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "140", breakEvenCell(answer.BreakEven{Kind: answer.Interval, Heads: known(142)}).Text)
	assert.Equal(t, "none", breakEvenCell(breakEvenWithout(answer.Never)).Text)
	assert.Equal(t, "?", breakEvenCell(breakEvenWithout("")).Text)
	assert.Equal(t, "-", breakEvenCell(breakEvenWithout(answer.Everywhere)).Text)
	assert.Equal(t, "140", breakEvenCell(answer.BreakEven{Heads: known(142)}).Text, "as far as can be told")
}

func TestDecimalsOfSeveralAmounts(t *testing.T) {
	t.Parallel()
	assert.Equal(t, 2, enough(2, known(0.11), known(0), unknown))
	assert.Equal(t, 3, enough(2, known(0.099), known(0.5)))
	assert.Equal(t, 5, enough(2, known(-0.00042)))
	assert.Equal(t, 3, enough(3, known(0.5)), "never fewer than asked for")
	assert.Equal(t, 2, visible(2, known(0.0051)), "0.01 shows something of it")
	assert.Equal(t, 4, visible(2, known(0.0049)))
	assert.Equal(t, 4, visible(2, known(0.0049), known(5)))
	assert.Equal(t, 2, visible(2, unknown, known(0)))
}

func TestDigitsOfSpreadsheets(t *testing.T) {
	t.Parallel()
	for want, x := range map[string]float64{"1234567": 1234567, "1234570": 1234567.8, "0.00123457": 0.00123456789, "-0.333333": -1.0 / 3, "1000000000000": 1e12} {
		assert.Equal(t, want, knownDigits(x))
	}
}

func TestUnion(t *testing.T) {
	assert.Equal(t, []string{"a", "b", "c"}, union([]string{"a", "b"}, []string{"b", "c", "c"}))
}

// A chance too small for its decimals is not shown as none.
func TestChance(t *testing.T) {
	t.Parallel()
	for want, p := range map[string]study.Maybe{
		"?": unknown, "0.0500": known(0.05), "0.0001": known(0.00005), "below 0.0001": known(0.000049), "1.0000": known(1),
	} {
		assert.Equal(t, want, chance(p).Text)
		assert.Equal(t, p, chance(p).Value)
	}
}
