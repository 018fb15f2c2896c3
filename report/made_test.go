package report

import (
	"testing"

	"headhours/timing/answer"

	"github.com/stretchr/testify/assert"
)

// What a change that was made has saved, by what is known of it.
func TestWhatAChangeHasSaved(t *testing.T) {
	t.Parallel()
	const clear = `"dibber" saves 8 minutes a grow, give or take 2: transplant took 20 minutes before and takes 12 minutes since 2026-04-12, by 5 and 3 readings.`
	trial := trialOf()
	const show = " 4 more readings in 2 further grows after it (at 24 and 48) would, four times in five, show the 8.0 minutes a grow that are hoped for."
	for _, c := range []struct {
		name   string
		change func(c *answer.Made)
		want   string
	}{
		{"clear", func(c *answer.Made) {}, clear},
		{"clear, by one reading", func(c *answer.Made) { c.ReadingsBefore, c.ReadingsAfter = 1, 1 },
			`"dibber" saves 8 minutes a grow, give or take 2: transplant took 20 minutes before and takes 12 minutes since 2026-04-12, by 1 and 1 reading.`},
		{"until the next", func(c *answer.Made) { c.Until = "2026-06-01" },
			`"dibber" saved 8 minutes a grow, give or take 2: transplant took 20 minutes before and took 12 minutes from 2026-04-12 until 2026-06-01, by 5 and 3 readings.`},
		{"slower, until the next", func(c *answer.Made) {
			c.Until, c.After, c.Saved, c.Low, c.High = "2026-06-01", minutes(25), minutes(-5), minutes(-8), minutes(-3)
		}, `"dibber" took 5 minutes more a grow (somewhere between 3 and 8): transplant took 20 minutes before and took 25 minutes from 2026-04-12 until 2026-06-01, by 5 and 3 readings.`},
		{"not timed until the next", func(c *answer.Made) {
			c.Until, c.Saved, c.After, c.Low, c.High, c.Trial = "2026-06-01", unknown, unknown, unknown, unknown, &trial
		}, `"dibber", from 2026-04-12 until 2026-06-01: transplant was not timed then.`},
		{"as hoped", func(c *answer.Made) { c.Hoped = minutes(9) }, clear + " Hoped for were 9.0 minutes."},
		{"by seconds of many minutes", func(c *answer.Made) {
			c.After, c.Saved, c.Low, c.High = minutes(19.8), minutes(0.2), minutes(0.1), minutes(0.3)
		}, `"dibber" saves 12 seconds a grow, give or take 6: transplant took 20.00 minutes before and takes 19.80 minutes since 2026-04-12, by 5 and 3 readings.`},
		{"slower", func(c *answer.Made) {
			c.After, c.Saved, c.Low, c.High = minutes(25), minutes(-5), minutes(-8), minutes(-3)
		},
			`"dibber" takes 5 minutes more a grow (somewhere between 3 and 8): transplant took 20 minutes before and takes 25 minutes since 2026-04-12, by 5 and 3 readings.`},
		{"not clear", func(c *answer.Made) { c.Low, c.High = minutes(-2), minutes(18) },
			`"dibber": no clear change yet; transplant took 20 minutes before and takes 12 minutes since 2026-04-12, by 5 and 3 readings (between 2.0 minutes more and 18 minutes less a grow).`},
		{"not clear, touching nothing", func(c *answer.Made) { c.Low, c.High = known(0), minutes(16) },
			`"dibber": no clear change yet; transplant took 20 minutes before and takes 12 minutes since 2026-04-12, by 5 and 3 readings (between 0 seconds more and 16 minutes less a grow).`},
		{"not clear, hoped for, and what would show it", func(c *answer.Made) {
			c.Low, c.High, c.Hoped, c.Trial = minutes(-2), minutes(18), minutes(8), &trial
		}, `"dibber": no clear change yet; transplant took 20 minutes before and takes 12 minutes since 2026-04-12, by 5 and 3 readings (between 2.0 minutes more and 18 minutes less a grow; hoped for: 8.0 minutes less).` + show},
		{"doubt not known", func(c *answer.Made) { c.Low, c.High = unknown, unknown },
			`"dibber": no clear change yet; transplant took 20 minutes before and takes 12 minutes since 2026-04-12, by 5 and 3 readings (how sure that is cannot be told).`},
		{"not timed since", func(c *answer.Made) { c.Saved, c.After, c.Low, c.High = unknown, unknown, unknown, unknown },
			`"dibber", from 2026-04-12 on: transplant was not timed since.`},
		{"not timed since, hoped for", func(c *answer.Made) {
			c.Saved, c.After, c.Low, c.High, c.Hoped, c.Trial = unknown, unknown, unknown, unknown, minutes(8), &trial
		}, `"dibber", from 2026-04-12 on: transplant was not timed since (hoped for: 8.0 minutes less a grow).` + show},
		{"not timed before", func(c *answer.Made) { c.Before = unknown },
			`"dibber", made on 2026-04-12: transplant was not timed or judged before it, so what it saves cannot be told.`},
		{"nothing to do", func(c *answer.Made) { c.Before = known(0) }, `"dibber", made on 2026-04-12, is of transplant, which has nothing to do here.`},
		{"dropped", func(c *answer.Made) { c.Drop, c.Saved, c.Low, c.High = true, minutes(20), minutes(16), minutes(24) },
			`"dibber": without transplant, since 2026-04-12, a grow takes 20 minutes less, give or take 4.`},
		{"of hygiene", func(c *answer.Made) { c.Hygiene = true }, clear + " It is a hygiene step: see that it is done as well as before."},
		{"by practice", func(c *answer.Made) { c.Falling = true }, clear + " Times were falling before it already: practice may explain some of it."},
		{"one grow", func(c *answer.Made) { c.OneGrow = true }, clear + " One grow alone was timed on a side of it: the change and that grow cannot be told apart."},
		{"all doubts", func(c *answer.Made) { c.Hygiene, c.Falling, c.OneGrow = true, true, true }, clear +
			" It is a hygiene step: see that it is done as well as before. Times were falling before it already: practice may explain some of it." +
			" One grow alone was timed on a side of it: the change and that grow cannot be told apart."},
		{"a name that terminals act on", func(c *answer.Made) { c.Name, c.Step, c.Before = "\x1b[2J", "\u202es", known(0) }, `"\x1b[2J", made on 2026-04-12, is of \u202es, which has nothing to do here.`},
	} {
		t.Run(c.name, func(t *testing.T) {
			made := madeOf("dibber")
			c.change(&made)
			assert.Equal(t, c.want, madeSentence(made, answer.Improvement{PaidFor: true}))
		})
	}
}

// When the outlay of a change that was made comes back.
func TestWhenAnOutlayComesBack(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(c *answer.Made)
		unpaid bool
		want   string
	}{
		{"no outlay", func(c *answer.Made) { c.Outlay = unknown }, false, ""},
		{"for nothing", func(c *answer.Made) { c.Outlay = known(0) }, false, ""},
		{"nothing saved", func(c *answer.Made) { c.Saved = known(0) }, false, ""},
		{"more work", func(c *answer.Made) { c.Saved = minutes(-1) }, false, ""},
		{"not known", func(c *answer.Made) { c.Saved = unknown }, false, ""},
		{"no wage", func(c *answer.Made) { c.PaidBack = true }, true, " When its outlay comes back cannot be told without a wage."},
		{"paid", func(c *answer.Made) { c.PaidBack = true }, false, " It has paid for itself."},
		{"never", func(c *answer.Made) { c.Payback = known(10001) }, false, " Its outlay does not come back within 10,000 heads."},
		{"not known when", func(c *answer.Made) { c.Payback = unknown }, false, " Its outlay does not come back within 10,000 heads."},
		{"by heads", func(c *answer.Made) { c.PaybackOn = nil }, false, " Its outlay comes back after about 960 heads, where the minutes are paid for."},
		{"by a day", func(c *answer.Made) {}, false, " Its outlay comes back about 2026-09-01, where the minutes are paid for."},
		{"between days", func(c *answer.Made) { c.PaybackFrom, c.PaybackTo = ref("2026-08-03"), ref("2026-10-15") }, false,
			" Its outlay comes back about 2026-09-01 (somewhere between 2026-08-03 and 2026-10-15), where the minutes are paid for."},
		{"not before a day", func(c *answer.Made) { c.PaybackFrom = ref("2026-08-03") }, false, " Its outlay comes back about 2026-09-01 (not before 2026-08-03), where the minutes are paid for."},
		{"that day", func(c *answer.Made) { c.PaybackFrom, c.PaybackTo = ref("2026-09-01"), ref("2026-09-01") }, false, " Its outlay comes back about 2026-09-01, where the minutes are paid for."},
		{"by a day, if at all", func(c *answer.Made) { c.Low = known(0) }, false, " Its outlay would come back about 2026-09-01, if it saves as much."},
		{"by a day, in doubt", func(c *answer.Made) { c.Low = unknown }, false, " Its outlay would come back about 2026-09-01, if it saves as much."},
	} {
		t.Run(c.name, func(t *testing.T) {
			made := madeOf("dibber")
			made.Outlay, made.Payback, made.PaybackOn = known(80), known(960), ref("2026-09-01")
			c.change(&made)
			assert.Equal(t, c.want, madePayback(made, answer.Improvement{PaidFor: !c.unpaid}))
		})
	}
}

func TestTableOfChangesMade(t *testing.T) {
	t.Parallel()
	later := madeOf("bench")
	later.After, later.Saved, later.Low, later.High, later.Hoped, later.ReadingsAfter = unknown, unknown, unknown, unknown, minutes(3), 0
	first := madeOf("dibber")
	first.PaybackOn = ref("2026-09-01")
	in := improvementOf(0)
	in.Made = []answer.Made{first, later}
	doc := Improve(in)
	assert.Equal(t, []string{"questions", "shares", "made", "tenth"}, sectionIDs(doc), "and no word that there is no change")
	rows := doc.Section("made").Table.Rows
	assert.Equal(t, []string{"dibber", "2026-04-12", "20.0", "12.0", "8.0", "6.0", "10.0", "?", "5", "3", "2026-09-01"}, texts(rows[0]))
	assert.Equal(t, []string{"bench", "2026-04-12", "20.0", "?", "?", "?", "?", "3.0", "5", "0", "-"}, texts(rows[1]))
	assert.Empty(t, plain(rows[1][10].Value), "programs get no dash for a day")
}
