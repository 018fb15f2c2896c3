package phone

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

func twoPhones(t *testing.T, phones *shelf) {
	s := newStation(t)
	one, two := newPhone(t, phones, tall), newPhone(t, phones, small)
	one.open(s, "w1")
	two.open(s, "w2")
	one.task("sow")
	two.task("thin")
	one.pass(minute)
	two.pass(2 * minute)
	one.tap("#more")
	one.tap("#stop")
	two.tap("#stop")
	two.saved()
	one.saved()
	assert.ElementsMatch(t, []string{"sow 60s of 1", "thin 120s"}, s.readings())
	assert.Len(t, s.journals(), 2)
	// what was asked for before may have been on its way still
	one.until(`(send(), document.getElementById('sum').textContent.startsWith('2 readings, 3:00'))`)
	assert.Contains(t, one.text(".foreign"), "w2 · another recorder")
	assert.Zero(t, eval[int](one, `document.querySelectorAll('.foreign button').length`), "put right where it was recorded")
}

// Two tabs of one phone are one recorder.
func twoTabs(t *testing.T, phones *shelf) {
	s := newStation(t)
	one := newPhone(t, phones, tall)
	one.open(s, "w1")
	two := one.another(tall)
	two.do(chromedp.Navigate(s.url(two)))
	two.until(`study && link === 'here'`)
	assert.False(t, eval[bool](two, `document.getElementById('sheet').open`), "who it is is known")
	s.down() // each hears of the other without the server
	one.task("sow")
	two.until(`document.getElementById('step').textContent === 'sow'`)
	two.pass(minute)
	two.tap("#more")
	one.until(`document.getElementById('count').textContent.startsWith('1 ')`)
	one.pass(minute)
	one.tap("#more")
	two.until(`document.getElementById('count').textContent.startsWith('2 ')`)
	for _, p := range []*phone{one, two, one} {
		p.run("press([{kind: 'note', text: 'both'}])")
	}
	two.tap("#stop")
	s.up()
	one.saved()
	two.saved()
	assert.Equal(t, []string{"sow 60s of 2"}, s.readings())
	_, state := held(t, s.desk, s.journals()[0])
	assert.Empty(t, state.Warnings, "every number once")
	assert.Equal(t, "both; both; both", state.Readings[0].Note)
}

func bouncing(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.run(`const b = document.querySelector('.task[data-step="sow"]'); for (let i = 0; i < 4; i++) b.click(); await turn`)
	p.pass(minute)
	assert.Equal(t, "sow", p.text("#step"), "still, after three more taps at once")
	p.run(`for (let i = 0; i < 3; i++) document.getElementById('more').click()`) // counting may be as quick as can be
	p.run("await turn")
	p.tap("#stop")
	p.saved()
	assert.Equal(t, []string{"sow 60s of 3"}, s.readings())
}
