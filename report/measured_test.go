package report

import (
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// Whole grows beside each other: which took more, by how sure that is.
func TestGrowsSideBySide(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(p *answer.MeasuredPair)
		want   string
	}{
		{"more", func(p *answer.MeasuredPair) {}, `As measured over 2 grows and 3 grows, a head of "raft" took 0.32 minutes more than one of "tray" (between 0.10 and 0.54).`},
		{"less", func(p *answer.MeasuredPair) { p.Difference, p.Low, p.High = known(-0.32), known(-0.54), known(-0.1) },
			`As measured over 2 grows and 3 grows, a head of "raft" took 0.32 minutes less than one of "tray" (between 0.10 and 0.54).`},
		{"no clear difference", func(p *answer.MeasuredPair) { p.Low = known(-0.1) },
			`As measured over 2 grows and 3 grows, a head of "raft" took 0.32 minutes more than one of "tray" (between 0.10 less and 0.54 more): no clear difference seen.`},
		{"touching nothing", func(p *answer.MeasuredPair) { p.Low = known(0) },
			`As measured over 2 grows and 3 grows, a head of "raft" took 0.32 minutes more than one of "tray" (between 0.00 and 0.54): no clear difference seen.`},
		{"the models say otherwise", func(p *answer.MeasuredPair) { p.Disagrees = true },
			`As measured over 2 grows and 3 grows, a head of "raft" took 0.32 minutes more than one of "tray" (between 0.10 and 0.54). The steps' models say otherwise: see whether the grows were alike in all else.`},
		{"one grow each", func(p *answer.MeasuredPair) { p.Low, p.High, p.AGrows, p.BGrows = unknown, unknown, 1, 1 },
			`As measured, a head of "raft" took 0.32 minutes more than one of "tray" (1 grow against 1 grow): too few grows for a test.`},
		{"one grow of one", func(p *answer.MeasuredPair) {
			p.Difference, p.Low, p.High, p.BGrows = known(-0.32), unknown, unknown, 1
		}, `As measured, a head of "raft" took 0.32 minutes less than one of "tray" (1 grow against 3 grows): too few grows for a test.`},
		{"none of one", func(p *answer.MeasuredPair) { p.Difference = unknown }, `No whole grow of both "tray" and "raft" was timed, so they cannot be set side by side as measured.`},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := measuredOf().Pairs[0]
			c.change(&p)
			assert.Equal(t, c.want, measuredSentence(p, "a head"))
		})
	}
}

// Beside a comparison: by head and by what is sold, pairs of one crop, and what lacks.
func TestMeasuredBesideAComparison(t *testing.T) {
	t.Parallel()
	none := Measured(MeasuredComparison{Comparison: comparisonOf(2)})
	assert.Equal(t, []string{"No grow was timed that says how many heads it gave, so there is nothing measured to set beside this."}, none.Section("measured").Answer)
	assert.Nil(t, none.Section("measured").Table)

	m := measuredOf()
	m.Grows[1].Gives = bags()
	m.Pairs[0].AUnit, m.Pairs[0].Unit = &answer.MeasuredPair{AGrows: 1, BGrows: 1, Difference: known(-2)}, "bag"
	doc := Measured(MeasuredComparison{Comparison: comparisonOf(2), Measured: m})
	assert.Len(t, doc.Section("measured").Answer, 2)
	assert.Equal(t, `As measured, a bag of "raft" took 2.00 minutes less than one of "tray" (1 grow against 1 grow): too few grows for a test.`, doc.Section("measured").Answer[1])
	rows := doc.Section("measured").Table.Rows
	assert.Equal(t, []string{"timed whole", "g1", "tray", "48", "1.25", "1.30", "8.30", "?", "head"}, texts(rows[0]))
	assert.Equal(t, []string{"lacks sow, and 1 of 3 visits of weigh", "g2", "raft", "44.5", "≥ 1.57", "1.60", "?", "≥ 3.00", "bag"}, texts(rows[1]))
	for want, lacking := range map[string][]answer.Lacking{
		"sow and weigh":                             {{Step: "sow", Missing: 1, Planned: 1}, {Step: "weigh", Missing: 3, Planned: 3}},
		"2 of 3 visits of sow":                      {{Step: "sow", Missing: 2, Planned: 3}},
		"cut, and 1 of 2 visits of sow":             {{Step: "sow", Missing: 1, Planned: 2}, {Step: "cut", Missing: 1, Planned: 1}},
		"1 of 2 visits of a and 1 of 4 visits of b": {{Step: "a", Missing: 1, Planned: 2}, {Step: "b", Missing: 1, Planned: 4}},
	} {
		assert.Equal(t, want, lackingWords(lacking))
	}
	m.Pairs[0].OtherCrop = true
	assert.Len(t, Measured(MeasuredComparison{Comparison: comparisonOf(2), Measured: m}).Section("measured").Answer, 1, "heads of two crops are not set side by side")
	m.Pairs[0].AUnit, m.Pairs[0].Difference = nil, unknown
	assert.Empty(t, MeasuredGrows(m).Words(), "what cannot be told is left out of the report")
}

func TestWhatMovesACost(t *testing.T) {
	t.Parallel()
	s := inputsOf(2)
	s.Gaps, s.Currency, s.Notes = []string{"weigh"}, nil, []string{"own note"}
	doc := Sensitivity(s)
	assert.Equal(t, []string{"A head costs at least 0.800 money. What moves it most is input 1: a fifth less or more makes it 0.680 or 0.920."}, doc.Section("inputs").Answer)
	assert.Equal(t, []string{"At least: weigh was not timed."}, doc.Section("gaps").Answer)
	assert.Equal(t, "Cost of a head in money, with one input a fifth lower or higher", doc.Section("inputs").Table.Title)
	assert.Equal(t, []string{"own note"}, doc.Notes)
	s.Gaps = []string{"weigh", "pack"}
	assert.Equal(t, []string{"At least: weigh and pack were not timed."}, Sensitivity(s).Section("gaps").Answer)
	s.Unshared = []string{"pack"}
	assert.Equal(t, []string{"At least: weigh was not timed; without sow_every_days in the study a grow's share of pack is not known."}, Sensitivity(s).Section("gaps").Answer)
	s.Gaps = s.Unshared
	assert.Equal(t, []string{"At least: without sow_every_days in the study a grow's share of pack is not known."}, Sensitivity(s).Section("gaps").Answer)
	small := inputsOf(1)
	small.PerHead, small.Inputs[0].Lower, small.Inputs[0].Higher = 0.0042, 0.00331, 0.0051
	doc = Sensitivity(small)
	assert.Equal(t, []string{"A head costs 0.0042 EUR. What moves it most is input 1: a fifth less or more makes it 0.0033 or 0.0051."}, doc.Section("inputs").Answer)
	assert.Equal(t, []string{"input 1", "0.0033", "0.0051"}, texts(doc.Section("inputs").Table.Rows[0]))
}

// Of the wall clock: how much has no name, and what overlaps.
func TestWallClockInWords(t *testing.T) {
	t.Parallel()
	named := answer.Reconciliation{Worker: "w1", Minutes: 100, Named: 1}
	short := func(minutes float64) answer.Reconciliation {
		return answer.Reconciliation{Worker: "w1", Minutes: 100, Named: 1 - minutes/100, Nameless: minutes}
	}
	over := named
	over.Overlaps = []string{"a"}
	twice := short(20)
	twice.Overlaps = []string{"a", "b"}
	const more = ": more than 2 % of the time between first start and last end."
	for want, clock := range map[string][]answer.Reconciliation{
		"The wall clock is accounted for, where starts and ends were noted.":                                                  {named, short(2)},
		"The wall clock is accounted for, where starts and ends were noted. Two readings of one worker overlap.":              {named, over},
		"10 minutes of work that was clocked have no name, in 1 spell" + more:                                                 {short(10), named},
		"30 minutes of work that was clocked have no name, in 2 spells" + more:                                                {short(10), short(20)},
		"20 minutes of work that was clocked have no name, in 1 spell" + more + " 2 pairs of readings of one worker overlap.": {twice},
		"2.0 hours of work that was clocked have no name, in 2 spells" + more:                                                 {short(60), short(60)},
	} {
		assert.Equal(t, want, clockSentence(clock))
	}
	rows := clockTable([]answer.Reconciliation{twice, short(2.5), named}).Rows
	assert.Equal(t, []string{"a", "b", "2.5 minutes have no name", "accounted for"}, []string{rows[0][0].Text, rows[1][0].Text, rows[2][0].Text, rows[3][0].Text})
}

func TestWhatIsFoundInACheck(t *testing.T) {
	t.Parallel()
	c := checkOf()
	assert.Equal(t, []string{"1 problem to put right; nothing is worked out before that.", "2 things worth a look."}, Check(c).Section("found").Answer)
	c.Warnings = c.Warnings[:1]
	assert.Equal(t, "1 thing worth a look.", Check(c).Section("found").Answer[1])
	c.Problems, c.Warnings, c.Files, c.Grows, c.Clock = nil, nil, c.Files[:1], nil, nil
	doc := Check(c)
	assert.Equal(t, []string{"No problem: 1 reading in 1 file."}, doc.Words())
	assert.Equal(t, []string{"found", "files"}, sectionIDs(doc))
	assert.Equal(t, []string{"No problem: 0 readings in 0 files."}, Check(answer.Check{}).Words())
	assert.Empty(t, Check(answer.Check{}).Tables())
}
