package report

import (
	"fmt"
	"strings"
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Which way is named quickest, and in which words, by how clear the pairs are.
func TestWhichIsQuickest(t *testing.T) {
	t.Parallel()
	tie := func(p *answer.Pair) { p.Low = known(-1) }
	unsure := func(p *answer.Pair) { p.Low, p.High = unknown, unknown }
	lacks := func(names ...string) func(*answer.Pair) { return func(p *answer.Pair) { p.Gaps = names } }
	for _, c := range []struct {
		name   string
		change func(c *answer.Comparison)
		want   string
	}{
		{"clear", func(c *answer.Comparison) {}, `Quickest for 48 heads: "tray".`},
		{"a tie of the quickest two", func(c *answer.Comparison) { tie(&c.Pairs[0]) }, `Quickest for 48 heads: "tray" or "in place"; no clear difference between them.`},
		{"a tie of three", func(c *answer.Comparison) { tie(&c.Pairs[0]); tie(&c.Pairs[1]) }, `Quickest for 48 heads: "tray", "in place" or "raft"; no clear difference between them.`},
		{"a tie of slower ones", func(c *answer.Comparison) { tie(&c.Pairs[2]) }, `Quickest for 48 heads: "tray".`},
		{"doubt not known", func(c *answer.Comparison) { unsure(&c.Pairs[1]) }, `Shortest for 48 heads, as far as can be told: "tray".`},
		{"doubt of slower ones not known", func(c *answer.Comparison) { unsure(&c.Pairs[2]) }, `Quickest for 48 heads: "tray".`},
		{"one step lacks", func(c *answer.Comparison) { lacks("weigh")(&c.Pairs[0]) }, `Which is quickest for 48 heads cannot be told yet: weigh was not timed, and not all need as much of it.`},
		{"two steps lack", func(c *answer.Comparison) { lacks("weigh")(&c.Pairs[0]); lacks("weigh", "pack")(&c.Pairs[1]) },
			`Which is quickest for 48 heads cannot be told yet: weigh and pack were not timed, and not all need as much of them.`},
		{"the last is the quickest", func(c *answer.Comparison) { c.Workflows[2].Hours = 0.5; tie(&c.Pairs[1]) }, `Quickest for 48 heads: "raft" or "tray"; no clear difference between them.`},
		{"nothing was timed", func(c *answer.Comparison) {
			for i := range c.Workflows {
				c.Workflows[i].Rests = answer.Basis{}
			}
		}, `Nothing that these ways need was timed or judged yet.`},
	} {
		t.Run(c.name, func(t *testing.T) {
			three := comparisonOf(3)
			c.change(&three)
			assert.Equal(t, []string{c.want}, Compare(three).Section("lead").Answer)
		})
	}
	assert.Empty(t, Compare(comparisonOf(1)).Section("lead").Answer, "one way is not the quickest of any")
}

// Ways are compared within a crop, and each crop is named.
func TestQuickestOfEachCrop(t *testing.T) {
	t.Parallel()
	four := comparisonOf(4)
	for i, crop := range []string{"lettuce", "lettuce", "basil", "basil"} {
		four.Workflows[i].Gives.Crop = crop
	}
	for i := range four.Pairs {
		p := &four.Pairs[i]
		p.OtherCrop = (p.A == "tray" || p.A == "in place") != (p.B == "tray" || p.B == "in place")
	}
	doc := Compare(four)
	assert.Equal(t, []string{`Quickest for 48 heads of "lettuce": "tray".`, `Quickest for 48 heads of "basil": "raft".`}, doc.Section("lead").Answer)
	assert.Len(t, doc.Section("pairs").Answer, 2, "a pair of each crop")
	assert.Equal(t, Programs, doc.Section("pairs").Table.For)
	assert.Len(t, doc.Section("pairs").Table.Rows, 6, "programs have all pairs")
	assert.Equal(t, onlyPeople, doc.Section("of one crop").Table.For)
	assert.Len(t, doc.Section("of one crop").Table.Rows, 2)
	assert.Empty(t, doc.Section("others").Answer)

	two := comparisonOf(2)
	two.Workflows[0].Gives.Crop, two.Workflows[1].Gives.Crop, two.Pairs[0].OtherCrop = "lettuce", "basil", true
	doc = Compare(two)
	assert.Equal(t, []string{"Ways of different crops are not compared: each crop has but one."}, doc.Section("lead").Answer)
	assert.Empty(t, doc.Section("pairs").Answer)
	assert.Nil(t, doc.Section("of one crop").Table)
}

func TestTitleSaysWhatAGrowBeginsWith(t *testing.T) {
	t.Parallel()
	for i, want := range []string{"48 heads, seed to harvest", "48 heads, seed or young plant to harvest", "48 heads, young plant to harvest"} {
		two := comparisonOf(2)
		for j := range i {
			two.Workflows[j].Gives.Bought = true
		}
		assert.Equal(t, want, Compare(two).Title)
	}
	one := comparisonOf(1)
	one.Heads = 1
	assert.Equal(t, "1 head, seed to harvest", Compare(one).Title)
	assert.Equal(t, []string{"1 head takes 60 minutes, give or take 6."}, Compare(one).Section("hours").Answer)
}

// Of three ways all pairs are in words, of four only those with the quickest.
func TestPairsSpelledOut(t *testing.T) {
	t.Parallel()
	for n, want := range map[int]int{1: 0, 2: 1, 3: 3, 4: 3} {
		doc := Compare(comparisonOf(n))
		assert.Len(t, doc.Section("pairs").Answer, want, "%d ways", n)
		assert.Equal(t, n > 3, len(doc.Section("others").Answer) > 0, "%d ways", n)
		assert.Equal(t, n > 1, doc.Section("pairs").Table != nil, "%d ways", n)
		assert.Equal(t, n > 1, doc.Section("hours").Table != nil, "%d ways", n)
	}
	fifth := comparisonOf(4)
	fifth.Workflows[3].Hours = 0.1
	for _, words := range Compare(fifth).Section("pairs").Answer {
		assert.Contains(t, words, `"two trays"`, "which is the quickest now")
	}
}

// What a line of hours says of gaps, judged times, and steps timed once.
func TestRemarksOnHours(t *testing.T) {
	t.Parallel()
	unsure := func(h *answer.Hours, steps ...string) {
		h.Low, h.High, h.Rests.NoScatter, h.TimeNext = unknown, unknown, steps, []string{"transplant", "sow"}
	}
	for _, c := range []struct {
		name   string
		change func(h *answer.Hours)
		want   string
	}{
		{"all is known", func(h *answer.Hours) {}, ""},
		{"nothing is known", func(h *answer.Hours) { *h = lacking(*h, "weigh"); h.Rests = answer.Basis{} }, ""},
		{"one lacks", func(h *answer.Hours) { *h = lacking(*h, "weigh"); h.TimeNext = []string{"weigh"} }, `At least: weigh was not timed. Most useful next: time "weigh".`},
		{"two lack", func(h *answer.Hours) { *h = lacking(lacking(*h, "weigh"), "pack") }, `At least: weigh and pack were not timed.`},
		{"judged alone", func(h *answer.Hours) {
			h.Rests = answer.Basis{Judged: []string{"sow", "transplant", "harvest"}}
		}, `That is from judged times alone, guesses until a step is timed.`},
		{"each once", func(h *answer.Hours) { unsure(h, "sow", "transplant", "harvest") },
			`Each job was timed once, so how much this varies is not known yet. Most useful next: time "transplant" again.`},
		{"one seldom", func(h *answer.Hours) { unsure(h, "sow") }, `sow was timed too seldom, so how much this varies is not known yet. Most useful next: time "transplant" again.`},
		{"two seldom", func(h *answer.Hours) { unsure(h, "sow", "harvest") },
			`sow and harvest were timed too seldom, so how much this varies is not known yet. Most useful next: time "transplant" again.`},
		{"half is judged", func(h *answer.Hours) {
			h.Rests = answer.Basis{Timed: []string{"sow", "transplant"}, Judged: []string{"harvest"}}
		}, `Of that 30 minutes are judged, not timed.`},
		{"a tenth is judged", func(h *answer.Hours) {
			h.Rests = answer.Basis{Timed: []string{"transplant", "harvest"}, Judged: []string{"sow"}}
		}, ""},
		{"just a quarter is judged", func(h *answer.Hours) {
			h.Rests = answer.Basis{Timed: []string{"transplant", "harvest"}, Judged: []string{"sow"}}
			h.Steps[0].Hours = minutes(15)
		}, ""},
		{"narrow", func(h *answer.Hours) { h.TimeNext = []string{"sow"}; h.Low, h.High = minutes(45), minutes(75) }, ""},
		{"wide", func(h *answer.Hours) { h.TimeNext = []string{"sow"}; h.Low, h.High = minutes(44), minutes(76) }, `Most useful next: time "sow" again.`},
		{"wide by grows", func(h *answer.Hours) {
			h.TimeNext, h.MostlyGrows = []string{"sow"}, true
			h.Low, h.High = minutes(44), minutes(76)
		}, `Most useful next: time another grow, since how much grows differ is most of what is not known.`},
		{"wide, of a step that is always one", func(h *answer.Hours) {
			h.TimeNext, h.Rests.OneEach, h.Low, h.High = []string{"sow"}, []string{"sow"}, minutes(44), minutes(76)
		}, `Most useful next: "sow" is always one a visit: if that is all it can be, say form = "setup" for it in the study.`},
		{"wide, by what is judged", func(h *answer.Hours) {
			h.TimeNext, h.Low, h.High = []string{"sow"}, minutes(40), minutes(80)
			h.Rests = answer.Basis{Timed: []string{"transplant", "harvest"}, Judged: []string{"sow"}}
		}, `Most useful next: time "sow".`},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := wayOf("tray", 60, 6)
			c.change(&h)
			assert.Equal(t, c.want, strings.Join(hoursRemarks(h), " "))
		})
	}
}

// What holds of all ways is said once, of one way beside it.
func TestRemarksOfAllWays(t *testing.T) {
	t.Parallel()
	c := comparisonOf(3)
	for i := range c.Workflows {
		c.Workflows[i] = lacking(c.Workflows[i], "weigh")
	}
	c.Workflows[1] = lacking(c.Workflows[1], "pack")
	lines, all := hoursBlock(c)
	assert.Empty(t, all, "not all lack the same")
	assert.Equal(t, `"in place" takes at least 70 minutes, give or take 6. At least: weigh and pack were not timed.`, lines[1])
	c.Workflows[1].Gaps = []string{"weigh"}
	lines, all = hoursBlock(c)
	assert.Equal(t, "At least: weigh was not timed.", all)
	assert.Equal(t, `"in place" takes at least 70 minutes, give or take 6.`, lines[1])
	assert.Equal(t, []string{all}, Compare(c).Section("shared").Answer)
	c.Workflows[2].Rests = answer.Basis{}
	lines, _ = hoursBlock(c)
	assert.Equal(t, `"raft": nothing that it needs was timed or judged yet.`, lines[2])
	one := comparisonOf(1)
	one.Workflows[0] = lacking(one.Workflows[0], "weigh")
	assert.Equal(t, []string{"48 heads take at least 60 minutes, give or take 6."}, Compare(one).Section("hours").Answer)
	one.Workflows[0].Rests = answer.Basis{}
	assert.Equal(t, []string{"48 heads: nothing that it needs was timed or judged yet."}, Compare(one).Section("hours").Answer)
	one.Workflows[0].Gaps = nil // its only step is not done any more
	assert.Equal(t, []string{"48 heads: there is nothing to do for it."}, Compare(one).Section("hours").Answer)
}

// What the answer rests on is said once for each step or way.
func TestNotesOfWhatItRestsOn(t *testing.T) {
	t.Parallel()
	c := comparisonOf(3)
	c.Notes = []string{"a note of the answer"}
	assert.Equal(t, c.Notes, Compare(c).Notes)
	c.Workflows[1].Rests.Bracketed = []string{"harvest"}
	c.Workflows[1].Rests.Beyond = []string{"sow", "harvest"}
	assert.Equal(t, []string{
		"a note of the answer",
		"always timed at about the same count, so setup and unit time cannot be told apart, and ranges reach from all of the one to all of the other: harvest",
		`"in place": goes more than a quarter beyond the counts that were timed of sow and harvest`,
	}, Compare(c).Notes)
	assert.Equal(t, []string{"a note of the answer"}, c.Notes, "the answer's own are left as they are")
}

func TestReadingsThatLookUnlike(t *testing.T) {
	t.Parallel()
	c := comparisonOf(2)
	same := func(a, b float64) answer.SameWork {
		return answer.SameWork{Step: "sow", AUnit: known(a), BUnit: known(b), AReadings: 1, BReadings: 1, Unlike: true}
	}
	c.Pairs[0].AssumedSame = []answer.SameWork{same(4, 0.5)}
	require.Len(t, Compare(c).Notes, 1)
	assert.Equal(t, `counted as the same work, though timings differ: sow (4.0 s in "tray", 0.50 s in "in place"; one reading each). What is not the same work needs another name`, Compare(c).Notes[0])
	visit := same(4, 0.5)
	visit.AVisit, visit.BVisit, visit.BReadings = known(90), known(60), 3
	c.Pairs[0].AssumedSame = []answer.SameWork{visit}
	assert.Contains(t, Compare(c).Notes[0], `sow (90 s a visit in "tray", 60 s in "in place"; 1 and 3 readings)`)
	c.Pairs[0].OtherCrop = true
	assert.Empty(t, Compare(c).Notes, "of two crops nothing is compared")
	var many []answer.SameWork
	for i := range 5 {
		s := same(4, 8)
		s.Step = fmt.Sprintf("step %d", i)
		many = append(many, s)
	}
	note := unlikeNote([]answer.Pair{{A: "a", B: "b", AssumedSame: many}})
	assert.Contains(t, note, "step 3 (")
	assert.NotContains(t, note, "step 4 (")
	assert.Contains(t, note, "; 1 more step. ")
}

// A step that is not timed is "?" among the minutes of people and empty for programs.
func TestTablesOfSteps(t *testing.T) {
	t.Parallel()
	c := comparisonOf(2)
	c.Workflows[1] = lacking(c.Workflows[1], "weigh")
	rows := minutesTable(c).Rows
	assert.Equal(t, []string{"weigh", "", "?"}, []string{rows[3][0].Text, rows[3][1].Text, rows[3][2].Text}, "the first way has nothing to weigh")
	steps := stepsTable(c)
	last := steps.Rows[len(steps.Rows)-1]
	assert.Equal(t, "not timed", last[5].Text)
	assert.Empty(t, plain(last[5].Value)+plain(last[6].Value)+last[6].Text)
	ways := workflowsTable(c)
	assert.Equal(t, []string{"≥ 1.17", "≥ 1.46", "weigh"}, []string{ways.Rows[1][1].Text, ways.Rows[1][6].Text, ways.Rows[1][9].Text})
	assert.Equal(t, "1.00", ways.Rows[0][1].Text)
	c.Workflows[0].Extrapolated, c.Workflows[0].Low, c.Workflows[0].NextHigh = true, unknown, unknown
	ways = workflowsTable(c)
	assert.Equal(t, []string{"?", "to ?", "yes"}, []string{ways.Rows[0][2].Text, ways.Rows[0][5].Text, ways.Rows[0][8].Text})
	pairs := PairsTable([]answer.Pair{{A: "a", B: "b", Difference: -0.05, Gaps: []string{"weigh"}}})
	assert.Equal(t, []string{"-3.0", "?", "?", "?", "weigh"}, []string{pairs.Rows[0][2].Text, pairs.Rows[0][3].Text, pairs.Rows[0][4].Text, pairs.Rows[0][8].Text, pairs.Rows[0][12].Text})
}
