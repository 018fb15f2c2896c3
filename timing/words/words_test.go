package words

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
)

// The unit of a duration changes where its figure would read as another's: 89 seconds are
// not yet minutes, 119 minutes not yet hours.
func TestUnitsOfDurations(t *testing.T) {
	t.Parallel()
	const second = 1.0 / 3600
	for _, c := range []struct {
		hours float64
		want  string
	}{
		{0, "0 seconds"}, {0.004 * second, "0.00 seconds"}, {0.25 * second, "0.25 seconds"}, {1 * second, "1.0 seconds"}, {9.94 * second, "9.9 seconds"},
		{10 * second, "10 seconds"}, {89.4 * second, "89 seconds"}, {89.6 * second, "1.5 minutes"}, {600 * second, "10 minutes"},
		{119.4 / 60, "119 minutes"}, {119.6 / 60, "2.0 hours"}, {9.96, "10.0 hours"}, {10, "10 hours"}, {1e12, "1000000000000 hours"},
		{-0.25, "-15 minutes"}, {-3, "-3.0 hours"},
	} {
		assert.Equal(t, c.want, Duration(c.hours), "%v h", c.hours)
	}
}

// Two times beside each other are in one unit and of one precision.
func TestDurationsAlike(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		a, b  float64 // minutes
		wants [2]string
	}{
		{3, 5, [2]string{"3 minutes", "5 minutes"}}, {0.5, 20, [2]string{"0 minutes", "20 minutes"}}, {20, 1, [2]string{"20 minutes", "1 minute"}},
		{1, 1.4, [2]string{"60 seconds", "84 seconds"}}, {30, 180, [2]string{"0.5 hours", "3.0 hours"}}, {2, 3.8, [2]string{"2.0 minutes", "3.8 minutes"}},
	} {
		a, b := Alike(c.a/60, c.b/60)
		assert.Equal(t, c.wants, [2]string{a, b})
	}
}

func TestNumbersAsTheyAreWritten(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		what, want, got string
	}{
		{"fixed", "0.00", Fixed(-0.004, 2)}, {"fixed", "-0.01", Fixed(-0.006, 2)}, {"fixed", "0", Fixed(-0.4, 0)}, {"fixed", "-1", Fixed(-0.6, 0)},
		{"fixed", "-100", Fixed(-100, 0)}, {"fixed", "1000000000000.0", Fixed(1e12, 1)}, {"fixed", "2", Fixed(1.5, 0)},
		{"count", "0", Count(0)}, {"count", "48", Count(48)}, {"count", "48", Count(48 - 1e-9)}, {"count", "47.9", Count(47.93)}, {"count", "2.5", Count(2.5)},
		{"count", "2.25", Count(2.25)}, {"count", "9.99", Count(9.99)}, {"count", "10.2", Count(10.249)}, {"count", "-3", Count(-3)}, {"count", "-2.5", Count(-2.5)},
		{"count", "0.004", Count(0.004)}, {"count", "0.05", Count(0.05)}, {"count", "1000000000000", Count(1e12)},
		{"number", "0", HeadsAlone(0)}, {"number", "9", HeadsAlone(9.4)}, {"number", "10", HeadsAlone(9.94)}, {"number", "10", HeadsAlone(9.96)}, {"number", "96", HeadsAlone(95.5)},
		{"number", "140", HeadsAlone(142.9)}, {"number", "1500", HeadsAlone(1451)}, {"number", "-140", HeadsAlone(-142.9)},
		{"heads", "0 heads", Heads(0)}, {"heads", "1 head", Heads(0.2)}, {"heads", "1 head", Heads(1.4)}, {"heads", "2 heads", Heads(1.6)}, {"heads", "1200 heads", Heads(1234)},
		{"number3", "12.3", Count3(12.345)}, {"number3", "1230", Count3(1234.5)}, {"number3", "0.0042", Count3(0.0042)}, {"number3", "48", Count3(48)},
		{"share", "0 %", Share(0.004)}, {"share", "50 %", Share(0.495)}, {"share", "100 %", Share(1)},
		{"money", "0.00", Price(0)}, {"money", "1.60", Price(1.6)}, {"money", "0.0125", Price(0.0125)}, {"money", "-2.50", Price(-2.5)}, {"money", "0.000021", Price(0.000021)},
		{"in full", "48", InFull(48)}, {"in full", "0.000001", InFull(1e-6)}, {"in full", "1000000000000000000000", InFull(1e21)}, {"up to", "12.35", UpTo(12.345, 2)}, {"up to", "3", UpTo(3.001, 2)},
		{"digits", "123000", Digits(123456, 3)}, {"digits", "0.00123", Digits(0.0012345, 3)}, {"digits", "13", Digits(12.5, 2)}, {"digits", "2", Digits(2, 4)}, {"digits", "0", Digits(0, 2)},
		{"digits", "0", Digits(math.SmallestNonzeroFloat64, 2)}, {"digits", "NaN", Digits(math.NaN(), 2)},
		{"plain", "0.99", Plain(0.99)}, {"plain", "1.0", Plain(1)}, {"plain", "-12", Plain(-12)}, {"plain", "0.01", Plain(0.0099)}, {"plain", "0.0042", Plain(0.0042)}, {"plain", "1000000", Plain(1e6)},
		{"percent", "95 %", Percent(0.95, 4)}, {"percent", "99.9 %", Percent(0.999, 4)}, {"percent", "0 %", Percent(0, 4)}, {"percent", "86.67 %", Percent(0.86666, 4)},
		{"apart", "14", Apart(14, 12)}, {"apart", "14.0001", Apart(14.0001, 14)}, {"apart", "0.333", Apart(1.0/3, 1)}, {"apart", "99.999999", Apart(99.999999, 100)},
	} {
		assert.Equal(t, c.want, c.got, c.what)
	}
}

func TestDigitsThatAnAmountDeserves(t *testing.T) {
	t.Parallel()
	for half, want := range map[float64]int{0: 2, 0.19: 2, 0.195: 1, 1.94: 1, 1.95: 0, 300: 0} {
		assert.Equal(t, want, Decimals(half), "give or take %v", half)
	}
	for x, want := range map[float64]int{0: 2, 0.99: 2, 1: 1, 9.99: 1, 10: 0, -0.5: 2, -1: 1, -10: 0} {
		assert.Equal(t, want, PlainDecimals(x), "%v", x)
	}
	for x, want := range map[float64]int{0.11: 2, 0: 2, 0.099: 3, -0.00042: 5, 1e-300: maxDecimals} {
		assert.Equal(t, want, Enough(2, x), "%v", x)
	}
	for x, want := range map[float64]int{0.0051: 2, 0.0049: 4, 0: 2, 1e-9: 2} {
		assert.Equal(t, want, Visible(2, x), "%v", x)
	}
	assert.Equal(t, 3, Enough(3, 0.5), "never fewer than asked for")
	assert.InDelta(t, 1230.0, Rounded(1234.5, 3), 1e-9)
	assert.InDelta(t, -0.0012, Rounded(-0.00123, 2), 1e-12)
	assert.Zero(t, Rounded(0, 3))
}

// Lists read alike however long; their names are shown harmless.
func TestListsInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		names             []string
		and, or, was, one string
	}{
		{[]string{"sow"}, "sow", "sow", "was", "1 sow"},
		{[]string{"sow", "cut"}, "sow and cut", "sow or cut", "were", "2 sows"},
		{[]string{"sow", "cut", "pack"}, "sow, cut and pack", "sow, cut or pack", "were", "3 sows"},
		{[]string{"sow", "cut", "pack", "wash"}, "sow, cut, pack and wash", "sow, cut, pack or wash", "were", "4 sows"},
	} {
		assert.Equal(t, c.and, Names(c.names))
		assert.Equal(t, c.or, Or(c.names))
		assert.Equal(t, c.was, Agree(len(c.names), "was", "were"))
		assert.Equal(t, c.one, Many(len(c.names), "sow"))
	}
	assert.Empty(t, Names(nil))
	assert.Empty(t, And(nil))
	assert.Empty(t, Or(nil))
	assert.Equal(t, "a, b and 3 more", UpToMore("a, b", 3))
	assert.Equal(t, "a, b", UpToMore("a, b", 0))
	assert.Equal(t, "0 readings", Many(0, "reading"))
	assert.Equal(t, `\x1b[2J and \u202ecut`, Names([]string{"\x1b[2J", "\u202ecut"}))
	assert.Equal(t, "a\x07 and b", And([]string{"a\x07", "b"}), "what is shown already is joined as it is")
	assert.Equal(t, `"\x1bx"`, Quoted("\x1bx"))
}

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

// A cell of a table keeps what joins letters and breaks lines, and loses what a terminal
// acts on.
func TestShowCell(t *testing.T) {
	for text, want := range map[string]string{
		"a\nb\tc": "a\nb\tc", "a\x1b[2J": `a\x1b[2J`, "s\u202eow": `s\u202eow`, "so\u200bw": "so\u200bw", "a\rb": `a\rb`, "\xff": "\ufffd",
	} {
		assert.Equal(t, want, ShowCell(text))
	}
}

// A noun takes the plural of English; a measure, and what is no word of English, has none.
func TestPlurals(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ one, several string }{
		{"head", "heads"}, {"box", "boxes"}, {"bunch", "bunches"}, {"dish", "dishes"}, {"class", "classes"}, {"tray", "trays"}, {"posy", "posies"}, {"quartz", "quartzes"},
		{"person", "people"}, {"leaf", "leaves"}, {"baby leaf", "baby leaves"}, {"young plant", "young plants"}, {"kg", "kg"}, {"ml", "ml"}, {"m²", "m²"}, {"seeds", "seeds"}, {"pH", "pH"}, {"CO2", "CO2"}, {"250 g", "250 g"}, {"箱", "箱"}, {"", ""},
	} {
		assert.Equal(t, c.several, Plural(c.one))
		if c.one != "person" && c.one != "seeds" && c.one != "quartz" {
			assert.Equal(t, c.one, Singular(c.several))
		}
		assert.Equal(t, "1 "+c.one, Many(1, c.one))
		assert.Equal(t, "1.0 "+c.several, Numbered("1.0", c.one))
	}
	assert.Equal(t, []string{"once", "twice", "3 times"}, []string{Times(1), Times(2), Times(3)})
	assert.Equal(t, []string{"every day", "every 7 days"}, []string{EveryDays(1), EveryDays(7)})
}

// A rune that is not hidden is one that is seen: a space, or graphic and no turn of direction.
func TestHiddenRunes(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		seen := r == ' ' || unicode.IsGraphic(r) && !unicode.Is(unicode.Bidi_Control, r)
		if Hidden(r) == seen {
			t.Fatalf("%U: %v", r, !seen)
		}
	}
}

// What is at most so much is never rounded up.
func TestAtMost(t *testing.T) {
	for x, want := range map[float64]string{
		21848: "21848", 384: "384", 268.8: "268", 26.85: "26.8", 2.999: "2.99", 7 * 3 / 21.0: "1", 1.0 / 30 * 7: "0.233", 100: "100", 1e12 + 1: "1000000000001", 7 * 9 / 7.0: "9",
	} {
		assert.Equal(t, want, AtMost(x), x)
	}
}

// The whole numbers next to a limit that is one, or is one but for rounding, leave it out.
func TestWholeNumbersOfHeads(t *testing.T) {
	for limit, want := range map[float64][2]float64{417.589: {418, 417}, 10: {11, 9}, 10 - 1e-12: {11, 9}, 10 + 1e-12: {11, 9}, 0.35: {1, 0}, 0: {1, -1}} {
		assert.Equal(t, want, [2]float64{FirstHeads(limit), LastHeads(limit)}, limit)
	}
	assert.Equal(t, "1 head", WholeHeads(1))
	assert.Equal(t, "12345 heads", WholeHeads(12345))
}
