package report

import (
	"testing"

	"headhours/timing/answer"
	"headhours/timing/crop"

	"github.com/stretchr/testify/assert"
)

// How many seeds a cell are best, and how sure that is.
func TestBestSeeds(t *testing.T) {
	t.Parallel()
	const chance, best = " That is clear of chance in the timings.", "2 seeds a cell is cheapest, at 0.420 EUR a head and 1.25 minutes, with 80 % of seeds coming up."
	one := func(s *answer.Seeding) { s.Choices[0].Best, s.Choices[1].Best = true, false }
	for _, c := range []struct {
		name   string
		change func(s *answer.Seeding)
		want   string
	}{
		{"by cost", func(s *answer.Seeding) {}, best + chance},
		{"by time", func(s *answer.Seeding) { s.ByCost = false }, "2 seeds a cell is quickest, at 1.25 minutes a head, with 80 % of seeds coming up." + chance},
		{"one seed", one, "1 seed a cell is cheapest, at 0.500 EUR a head and 1.50 minutes, with 80 % of seeds coming up." + chance},
		{"a step lacks", func(s *answer.Seeding) { s.Gaps = []string{"weigh"} }, "2 seeds a cell is cheapest: at least 0.420 EUR a head and 1.25 minutes, with 80 % of seeds coming up." + chance},
		{"a step lacks, by time", func(s *answer.Seeding) { s.Gaps, s.ByCost = []string{"weigh"}, false }, "2 seeds a cell is quickest: at least 1.25 minutes a head, with 80 % of seeds coming up." + chance},
		{"a step lacks that may turn it", func(s *answer.Seeding) { s.Gaps, s.TurnedBy = []string{"fill", "weigh"}, []string{"fill"} },
			"2 seeds a cell is cheapest in what is known: at least 0.420 EUR a head and 1.25 minutes, with 80 % of seeds coming up. Whether it is so in all cannot be told: fill was not timed, and other numbers of seeds call for less of it."},
		{"no currency", func(s *answer.Seeding) { s.Currency = "" }, "2 seeds a cell is cheapest, at 0.420 a head and 1.25 minutes, with 80 % of seeds coming up." + chance},
		{"one rival", func(s *answer.Seeding) { s.Rivals = []int{3} }, best + " It is not clearly better than 3: the timings leave that open."},
		{"three rivals", func(s *answer.Seeding) { s.Rivals = []int{1, 3, 4} }, best + " It is not clearly better than 1, 3 or 4: the timings leave that open."},
		{"no thinning, one seed", func(s *answer.Seeding) { one(s); s.NoThinning = true },
			"1 seed a cell is cheapest, at 0.500 EUR a head and 1.50 minutes, with 80 % of seeds coming up. Thinning, which is not counted, would make the others dearer still." + chance},
		{"no thinning, two seeds", func(s *answer.Seeding) { s.NoThinning = true },
			"How many seeds a cell are cheapest cannot be told: two and more call for thinning, which no task of this way does. One seed a cell costs 0.500 EUR a head and 1.50 minutes, with 80 % of seeds coming up."},
		{"no thinning, two seeds, by time, a step lacks", func(s *answer.Seeding) { s.NoThinning, s.ByCost, s.Gaps = true, false, []string{"weigh"} },
			"How many seeds a cell are quickest cannot be told: two and more call for thinning, which no task of this way does. One seed a cell takes at least 1.50 minutes a head, with 80 % of seeds coming up."},
		{"nothing was timed", func(s *answer.Seeding) { s.Gaps = []string{"sow"}; takeNothing(s.Choices) },
			"How many seeds a cell are best cannot be told: nothing that it needs was timed or judged yet."},
		{"only others were timed", func(s *answer.Seeding) { s.Gaps, s.Choices[1].MinutesPerHead = []string{"sow"}, 0 },
			"2 seeds a cell is cheapest: at least 0.420 EUR a head and 0.00 minutes, with 80 % of seeds coming up." + chance},
		{"only others were timed, by time", func(s *answer.Seeding) {
			s.Gaps, s.Choices[1].MinutesPerHead, s.ByCost = []string{"sow"}, 0, false
		},
			"2 seeds a cell is quickest: at least 0.00 minutes a head, with 80 % of seeds coming up." + chance},
		{"nothing to do", func(s *answer.Seeding) { s.ByCost, s.Choices[1].MinutesPerHead = false, 0 }, "With 2 seeds a cell there is nothing to do for it, with 80 % of seeds coming up."},
		{"hardly a seed comes up", func(s *answer.Seeding) { s.Germination = 0.0001 },
			"2 seeds a cell is cheapest, at 0.420 EUR a head and 1.25 minutes, with 0.01 % of seeds coming up." + chance},
		{"hardly any time", func(s *answer.Seeding) {
			s.Choices[1].MinutesPerHead, s.Choices[1].CostPerHead = 0.0042, known(0.00042)
		},
			"2 seeds a cell is cheapest, at 0.00042 EUR a head and 0.0042 minutes, with 80 % of seeds coming up." + chance},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := seedingOf()
			c.change(&s)
			assert.Equal(t, c.want, Seeding(s).Section("seeds").Answer[0])
		})
	}
}

// Where nothing that is counted depends on the seeds, none of their numbers is called best.
func TestSeedsThatDoNotMatter(t *testing.T) {
	t.Parallel()
	const same = "1 to 3 seeds a cell all cost the same: 0.500 EUR a head and 1.50 minutes, with 80 % of seeds coming up."
	for _, c := range []struct {
		name   string
		change func(s *answer.Seeding)
		want   string
	}{
		{"by cost", func(s *answer.Seeding) {}, same},
		{"but for rounding", func(s *answer.Seeding) {
			s.Choices[2].MinutesPerHead, s.Choices[1].CostPerHead = 1.5*(1+1e-15), known(0.5*(1-1e-15))
		}, same},
		{"by time", func(s *answer.Seeding) { s.ByCost = false }, "1 to 3 seeds a cell all take as long: 1.50 minutes a head, with 80 % of seeds coming up."},
		{"no thinning", func(s *answer.Seeding) { s.NoThinning = true }, same + " Thinning, which is not counted, would make two and more dearer."},
		{"a step lacks that may turn it", func(s *answer.Seeding) { s.Gaps, s.TurnedBy = []string{"fill"}, []string{"fill"} },
			"1 to 3 seeds a cell all cost the same in what is known: at least 0.500 EUR a head and 1.50 minutes, with 80 % of seeds coming up. Whether it is so in all cannot be told: fill was not timed, and other numbers of seeds call for less of it."},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := seedingOf()
			s.Choices, s.Rivals = []answer.SeedingChoice{choiceOf(1, 1.5, 0.5), choiceOf(2, 1.5, 0.5), choiceOf(3, 1.5, 0.5)}, []int{2, 3}
			s.Choices[0].Best = true
			c.change(&s)
			doc := Seeding(s)
			assert.Equal(t, []string{c.want, "With 1 seed a cell, sow 70 cells to harvest at least 48 heads 95 times in a hundred; on average 60 cells would do."}, doc.Section("seeds").Answer)
			for _, row := range doc.Section("seeds").Table.Rows {
				assert.NotContains(t, row[11].Text, "best")
			}
		})
	}
	assert.False(t, allAlike(seedingOf()))
}

// takeNothing has all choices take no time.
func takeNothing(choices []answer.SeedingChoice) {
	for i := range choices {
		choices[i].MinutesPerHead = 0
	}
}

// What seeding lacks is not counted, for the reason that it has.
func TestWhatSeedingLacks(t *testing.T) {
	t.Parallel()
	s := seedingOf()
	s.Gaps = []string{"weigh", "check pH"}
	assert.Equal(t, []string{"At least: weigh and check pH not counted."}, Seeding(s).Section("gaps").Answer)
	s.Unshared = []string{"check pH"}
	assert.Equal(t, []string{"At least: weigh was not timed; without sow_every_days in the study a grow's share of check pH is not known."}, Seeding(s).Section("gaps").Answer)
}

// How many cells to sow for the heads that are wanted.
func TestCellsToSow(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(s *answer.Seeding)
		want   string
	}{
		{"of the best", func(s *answer.Seeding) {}, "Sow 60 cells of it to harvest at least 48 heads 95 times in a hundred; on average 50 cells would do."},
		{"one cell", func(s *answer.Seeding) { s.Heads, s.Choices[1].CellsAssured, s.Choices[1].CellsExpected = 1, ref(1), 1 },
			"Sow 1 cell of it to harvest at least 1 head 95 times in a hundred; on average 1 cell would do."},
		{"surer", func(s *answer.Seeding) { s.Assurance = 0.999 }, "Sow 60 cells of it to harvest at least 48 heads 99.9 times in a hundred; on average 50 cells would do."},
		{"never surely", func(s *answer.Seeding) { s.Choices[1].CellsAssured = nil }, "Even 4294967296 cells, the most that are looked at, do not give at least 48 heads 95 times in a hundred."},
		{"a test that tells too little", func(s *answer.Seeding) { s.Choices[1].CellsAssured, s.Tested.Of = nil, 10 },
			"Even 4294967296 cells, the most that are looked at, do not give at least 48 heads 95 times in a hundred: 10 seeds tested for germination tell too little."},
		{"a test of one seed", func(s *answer.Seeding) { s.Choices[1].CellsAssured, s.Tested.Of = nil, 1 },
			"Even 4294967296 cells, the most that are looked at, do not give at least 48 heads 95 times in a hundred: 1 seed tested for germination tells too little."},
		{"nothing was timed", func(s *answer.Seeding) { s.Gaps = []string{"sow"}; takeNothing(s.Choices) },
			"With 2 seeds a cell, sow 60 cells to harvest at least 48 heads 95 times in a hundred; on average 50 cells would do."},
		{"no thinning, one seed", func(s *answer.Seeding) { s.NoThinning, s.Choices[0].Best, s.Choices[1].Best = true, true, false },
			"Sow 70 cells of it to harvest at least 48 heads 95 times in a hundred; on average 60 cells would do."},
		{"no thinning", func(s *answer.Seeding) { s.NoThinning = true }, "With 1 seed a cell, sow 70 cells to harvest at least 48 heads 95 times in a hundred; on average 60 cells would do."},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := seedingOf()
			c.change(&s)
			assert.Equal(t, c.want, Seeding(s).Section("seeds").Answer[1])
		})
	}
}

func TestPlantsToBuy(t *testing.T) {
	t.Parallel()
	s := seedingOf()
	s.Bought, s.Choices, s.Tested = true, s.Choices[1:2], crop.Germination{Share: 0.8, CameUp: 80, Of: 100}
	doc := Seeding(s)
	assert.Equal(t, "tray: young plants to buy for 48 heads", doc.Title)
	assert.Equal(t, []string{"Buy 60 young plants to harvest at least 48 heads 95 times in a hundred; on average 50 would do."}, doc.Section("seeds").Answer)
	assert.Equal(t, Programs, doc.Section("seeds").Table.For)
	assert.Equal(t, []string{"50.0", "60", "1.25", "1.15–1.35", "0.420", "0.38–0.46"}, texts(doc.Section("plants").Table.Rows[0]))
	assert.Equal(t, []string{"plants are taken to be lost independently of each other; a bad batch is worse"}, doc.Notes, "nothing comes up that is bought")
	s.Choices[0].CellsAssured, s.Gaps, s.Choices[0].MinutesPerHead = nil, []string{"set out"}, 0
	doc = Seeding(s)
	assert.Equal(t, []string{"Even 4294967296 young plants, the most that are looked at, do not give at least 48 heads 95 times in a hundred."}, doc.Section("seeds").Answer)
	assert.Equal(t, []string{"50.0", "?", "?", "", "?", ""}, texts(doc.Section("plants").Table.Rows[0]), "what was not timed takes no 0 minutes")
	assert.Equal(t, []string{"Neither timed nor judged: set out."}, doc.Section("gaps").Answer)
}

// What is said beside the choices, and what the table shows where much is not known.
func TestSeedingBesideChoices(t *testing.T) {
	t.Parallel()
	s := seedingOf()
	s.Resown, s.ResowStep, s.Notes = ref(choiceOf(1, 1.3, 0.45)), "sow again", []string{"own note"}
	s.Tested = crop.Germination{Share: 0.8, CameUp: 80, Of: 100}
	doc := Seeding(s)
	assert.Equal(t, []string{"One seed a cell with empty cells sown once more (sow again) takes 1.30 minutes a head and costs 0.450 EUR; those plants are some days younger."}, doc.Section("resown").Answer)
	assert.Equal(t, []string{"own note", "seeds are taken to come up independently of each other; a bad lot or a hot tray is worse",
		"cells to sow allow for what a germination test of 100 seeds leaves open"}, doc.Notes)
	assert.Nil(t, doc.Section("gaps").Answer)
	s.Gaps, s.Resown.CostPerHead, s.Tested.Of = []string{"weigh", "pack"}, unknown, 0
	doc = Seeding(s)
	assert.Equal(t, []string{"One seed a cell with empty cells sown once more (sow again) takes at least 1.30 minutes a head; those plants are some days younger."}, doc.Section("resown").Answer)
	assert.Equal(t, []string{"At least: weigh and pack not counted."}, doc.Section("gaps").Answer)
	assert.Len(t, doc.Notes, 2)

	s.NoThinning, s.Choices[2].CellsAssured, s.Choices[2].CostPerHead, s.Choices[2].MinutesLow = true, nil, unknown, unknown
	rows := seedingTable(s).Rows
	assert.Equal(t, []string{"1", "20.0 %", "0.00", "60.0", "70", "1.50", "1.40–1.60", "1.600", "0.500", "0.46–0.54", "0.540", ""}, texts(rows[0]))
	assert.Equal(t, "+ thin", rows[1][11].Text, "nothing is best without the time of thinning")
	assert.Equal(t, []string{"3", "0.8 %", "1.41", "48.4", "?", "1.75", "", "1.850", "?", "0.56–0.64", "0.640", "+ thin"}, texts(rows[2]))
	s.Choices[0].Best, s.Choices[1].Best = true, false
	assert.Equal(t, "best", seedingTable(s).Rows[0][11].Text)
	takeNothing(s.Choices)
	doc = Seeding(s)
	assert.Empty(t, doc.Section("resown").Answer, "where nothing was timed")
	for _, row := range doc.Section("seeds").Table.Rows {
		assert.Equal(t, []string{"?", "", "?", "?", "", "?"}, texts(row[5:11]))
	}
	s.Choices[0].MinutesPerHead, s.Choices[0].CostLow = 0.0042, known(0.0021)
	assert.Equal(t, []string{"0.0042", "0.500", "0.0021–0.5400"}, []string{seedingTable(s).Rows[0][5].Text, seedingTable(s).Rows[0][8].Text, seedingTable(s).Rows[0][9].Text})
}
