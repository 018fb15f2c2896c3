package report

import (
	"strings"
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// Which of two is quicker, from either side: the words follow the sign.
func TestWhichOfTwoIsQuicker(t *testing.T) {
	t.Parallel()
	with := func(p answer.Pair, change func(*answer.Pair)) answer.Pair { change(&p); return p }
	unsure := func(p *answer.Pair) { p.Low, p.High = unknown, unknown }
	for _, c := range []struct {
		name string
		pair answer.Pair
		n    int
		want string
	}{
		{"second", pair(-20, -10), 48, `"B" is quicker than "A" for 48 heads, by 15 minutes, give or take 5.`},
		{"first", pair(10, 30), 1, `"A" is quicker than "B" for 1 head, by 20 minutes, give or take 10.`},
		{"lopsided", with(pair(-20, -10), func(p *answer.Pair) { p.Difference = minutes(-12).Value }), 48,
			`"B" is quicker than "A" for 48 heads, by 12 minutes (somewhere between 10 and 20).`},
		{"touching nothing", pair(0, 20), 48, `No clear difference seen between "A" and "B" for 48 heads: the second may take up to 0 minutes less or up to 20 minutes more.`},
		{"touching nothing from below", pair(-20, 0), 48, `No clear difference seen between "A" and "B" for 48 heads: the second may take up to 20 minutes less or up to 0 minutes more.`},
		{"the same, exactly", pair(0, 0), 48, `"A" and "B" take the same for 48 heads.`},
		{"the same, as far as is known", with(pair(0, 0), unsure), 48, `"A" and "B" take the same for 48 heads, as far as is known.`},
		{"doubt not known", with(pair(6, 6), unsure), 48, `"A" takes 6.0 minutes less than "B" for 48 heads.`},
		{"tips at nothing", with(pair(6, 6), func(p *answer.Pair) { unsure(p); p.TipsAtCV = known(0) }), 48,
			`"A" takes 6.0 minutes less than "B" for 48 heads. Which is quicker hangs on what of a time is setup and what is per unit: it may be either.`},
		{"lacks", with(pair(5, 7), func(p *answer.Pair) { p.Gaps = []string{"weigh", "pack"} }), 48,
			`Which of "A" and "B" is quicker cannot be told: they differ in weigh and pack, not timed. In all that is known "A" takes 6.0 minutes less.`},
		{"lacks and is alike", with(pair(-1, 1), func(p *answer.Pair) { p.Gaps = []string{"weigh"} }), 48,
			`Which of "A" and "B" is quicker cannot be told: they differ in weigh, not timed.`},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, pairSentence(c.pair, c.n)) })
	}
}

// From how many heads on: for each kind of set, whichever of the two is the quicker with
// many heads.
func TestFromHowManyHeads(t *testing.T) {
	t.Parallel()
	type even = answer.BreakEven
	for _, c := range []struct {
		even even
		want string
	}{
		{even{Kind: answer.Interval, Heads: known(90), Low: known(60), High: known(210), Fixed: -9, PerHead: 0.1}, `"A" is quicker from about 90 heads on (somewhere between 60 and 210).`},
		{even{Kind: answer.Interval, Heads: known(90), Low: known(90), High: known(90), Fixed: 9, PerHead: -0.1}, `"B" is quicker from about 90 heads on.`},
		{even{Kind: answer.Interval, Heads: known(0.4), Low: known(0), High: known(8), Fixed: 9, PerHead: -0.1}, `"B" is quicker from about 1 head on (somewhere below 8 heads).`},
		{even{Kind: answer.Interval, Low: known(0), High: known(1), Fixed: 1, PerHead: 4}, `From 2 heads on "A" is quicker; for fewer no clear difference is seen.`},
		{even{Kind: answer.Outside, High: known(110), Fixed: -5, PerHead: 0.001}, `For up to 109 heads "B" is quicker; for more no clear difference is seen.`},
		{even{Kind: answer.Never, Fixed: -3, PerHead: -1}, `It is "B" that is quicker at every number of heads.`},
		{even{Kind: answer.Never, Fixed: 0, PerHead: 1}, `It is "A" that is quicker at every number of heads.`},
		{even{Kind: answer.Never, Fixed: 0, PerHead: -1}, `It is "B" that is quicker at every number of heads.`},
		{even{Heads: known(90), Fixed: -9, PerHead: 0.1}, `As far as can be told, "A" is quicker from about 90 heads on.`},
		{even{}, `As far as can be told, that holds at every number of heads.`},
	} {
		assert.Equal(t, c.want, breakEvenSentence(answer.Pair{A: "A", B: "B", BreakEven: c.even}, 48), "%+v", c.even)
	}
	clear := pair(-20, -10)
	clear.BreakEven = even{Kind: answer.Outside, High: known(30), Fixed: -5, PerHead: 0.001}
	assert.Equal(t, `For up to 29 heads "B" is quicker; for more no clear difference is seen. That is for all numbers of heads together: 48 by themselves show a clear difference.`,
		breakEvenSentence(clear, 48))
	assert.Equal(t, `For up to 29 heads "B" is quicker; for more no clear difference is seen.`, breakEvenSentence(clear, 30), "30 is not beyond 30")
	for _, c := range []struct {
		even    even
		pair    answer.Pair
		n       int
		another string // what so many heads say by themselves, where that is another thing
	}{
		{even{Kind: answer.Everywhere}, pair(1, 3), 12, "12 by themselves show a clear difference."},
		{even{Kind: answer.Everywhere}, pair(-1, 3), 12, ""},
		{even{Kind: answer.Outside, Low: known(18), High: known(23.4)}, pair(1, 3), 24, "24 by themselves show a clear difference."},
		{even{Kind: answer.Outside, Low: known(18), High: known(23.4)}, pair(1, 3), 23, ""},
		{even{Kind: answer.Outside, Low: known(26), High: known(83)}, pair(-1, 3), 48, "48 by themselves show no clear difference."},
		{even{Kind: answer.Outside, High: known(49)}, pair(-1, 3), 48, "48 by themselves show no clear difference."},
		{even{Kind: answer.Interval, Low: known(0), High: known(9)}, pair(1, 3), 1, "1 by itself shows a clear difference."},
		{even{Kind: answer.Interval, Low: known(0), High: known(9)}, pair(-1, 3), 20, "20 by themselves show no clear difference."},
		{even{Kind: answer.Interval, Heads: known(15), Low: known(10), High: known(153)}, pair(1, 3), 24, "24 by themselves show a clear difference."},
		{even{Kind: answer.Interval, Heads: known(15), Low: known(10), High: known(153)}, pair(1, 3), 150, ""}, // it is written so
		{even{Kind: answer.Interval, Heads: known(15), Low: known(10), High: known(25)}, pair(-1, 3), 40, "40 by themselves show no clear difference."},
	} {
		c.pair.BreakEven = c.even
		said := PairWords(c.pair, c.n)
		if c.another == "" {
			assert.NotContains(t, said, "all numbers of heads together", "%+v", c)
		} else {
			assert.True(t, strings.HasSuffix(said, "That is for all numbers of heads together: "+c.another), said)
		}
	}
	never := pair(-1, 1)
	never.BreakEven = even{Kind: answer.Never, Fixed: 1, PerHead: 1}
	assert.Equal(t, "Whichever is quicker is so at every number of heads.", breakEvenSentence(never, 48))
	assert.Equal(t, `"B" is quicker than "A" for 48 heads, by 15 minutes, give or take 5. `+breakEvenSentence(clear, 48), PairWords(clear, 48))
}

// Near the break-even one sentence says both, and only there.
func TestTooClose(t *testing.T) {
	t.Parallel()
	near := pair(-2, 4)
	near.BreakEven = answer.BreakEven{Kind: answer.Interval, Heads: known(45), Low: known(34.4), High: known(58), Fixed: 0.1, PerHead: -0.01}
	assert.Equal(t, `"B" is quicker somewhere above 34 to 58 heads, "A" below that; 40 is too close to call: "B" may take up to 2 minutes less than "A" or up to 4 minutes more.`, PairWords(near, 40))
	near.BreakEven.Low = known(0.3)
	assert.Contains(t, PairWords(near, 48), "somewhere above 1 to 58 heads")
	near.BreakEven.PerHead = 0.01
	assert.Contains(t, PairWords(near, 48), `"A" is quicker somewhere above 1 to 58 heads, "B" below that`)
	for name, change := range map[string]func(*answer.Pair){
		"a step lacks": func(p *answer.Pair) { p.Gaps = []string{"weigh"} }, "no doubt is known": func(p *answer.Pair) { p.Low = unknown },
		"it is clear": func(p *answer.Pair) { p.Low = known(0.001) }, "no head is known": func(p *answer.Pair) { p.BreakEven.Heads = unknown },
		"another kind": func(p *answer.Pair) { p.BreakEven.Kind = answer.Outside }, "the break-even is exact": func(p *answer.Pair) { p.BreakEven.High = p.BreakEven.Low },
	} {
		other := near
		change(&other)
		assert.NotContains(t, PairWords(other, 48), "too close", name)
	}
}
