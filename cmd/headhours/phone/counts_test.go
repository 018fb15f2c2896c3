package phone

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"headhours/timing/study"
)

// Of work that is done once a visit nobody is asked how much it was.
func nothingToCount(t *testing.T, phones *shelf) {
	s := newStation(t)
	put(t, s.dir+"/study.toml", withFixedCounts)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("weigh")
	p.pass(minute)
	assert.Equal(t, "1 head", p.text("#count"))
	for _, id := range []string{"#less", "#count", "#more", "#lot"} {
		assert.True(t, eval[bool](p, `document.querySelector("`+id+`").disabled`), id)
	}
	p.picture("fixed")
	p.run(`document.getElementById('others').open = true`)
	p.task("<i>check</i> pH")
	p.pass(minute)
	assert.NotContains(t, p.text("#before"), "how many")
	p.task("sow")
	assert.False(t, eval[bool](p, `document.querySelector("#count").disabled`), "this is counted")
	p.tap("#count")
	assert.Contains(t, p.text("#sheet"), "0 means setup alone.")
	p.keys("50")
	p.pass(minute)
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"weigh 60s of 1", "<i>check</i> pH 60s of 2", "sow 60s of 50"}, s.readings())

	// it can be put right all the same
	p.tap("#readings li:last-child button")
	p.press("Count")
	assert.NotContains(t, p.text("#sheet"), "setup alone")
	p.keys("0")
	assert.Contains(t, p.text("#sheet .wrong"), "It is 1 each time")
	p.press("⌫")
	p.keys("3")
	p.saved()
	assert.Equal(t, "weigh 60s of 3", s.readings()[0])

	// a step put in place of another has its own count
	p.press("Put right")
	p.press("Another step")
	p.press("weigh")
	p.saved()
	assert.Equal(t, "weigh 60s of 1", s.readings()[2])
	p.press("Put right")
	p.press("Another step")
	p.press("transplant")
	p.until(`document.getElementById('sheet-title').textContent === 'transplant: how many?'`)
	p.keys("7")
	p.saved()
	assert.Equal(t, "transplant 60s of 7", s.readings()[2])
}

// When work ends, what lacks a count is named and can be given one there.
func lackingAtTheEnd(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.task("thin")
	p.pass(2 * minute)
	p.tap("#count")
	p.keys("9")
	p.task("transplant")
	p.pass(3 * minute)
	p.tap("#end")
	p.pass(hour) // the clock does not wait for the counts
	assert.Equal(t, "Work has ended", p.text("#sheet-title"))
	assert.Contains(t, p.text("#sheet"), "2 readings still need a count")
	assert.Regexp(t, `(?s)08:10\s+sow\s+1:00.*08:13\s+transplant\s+3:00`, p.text("#sheet ul"))
	assert.NotContains(t, p.text("#sheet ul"), "thin")
	p.picture("end")
	p.tap("#sheet li:first-child button")
	p.press("Back")
	p.until(`document.getElementById('sheet-title').textContent === 'Work has ended'`)
	p.tap("#sheet li:first-child button")
	p.keys("80")
	p.until(`document.querySelectorAll('#sheet[open] li').length === 1`)
	assert.Contains(t, p.text("#sheet"), "1 reading still needs a count")
	p.tap("#sheet li:last-child button")
	p.press("40 as planned")
	p.until(`!document.getElementById('sheet').open`)
	p.saved()
	assert.Equal(t, []string{"sow 60s of 80", "thin 120s of 9", "transplant 180s of 40"}, s.readings())
	_, state := held(t, s.desk, s.journals()[0])
	assert.Empty(t, state.Warnings)

	p.task("sow") // in a session of its own
	p.pass(minute)
	p.tap("#count")
	p.keys("30")
	p.tap("#end")
	assert.False(t, eval[bool](p, `document.getElementById('sheet').open`), "nothing lacks")
}

// Of two readings of one step that lack their counts the newest is asked for first, which
// is the one that the buttons above count; the other is told by when it began.
func twoOfOneStepLack(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.tap("#lot")
	p.pass(2 * minute)
	assert.Contains(t, p.text("#before"), "sow from 08:10:00, 1:00: how many seeds?", "the other runs")
	p.tap("#stop")
	assert.Contains(t, p.text("#before"), "sow, 2:00: how many seeds?")
	assert.Equal(t, "? seeds, sow", p.text("#count"))
	p.picture("two-lack")
	p.tap("#more")
	assert.Equal(t, "1 seed, sow", p.text("#count"))
	assert.Contains(t, p.text("#before"), "sow from 08:10:00, 1:00: how many seeds?")
	p.tap("#more")
	assert.Equal(t, "2 seeds, sow", p.text("#count"), "what is counted stays under the finger")
	p.press("Count …")
	p.keys("40")
	assert.Contains(t, p.text("#before"), "Last: sow, 2:00, 2 seeds")
	p.saved()
	assert.Equal(t, []string{"sow 60s of 40", "sow 120s of 2"}, s.readings())
}

// Of a visit in lots the plan is offered as far as the lots leave it.
func lotsAndThePlan(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	offered := func() string {
		p.tap("#count")
		text := eval[string](p, `[...document.querySelectorAll('#sheet .row')].map(r => r.textContent).join()`)
		p.press("Back")
		return text
	}
	p.task("transplant")
	p.pass(minute)
	assert.Equal(t, "40 as planned,BackDone", offered())
	p.tap("#lot")
	p.pass(minute)
	assert.Contains(t, p.text("#before"), "transplant from 08:10:00, 1:00: how many plants?")
	assert.NotContains(t, p.text("#ask"), "plan", "it was not the whole of it")
	assert.NotContains(t, offered(), "plan", "what the first lot leaves is not known")
	p.press("Count …")
	p.keys("12")
	assert.Equal(t, "12 again28 left of the plan,BackDone", offered())
	p.tap("#count")
	p.press("28 left of the plan")
	p.tap("#lot")
	assert.NotContains(t, offered(), "plan", "nothing is left")
	p.tap("#undo")
	p.task("harvest")
	p.pass(minute)
	assert.Equal(t, "40 as planned,BackDone", offered())
	p.tap("#stop")
	p.task("transplant") // another visit
	assert.Equal(t, "28 again40 as planned,BackDone", offered())
	p.tap("#stop")
	p.saved()
	_, state := held(t, s.desk, s.journals()[0])
	assert.Equal(t, []string{"transplant 60s of 12", "transplant 60s of 28", "harvest 60s", "transplant 0s"}, told(state))
	assert.Equal(t, study.Known(0), state.Readings[1].Setups)
}

// What is paused does not run, and for how long it was is told.
func pausedIsSaid(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(3 * minute)
	assert.Contains(t, p.text("#readings"), "running")
	p.tap("#pause")
	p.pass(90 * second)
	assert.Contains(t, p.text("#readings"), "paused")
	assert.NotContains(t, p.text("#readings"), "running")
	p.tap("#readings button")
	assert.Contains(t, p.text("#sheet p"), "08:10:00, paused · 3:00 · paused for 1:30 · no count")
	p.picture("paused-sheet")
	p.press("Back")
	p.saved()
	two := newPhone(t, phones, tall)
	two.open(s, "w2")
	two.until(`document.querySelector('.foreign')`)
	assert.Contains(t, two.text(".foreign"), "paused · w1")

	p.tap("#pause")
	p.pass(minute)
	p.tap("#readings button")
	assert.Contains(t, p.text("#sheet p"), "08:10:00, running · 4:00 · paused for 1:30")
	p.press("Back")
	p.tap("#pause")
	p.pass(5 * minute)
	p.tap("#stop") // it ended when it was paused
	p.pass(minute)
	p.press("Put right")
	assert.Contains(t, p.text("#sheet p"), "08:10:00 to 08:15:30 · 4:00 · paused for 1:30")
}
