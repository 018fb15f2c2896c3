package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/answer"
	"headhours/timing/study"
)

func TestPlanSentence(t *testing.T) {
	known := study.Known
	other := "raft"
	minutes := func(x float64) study.Maybe { return known(x / 60) }
	steps := []answer.StepNeed{{Step: "sow", Share: 0.1}}
	rows := []answer.PlannedReadings{
		{Step: "transplant", Count: 12, Setups: 1, Readings: 4}, {Step: "harvest", Count: 48, Setups: 1, Readings: 3},
		{Step: "transplant", Count: 48, Setups: 1, Readings: 4}, {Step: "transplant", Setups: 1, Readings: 1},
		{Step: "wash", Count: 1, Setups: 1, Readings: 1, Gap: true},
	}
	one := answer.Plan{
		Workflow: "tray", Heads: 48, Goal: answer.GoalWithin, Within: known(0.1), Hours: 61.0 / 60,
		Low: minutes(47), High: minutes(75), Reached: minutes(5), Surely: minutes(6.12), Aim: minutes(6.1), Steps: steps,
	}
	two := one
	two.Other, two.Goal, two.Within = &other, answer.GoalClear, study.Maybe{}
	two.Hours, two.Low, two.High = -7.0/60, minutes(-16), minutes(2)
	with := func(p answer.Plan, change func(*answer.Plan)) answer.Plan { change(&p); return p }
	for want, plan := range map[string]answer.Plan{
		`"tray" takes 61 minutes, give or take 14: that is sure to within 10 % already, no further reading is needed.`: with(one, func(p *answer.Plan) { p.Meets = true }),
		`"tray" takes 61 minutes, give or take 14. About 12 more readings would make that sure to within 10 %: transplant 4 at 12, 4 at 48 and 1 of its setup alone; harvest 3 at 48.`: with(one, func(p *answer.Plan) {
			p.Meets, p.Readings = true, rows
		}),
		`"tray" takes 61 minutes; how much that varies is not known yet. About 4 more readings would make that sure to within 10 %: transplant 4 at 12.`: with(one, func(p *answer.Plan) {
			p.Meets, p.Low, p.High, p.Readings = true, study.Maybe{}, study.Maybe{}, rows[:1]
		}),
		`"tray" takes 61 minutes, give or take 14. About 4 more readings would make that give or take 6.12 minutes or less, four times in five, where 6.10 is asked for, and further ones no better: transplant 4 at 12.`: with(one, func(p *answer.Plan) {
			p.Readings = rows[:1]
		}),
		`"tray" takes 61 minutes, give or take 14. About 4 more readings would make that give or take 15.0000 minutes or less, four times in five, where 0.0061 is asked for, and further ones no better: transplant 4 at 12.`: with(one, func(p *answer.Plan) {
			p.Readings, p.Surely, p.Aim = rows[:1], minutes(15), minutes(0.0061)
		}),
		`"tray" takes 61 minutes, give or take 14. Not within 200 readings: they would make that give or take 6.12 minutes or less, four times in five, where 6.10 is asked for, if they went where they tell most: sow 200 at 1.`: with(one, func(p *answer.Plan) {
			p.Readings = []answer.PlannedReadings{{Step: "sow", Count: 1, Setups: 1, Readings: 200}}
		}),
		`"tray" takes 61 minutes, give or take 14. No further reading would narrow that.`: one,
		`Nothing else that it needs was timed or judged yet.`: with(one, func(p *answer.Plan) {
			p.Steps, p.Meets, p.Gaps = nil, true, []string{"wash"}
		}),
		`48 heads: there is nothing to do for it.`:      with(one, func(p *answer.Plan) { p.Steps, p.Meets = nil, true }),
		`"tray" and "raft" take the same for 48 heads.`: with(two, func(p *answer.Plan) { p.Steps, p.Hours = nil, 0 }),
		`"tray" takes at least 61 minutes, give or take 14: what is known of it is sure to within 10 % already, and needs no further reading.`: with(one, func(p *answer.Plan) {
			p.Meets, p.Gaps = true, []string{"wash"}
		}),
		`In all that is known "raft" takes less than "tray", by 7 minutes, give or take 3. Whether that is a clear difference cannot be told: wash was not timed.`: with(two, func(p *answer.Plan) {
			p.Low, p.High, p.Gaps = minutes(-10), minutes(-4), []string{"wash"}
		}),
		`In all that is known "raft" takes 7.0 minutes less than "tray", but it may be up to 16 minutes less or up to 2 minutes more. Whether that is a clear difference cannot be told: wash was not timed. About 3 more readings would tell most of the rest: harvest 3 at 48.`: with(two, func(p *answer.Plan) {
			p.Readings, p.Gaps = rows[1:2], []string{"wash"}
		}),
		`"raft" takes 7.0 minutes less than "tray" as far as is known, but it may be up to 16 minutes less or up to 2 minutes more. About 3 more readings would make that a clear difference: harvest 3 at 48.`: with(two, func(p *answer.Plan) {
			p.Meets, p.Readings = true, rows[1:2]
		}),
		`"raft" takes less than "tray", by 7 minutes, give or take 3: that is a clear difference already, no further reading is needed.`: with(two, func(p *answer.Plan) {
			p.Meets, p.Low, p.High = true, minutes(-10), minutes(-4)
		}),
		`"raft" takes 7.0 minutes less than "tray"; how much that varies is not known yet. No further reading would narrow that.`: with(two, func(p *answer.Plan) {
			p.Low, p.High = study.Maybe{}, study.Maybe{}
		}),
	} {
		assert.Equal(t, want, planSentence(plan))
	}
	for want, simpler := range map[string]answer.SimplerPlan{
		`But first: check pH is always one a visit. If one is all it can be, say form = "setup" of it in the study: then no further reading is needed.`:             {Steps: []string{"check pH"}, Meets: true},
		`But first: check pH and look are always one a visit. If one is all it can be, say form = "setup" of it in the study: then about 3 more readings would do.`: {Steps: []string{"check pH", "look"}, Meets: true, Readings: 3},
	} {
		doc := Readings(answer.Plans{Plan: with(one, func(p *answer.Plan) { p.Simpler = &simpler })})
		assert.Equal(t, want, doc.Section("plan").Answer[1])
	}
	assert.Empty(t, simplerSentence(one))
	for _, spares := range []answer.SimplerPlan{{Steps: []string{"look"}, Readings: 200}, {Steps: []string{"look"}, Meets: true, Readings: 3}} {
		assert.Empty(t, simplerSentence(with(one, func(p *answer.Plan) { p.Meets, p.Readings, p.Simpler = true, rows[1:2], &spares })), spares)
	}
	assert.Equal(t, "First, once each: wash at 1. Not timed, so what it takes is not in what follows.",
		gapReadingsSentence(answer.Plan{Readings: rows}))
}
