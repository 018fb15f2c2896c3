package phone

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What comes next by the plan is one tap, and what is done is ticked.
func nextPress(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	assert.Equal(t, "Next: soak and fill trays", p.text("#next"))
	p.tap("#next")
	assert.Equal(t, "soak and fill trays", p.text("#step"))
	assert.Equal(t, "? trays", p.text("#count"))
	assert.Equal(t, "Next: sow", p.text("#next"))
	p.pass(minute)
	p.tap("#count")
	p.press("3 as planned")
	p.tap("#next")
	assert.Equal(t, "✓ soak and fill trays\ndone · day 0 · 3 trays", p.text(`.task[data-step="soak and fill trays"]`))
	assert.Equal(t, "day 20: 20 litres, day 30: 28 litres", p.text(`.task[data-step="top up"] small`))
	p.pass(minute)
	p.tap("#count")
	p.keys("40")
	p.tap("#stop")
	assert.Equal(t, "sow\n40 of 83 seeds", p.text(`.task[data-step="sow"]`), "some are left to do")
	assert.Equal(t, "Next: thin", p.text("#next"))
	for _, step := range []string{"thin", "transplant", "top up", "harvest"} {
		p.task(step)
	}
	p.pass(minute)
	p.tap("#stop")
	assert.Equal(t, "Next: sow", p.text("#next"), "what was left")
	p.tap("#readings li:last-child .right-it")
	assert.Equal(t, "soak and fill trays", p.text("#sheet-title"))
	p.press("Back")
	p.saved()
	assert.Equal(t, []string{"soak and fill trays 60s of 3", "sow 60s of 40"}, s.readings()[:2])
}

// Of a task of which a count lacks nobody knows whether it is done.
func lackingIsNotDone(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.tap("#count")
	p.keys("10.5")
	p.tap("#lot")
	p.pass(minute)
	p.tap("#stop")
	assert.Equal(t, "sow\nneeds a count · 11 of 83 seeds", p.text(`.task[data-step="sow"]`))
	assert.Equal(t, "Next: thin", p.text("#next"), "it is timed all the same")
	p.tap("#count")
	p.keys("72.5")
	assert.Equal(t, "✓ sow\ndone · day 0 · 83 seeds", p.text(`.task[data-step="sow"]`))
	p.saved()
}

// The form goes by the way of the grow that it offers, as the study or the log has it, and
// either of the two brings the other.
func growAndWay(t *testing.T, phones *shelf) {
	s := newStation(t)
	put(t, s.dir+"/timings/a.csv", "grow,workflow,step,count,time\nc2,in place,sow,40,60\nc2,\"tray, two seeds\",sow,40,60\nc1,,sow,40,60\nc1,in place,sow,40,60\n")
	require.True(t, s.desk.usual.Latest(time.Minute).Ready)
	p := newPhone(t, phones, tall)
	p.do(chromedp.Navigate(s.invite(p)))
	p.until(`document.getElementById('sheet').open`)
	grow, way := `document.querySelector("#sheet input[list='grows']").value`, `document.querySelector("#sheet input[type=radio]:checked").value`
	pair := func() [2]string { return [2]string{eval[string](p, grow), eval[string](p, way)} }
	assert.Equal(t, [2]string{"c1", "in place"}, pair(), "at first")
	p.tap(`#sheet input[value="tray, two seeds"]`)
	assert.Equal(t, [2]string{"g5", "tray, two seeds"}, pair(), "the last of that way")
	p.fill("#sheet input[list='grows']", "c2")
	assert.Equal(t, [2]string{"c2", "tray, two seeds"}, pair(), "it is of two ways, so of none that is known")
	p.tap(`#sheet input[value="in place"]`)
	assert.Equal(t, [2]string{"c2", "in place"}, pair())
	p.fill("#sheet input[list='grows']", "g5")
	assert.Equal(t, [2]string{"g5", "tray, two seeds"}, pair())
	p.tap(`#sheet input[value="in place"]`)
	assert.Equal(t, [2]string{"c1", "in place"}, pair())
	p.press("Done")
	p.task("sow")
	p.saved()
	_, state := held(t, s.desk, s.journals()[0])
	assert.Equal(t, [2]string{"c1", "in place"}, [2]string{state.Readings[0].Grow, state.Readings[0].Workflow})
}

// Count by plan is off at first; then Next counts what it ends, with a note.
func countByPlan(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.tap("#next")
	p.pass(minute)
	p.tap("#next")
	p.saved()
	assert.Equal(t, []string{"soak and fill trays 60s", "sow 0s"}, s.readings())
	p.tap("#who")
	assert.False(t, eval[bool](p, `document.querySelector('#sheet input[type=checkbox]').checked`))
	p.tap("#sheet input[type=checkbox]")
	p.press("Done")
	p.until(`document.querySelector('#next small').textContent === 'sow: 83 seeds by plan'`)
	assert.Equal(t, "Next: thin\nsow: 83 seeds by plan", p.text("#next"))
	p.pass(minute)
	p.tap("#next")
	p.pass(minute)
	p.tap("#count")
	p.keys("20")
	assert.Equal(t, "Next: transplant", p.text("#next"), "it is counted already")
	p.tap("#next")
	p.saved()
	assert.Equal(t, []string{"soak and fill trays 60s", "sow 60s of 83", "thin 60s of 20", "transplant 0s"}, s.readings())
	_, state := held(t, s.desk, s.journals()[0])
	assert.Equal(t, []string{"", planNote, "", ""}, []string{state.Readings[0].Note, state.Readings[1].Note, state.Readings[2].Note, state.Readings[3].Note})
}

// planNote is what a reading says that was counted by the plan.
const planNote = "counted by plan"

// A count ten times off what is due is asked about, and taken when it is said again.
func farOffCount(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("transplant")
	p.pass(minute)
	for _, n := range []string{"400", "4"} {
		p.tap("#count")
		p.keys(n)
		assert.Equal(t, n+" plants, where 40 plants are due? Press Done again if that is right.", p.text("#sheet .wrong"))
		p.press("Done")
		assert.False(t, eval[bool](p, `document.getElementById('sheet').open`))
	}
	p.tap("#count")
	p.keys("39")
	assert.False(t, eval[bool](p, `document.getElementById('sheet').open`))
	p.run(`document.getElementById('others').open = true`)
	p.task("<i>check</i> pH")
	p.tap("#more")
	assert.True(t, eval[bool](p, `document.getElementById('more').disabled`), "2 of 1 visit")
	assert.True(t, eval[bool](p, `document.getElementById('lot').disabled`), "a lap would be one more")
	p.saved()
	assert.Equal(t, []string{"transplant 60s of 39", "<i>check</i> pH 0s of 1"}, s.readings())
}

// On the smallest screens, upright and lying, what is pressed next is in sight
// without scrolling, while presses wait too, and Undo is apart from Stop.
func inSight(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, small)
	p.open(s, "w1")
	p.task("soak and fill trays")
	p.saved()
	see := func(state string, also func(size), ids ...string) {
		t.Helper()
		for _, size := range []size{{568, 320}, tall, wide, {768, 1024}, {1024, 768}, small} {
			p.resize(size)
			p.run("scrollTo(0, 0); tick()")
			p.picture(fmt.Sprintf("sight-%d-%s", size.width, state))
			for _, id := range ids {
				assert.True(t, eval[bool](p, fmt.Sprintf(`(() => { const b = document.getElementById(%q).getBoundingClientRect(); return b.height > 0 && b.top >= 0 && b.bottom <= innerHeight })()`, id)), "%d: %s %s", size.width, state, id)
			}
			also(size)
		}
	}
	see("runs", func(size size) {
		apart := eval[float64](p, `(() => { const [a, b] = ['undo', 'stop'].map(id => document.getElementById(id).getBoundingClientRect()); return Math.max(a.top - b.bottom, b.left - a.right) })()`)
		assert.Greater(t, apart, 60.0, size.width)
	}, "step", "clock", "next", "stop")
	s.down()
	p.tap("#next")
	p.until(`link === 'away'`)
	assert.Equal(t, "1 press waits here", p.text("#waits"))
	see("waits", func(size) {}, "step", "clock", "next", "stop", "waits")
	s.up()
	p.saved()
	assert.True(t, eval[bool](p, `document.getElementById('waits').hidden`))
}

// The page is kept by the phone: a new tab opens it while the computer is away, and
// its presses are sent later.
func newTabAway(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.saved()
	s.down()
	p.run("send()")
	p.until(`document.getElementById('trouble').textContent.includes('do not reload')`)
	two := p.another(tall)
	two.do(chromedp.Navigate(s.url(two)))
	two.until(`study && link === 'away' && document.getElementById('step').textContent === 'sow'`)
	two.pass(minute)
	two.tap("#stop")
	assert.Contains(t, two.text("#trouble"), "Do not reload it")
	s.up()
	two.saved()
	assert.Len(t, s.readings(), 1)
}

// A clock that is years off is put right at first contact, and that is said.
func clockIsOff(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	s.desk.now = func() time.Time { return time.Date(2027, 3, 2, 9, 0, 0, 0, time.UTC) } // the phone's is of 2026
	p.open(s, "w1")
	assert.Contains(t, p.text("#trouble"), "This phone’s clock is 365 days slow: the computer’s time is taken")
	p.task("sow")
	p.pass(minute)
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"sow 60s"}, s.readings())
	assert.True(t, strings.HasPrefix(s.journals()[0], "2027-03-02T1000-w1-"), s.journals()[0])
	s.desk.now = func() time.Time { return time.Date(2026, 3, 2, 7, 11, 30, 0, time.UTC) } // half a minute is let be
	p.run("send()")
	p.until(`!document.getElementById('trouble').textContent.includes('clock')`)
}

// Mistakes in a log are said on the phone, which goes on.
func badRows(t *testing.T, phones *shelf) {
	s := newStation(t)
	put(t, s.dir+"/timings/a.csv", "step,count,time\nsow,x,100\n")
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.until(`document.getElementById('odd').textContent.includes('timings/a.csv:2:')`)
	assert.Contains(t, p.text("#odd"), "so what is usual is not known: headhours check lists them")
	p.task("sow")
	p.saved()
	assert.Equal(t, []string{"sow 0s"}, s.readings())
}

// That work is done otherwise from now on stands in the journal with its time, and the page
// shows what to write on the computer.
func markedChange(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, small)
	p.open(s, "w1")
	p.task("sow")
	p.pass(minute)
	p.tap("#change")
	assert.Equal(t, "sow", eval[string](p, "document.querySelector('#sheet select').value"))
	p.press("Done")
	assert.Equal(t, "Name it: a tool, a layout, a habit.", p.text(".wrong"))
	p.run("document.querySelector('#sheet input').value = 'dibber \"board\"'")
	p.picture("change")
	p.press("Done")
	p.until("document.querySelector('#sheet textarea')")
	assert.Equal(t, "[[change]]\nname = \"dibber \\\"board\\\"\"\nstep = \"sow\"\nsince = \"2026-03-02\"\n# outlay = 0.00    # what it cost, if anything\n",
		eval[string](p, "document.querySelector('#sheet textarea').value"))
	p.picture("changed")
	p.press("Back")
	p.pass(minute)
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"sow 120s"}, s.readings())
	_, state := held(t, s.desk, s.journals()[0])
	require.Len(t, state.Changes, 1)
	assert.Equal(t, []string{`dibber "board"`, "sow", "08:11"}, []string{state.Changes[0].Name, state.Changes[0].Step, state.Changes[0].At.Format("15:04")})
}
