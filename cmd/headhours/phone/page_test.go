package phone

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/folder"
	"headhours/timing/study"
)

// The page in a real browser, one for all of these; each has phones and a server
// of its own.
func TestPage(t *testing.T) {
	t.Parallel()
	phones := newShelf(t)
	for _, c := range []struct {
		name string
		test func(*testing.T, *shelf)
	}{
		{"a whole grow by taps", wholeGrow},
		{"under the computer's own name", underOwnName},
		{"corrections", corrections},
		{"sessions", sessions},
		{"the server goes away and comes back", serverAway},
		{"the network goes away and comes back", networkAway},
		{"pressed while an answer is on its way", pressedMeanwhile},
		{"reloaded in the middle", reloaded},
		{"reloaded while presses wait", reloadedWaiting},
		{"asleep", asleep},
		{"the wall clock is changed", clockChanged},
		{"two phones", twoPhones},
		{"two tabs", twoTabs},
		{"a bouncing finger", bouncing},
		{"a phone that keeps nothing", keepsNothing},
		{"the computer cannot write", cannotWrite},
		{"a journal put back to an older one", journalPutBack},
		{"a new key", newKeyShutsOut},
		{"without the key", noKey},
		{"an attacker's page", attackersPage},
		{"markup in names", markup},
		{"copied out", copiedOut},
		{"what is kept about whom", toldOnce},
		{"forgotten", forgotten},
		{"nothing to count", nothingToCount},
		{"counts still lacking at the end", lackingAtTheEnd},
		{"two of one step lack", twoOfOneStepLack},
		{"lots and the plan", lotsAndThePlan},
		{"paused", pausedIsSaid},
		{"the colours of all pages", sharedColours},
		{"a broken study", brokenStudy},
		{"folds as the core does", foldsAsTheCore},
		{"the next press", nextPress},
		{"count by plan", countByPlan},
		{"a count that lacks", lackingIsNotDone}, {"a grow and its way", growAndWay},
		{"a change is marked", markedChange},
		{"a count that is far off", farOffCount},
		{"in sight", inSight},
		{"a new tab while the computer is away", newTabAway},
		{"a phone clock that is off", clockIsOff},
		{"bad rows are said", badRows},
		{"by keyboard", byKeyboard},
		{"names for a screen reader", named},
		{"sizes and contrast", sizesAndContrast},
		{"large text", largeText},
		{"faults are found", faultsAreFound},
		{"put back", putBack},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			c.test(t, phones)
		})
	}
}

func wholeGrow(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.inHand()
	p.listen()
	p.open(s, "w1")
	assert.False(t, eval[bool](p, "isSecureContext"), "as on a real phone")
	assert.NotContains(t, eval[string](p, "location.href"), "#")

	p.task("soak and fill trays")
	p.pass(4 * minute)
	p.tap("#count")
	p.keys("3")
	p.task("sow") // ends the one, starts the next
	p.pass(90 * second)
	assert.Equal(t, "sow", p.text("#step"))
	p.until(`document.getElementById('clock').textContent === '1:30'`)
	p.tap("#pause")
	p.pass(20 * minute)
	p.tap("#pause")
	p.pass(10 * second)
	p.task("thin") // the count of sow is asked for afterwards
	assert.Contains(t, p.text("#before"), "sow, 1:40: how many seeds?")
	p.press("83 as planned")
	p.pass(minute)
	for range 3 {
		p.tap("#more")
	}
	p.tap("#less")
	p.task("thin") // its own button ends it
	assert.Equal(t, "Nothing runs", p.text("#step"))
	p.pass(5 * minute)
	p.task("transplant")
	p.tap("#people")
	p.press("2")
	p.press("Done")
	p.pass(2 * minute)
	p.tap("#count")
	p.keys("12")
	p.tap("#lot")
	p.pass(100 * second)
	p.tap("#count")
	p.press("12 again")
	p.task("top up")
	p.pass(30 * second)
	p.tap("#count")
	p.keys("7.5")
	p.task("harvest")
	p.pass(8 * minute)
	p.tap("#count")
	p.keys("40")
	p.tap("#note")
	p.write("#sheet textarea", "leaves wet")
	p.press("Done")
	p.tap("#stop")
	p.tap("#end")
	p.saved()
	p.quiet(s)
	assert.GreaterOrEqual(t, eval[int](p, "buzzes.length"), 20, "it buzzes under the finger")

	assert.Equal(t, []string{"soak and fill trays 240s of 3", "sow 100s of 83", "thin 60s of 2",
		"transplant 120s of 12", "transplant 100s of 12", "top up 30s of 7.5", "harvest 480s of 40"}, s.readings())
	require.Len(t, s.journals(), 1)
	assert.Regexp(t, `^2026-03-02T0810-w1-[0-9a-f]{8}$`, s.journals()[0])
	_, state := held(t, s.desk, s.journals()[0])
	assert.Empty(t, state.Warnings)
	assert.False(t, state.Session.Ended.IsZero())
	assert.Equal(t, study.Known(0), state.Readings[4].Setups, "a lot is a lap")
	assert.Equal(t, 2.0, state.Readings[4].People)
	assert.Equal(t, "leaves wet", state.Readings[6].Note)
	assert.Equal(t, "08:10:00 +0100", state.Session.Began.Format("15:04:05 -0700"))

	opened, err := folder.Open(s.dir, nil, folder.How{})
	require.NoError(t, err)
	fits, err := answer.NewModels(opened.Readings, answer.Options{}).Fits(nil)
	require.NoError(t, err)
	for _, f := range fits.Steps {
		if f.Step == "sow" {
			assert.InDelta(t, 100.0/83, f.Unit.Value, 1e-9, "fit follows with no step between")
		}
	}
}

func corrections(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.task("thin") // by mistake
	p.tap("#undo")
	assert.Equal(t, "sow", p.text("#step"))
	p.pass(minute)
	p.task("harvest")
	p.pass(minute)
	p.tap("#stop")

	p.tap("#readings li:last-child button") // the first reading
	p.press("Count")
	p.keys("40")
	p.tap("#readings li:last-child button")
	p.press("When it ended")
	p.run(`document.querySelector('#sheet input').value = '08:09:00'`)
	p.press("Done")
	assert.Contains(t, p.text("#sheet .wrong"), "08:09:00: that has not come yet", "it is taken for tomorrow's")
	p.run(`document.querySelector('#sheet input').value = '08:12:30'`)
	p.press("Done")
	assert.Contains(t, p.text("#sheet .wrong"), "the next step had begun by then")
	p.press("−1 min")
	p.press("Done")
	p.tap("#readings li:first-child button") // the last
	p.press("Another step")
	p.press("weigh")
	p.tap("#readings li:first-child button")
	p.press("Void")
	p.press("tried out")
	p.saved()
	assert.Equal(t, []string{"sow 90s of 40", "weigh 60s void"}, s.readings())
	assert.Contains(t, p.text("#readings li:first-child"), "void: tried out")
	assert.Contains(t, p.text("#sum"), "1 reading, 1:30")

	p.tap("#readings li:first-child button")
	p.press("Count it again")
	p.press("Put right")
	p.press("Count")
	p.keys("0")
	p.saved()
	assert.Equal(t, []string{"sow 90s of 40", "weigh 60s of 0"}, s.readings(), "setup alone")
	assert.Contains(t, p.text("#readings li:first-child"), "setup")

	// while it runs
	p.task("sow")
	p.pass(30 * minute)
	p.until(`document.getElementById('before').textContent.includes('Still at')`)
	p.press("Stopped at …")
	p.press("−5 min")
	p.press("Done")
	p.saved()
	assert.Equal(t, "sow 1500s", s.readings()[2])
	_, state := held(t, s.desk, s.journals()[0])
	assert.Equal(t, study.ByJudgement, state.Readings[2].Source)
}

// A session goes on while it can, and another begins where it must.
func sessions(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.tap("#who")
	p.fill("#sheet input[maxlength='20']", "w2")
	p.tap("#sheet input[value='in place']")
	p.press("Done")
	p.until("document.querySelectorAll('#tasks .task').length === 2")
	assert.Equal(t, "sow", p.text("#step"), "what runs goes on")
	p.task("harvest")
	p.pass(minute)
	p.tap("#end")
	p.press("Later")
	p.tap("#undo")
	assert.Equal(t, "harvest", p.text("#step"), "work had not ended")
	p.tap("#stop")
	p.pass(24 * hour)
	p.task("sow") // the next day
	p.pass(minute)
	p.tap("#end")
	p.press("Later")
	p.pass(minute)
	p.task("sow") // after work had ended
	p.pass(minute)
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"sow 60s", "harvest 60s", "sow 60s", "sow 60s"}, s.readings())
	var who []string
	for _, name := range s.journals() {
		_, state := held(t, s.desk, name)
		assert.Empty(t, state.Warnings)
		assert.Less(t, state.Unnamed, minute, "no night is anybody's time")
		who = append(who, name[:18]+" "+state.Readings[0].Workflow)
	}
	assert.Equal(t, []string{"2026-03-02T0810-w1 tray, two seeds", "2026-03-02T0811-w2 in place", "2026-03-03T0812-w2 in place", "2026-03-03T0814-w2 in place"}, who)
	p.reload()
	p.until(`study && link === 'here'`)
	p.saved()
	assert.Equal(t, 2, eval[int](p, "document.querySelectorAll('#readings li').length"), "of today")
	assert.Equal(t, "in place · w2", p.text("#who"), "it is remembered, and the grow of another way went with that")
}

// forgotten asks what became of a reading that has run for long.
func forgotten(t *testing.T, phones *shelf) {
	s := newStation(t)
	put(t, s.dir+"/timings/a.csv", "step,count,time\nsow,40,60\n")
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(3*minute - second)
	p.run("tick()")
	assert.NotContains(t, p.text("body"), "Still at")
	p.pass(2 * second)
	p.until(`document.getElementById('before').textContent === 'Still at “sow”? When did you stop?'`)
	p.picture("forgotten")
	p.press("Still at it")
	assert.NotContains(t, p.text("body"), "Still at")
	p.pass(4 * minute)
	p.until(`document.getElementById('before').textContent.includes('Still at')`)
}

func toldOnce(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.do(chromedp.Navigate(s.invite(p)))
	p.until(`document.getElementById('sheet').open`)
	assert.Contains(t, p.text("#sheet"), "Use codes, not names")
	p.picture("first")
	p.press("Done")
	p.reload()
	p.until(`study && link === 'here'`)
	assert.False(t, eval[bool](p, `document.getElementById('sheet').open`))
	p.tap("#kept")
	assert.Contains(t, p.text("#sheet"), "Use codes, not names")
	p.press("Back")
	p.tap("#who")
	assert.NotContains(t, p.text("#sheet"), "Use codes, not names")
}

func markup(t *testing.T, phones *shelf) {
	const evil = `<img src=x onerror="document.title='had'">`
	s := newStation(t)
	put(t, s.dir+"/study.toml", strings.NewReplacer("<i>check</i> pH", strings.ReplaceAll(evil, `"`, `\"`), `name = "g5"`, `name = "<b>g5</b>"`).Replace(aStudy))
	p := newPhone(t, phones, tall)
	p.listen()
	p.open(s, "<b>Ana</b>")
	p.run(`document.getElementById('others').open = true`)
	p.run(`[...document.querySelectorAll('.task')].at(-1).setAttribute('id', 'evil')`)
	p.tap("#evil")
	p.pass(second)
	p.tap("#note")
	p.write("#sheet textarea", evil)
	p.press("Done")
	p.tap("#stop")
	p.press("Put right")
	p.saved()
	assert.Equal(t, evil, p.text("#sheet-title"))
	p.press("Back")
	assert.Contains(t, p.text("#readings"), "<b>Ana</b> · "+evil)
	assert.Contains(t, p.text("#who"), "<b>g5</b> · <b>Ana</b>")
	assert.Zero(t, eval[int](p, `document.querySelectorAll('img, main i:not(.task > span > i:first-child), #who b, #readings i').length`))
	p.quiet(s)
	two := newPhone(t, phones, tall)
	two.open(s, "w2")
	two.until(`document.querySelector('.foreign')`)
	assert.Contains(t, two.text(".foreign"), "<b>Ana</b>")
	assert.Zero(t, eval[int](two, `document.querySelectorAll('img').length`))
	_, state := held(t, s.desk, s.journals()[0])
	assert.Equal(t, "<b>Ana</b>", state.Session.Worker)
}
