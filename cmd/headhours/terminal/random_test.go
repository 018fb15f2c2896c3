package terminal

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// player presses random keys of a screen and keeps a plain list of what they come to, with
// what it was before each press that stands.
type player struct {
	*bench
	r      *rand.Rand
	began  time.Time
	now    plainDesk
	before []plainDesk
	log    []string // of keys
}

func newPlayer(t *testing.T, r *rand.Rand) *player {
	b := newBench(t, all)
	return &player{bench: b, r: r, began: b.hand.Wall, now: plainDesk{people: 1}}
}

// at is the moment in milliseconds.
func (p *player) at() int64 { return p.hand.Wall.Sub(p.began).Milliseconds() }

func (p *player) press(keys ...string) {
	p.log = append(p.log, keys...)
	p.keys(keys...)
}

// did notes a press that stands.
func (p *player) did(change func(d *plainDesk)) {
	p.before = append(p.before, p.now.copied())
	change(&p.now)
}

// moves are what a player may do, the more often the more numerous.
func (p *player) move() {
	n := len(p.now.readings)
	switch k := p.r.IntN(40); {
	case k < 9:
		p.space()
	case k < 12:
		t := p.at()
		p.press("l")
		if n > 0 && p.per(p.now.readings[n-1].step) != "visit" {
			p.did(func(d *plainDesk) { d.lap(t) })
		}
	case k < 14:
		t := p.at()
		p.press("e")
		if p.now.running() != nil {
			p.did(func(d *plainDesk) { d.stop(t) })
		}
	case k < 18:
		p.pause()
	case k < 20:
		p.hire()
	case k < 25:
		p.number()
	case k < 28:
		p.undo()
	case k < 29:
		p.takeDue()
	case k < 31:
		p.text()
	case k < 33:
		p.endedAgo()
	case k < 36:
		p.amend()
	case k < 37:
		p.press("o", "1", "'lamp", "enter", "enter")
		p.did(func(d *plainDesk) { d.changes++ })
	case k < 38:
		p.press([]string{"g", "a", "n", "v", "t"}[p.r.IntN(5)], "esc", "up", "x", "y", "f1")
	case k < 39:
		p.press([]string{"up", "down"}[p.r.IntN(2)])
	default:
		p.restart()
	}
}

func (p *player) space() {
	i, t := p.screen.marked(), p.at()
	runs, paused := p.now.running() != nil, p.now.paused()
	var to task
	if i >= 0 {
		to = p.tasks[i]
	}
	p.press("space")
	count := study.Maybe{}
	if to.Fixed {
		count = to.Count
	}
	switch {
	case paused:
		p.did(func(d *plainDesk) { d.resume(t) })
	case i >= 0:
		p.did(func(d *plainDesk) { d.begin(t, to.Step, count) })
	case runs:
		p.did(func(d *plainDesk) { d.stop(t) })
	}
}

func (p *player) pause() {
	t := p.at()
	p.press("p")
	switch {
	case p.now.paused():
		p.did(func(d *plainDesk) { d.resume(t) })
	case p.now.running() != nil:
		p.did(func(d *plainDesk) { d.pause(t) })
	}
}

func (p *player) hire() {
	t, by := p.at(), float64(1-2*p.r.IntN(2))
	p.press(map[float64]string{1: "+", -1: "-"}[by])
	if n := p.now.people + by; n > 0 {
		p.did(func(d *plainDesk) { d.hire(t, n) })
	}
}

// number types a count of up to three digits, and may take the last back.
func (p *player) number() {
	at := p.now.uncounted()
	if at < 0 {
		at = len(p.now.readings) - 1 // the one that runs, else the last
	}
	p.press("x") // what was typed before is another number
	typed := 0.0
	taken := 0
	for range 1 + p.r.IntN(3) {
		digit := p.r.IntN(10)
		p.press(fmt.Sprint(digit))
		n := 10*typed + float64(digit)
		if at < 0 || p.per(p.now.readings[at].step) == "visit" && n > 1 {
			continue
		}
		typed = n
		taken++
		p.did(func(d *plainDesk) { d.readings[at].count = study.Known(n) })
	}
	if taken > 0 && p.r.IntN(3) == 0 {
		p.press("backspace")
		p.back()
	}
}

func (p *player) back() {
	p.now = p.before[len(p.before)-1]
	p.before = p.before[:len(p.before)-1]
}

func (p *player) undo() {
	p.press("u")
	if len(p.before) > 0 {
		p.back()
	}
}

func (p *player) takeDue() {
	at := p.now.uncounted()
	due, ok := study.Maybe{}, false
	if at >= 0 {
		due.Value, ok = p.planned(p.state.Readings[at])
	}
	p.press("c")
	if due.Known = ok; ok {
		p.did(func(d *plainDesk) { d.readings[at].count = due })
	}
}

// text adds a note or voids what runs or ended last.
func (p *player) text() {
	last := len(p.now.readings) - 1
	if p.r.IntN(3) == 0 && last >= 0 {
		p.press("v", "3", "enter")
		p.did(func(d *plainDesk) { d.readings[last].void = "wrong step" })
		return
	}
	p.press("n", "'wet", "enter")
	join := func(notes *string) { *notes = strings.TrimPrefix(*notes+"; wet", "; ") }
	p.did(func(d *plainDesk) {
		if last < 0 {
			join(&d.notes)
			return
		}
		join(&d.readings[last].note)
	})
}

func (p *player) endedAgo() {
	if len(p.now.readings) == 0 {
		p.press("t")
		return
	}
	seconds := int64(p.r.IntN(200))
	p.press("t", "'"+fmt.Sprint(seconds)+" s")
	now := p.at()
	p.press("enter")
	old := p.now.copied()
	if !p.now.endedAt(now-1000*seconds, now) {
		p.press("esc")
		return
	}
	p.before = append(p.before, old)
}

func (p *player) amend() {
	n := len(p.now.readings)
	if n == 0 {
		p.press("a")
		return
	}
	back := p.r.IntN(min(n, 9))
	at := n - 1 - back
	p.press("a", fmt.Sprint(back+1))
	x := float64(1 + p.r.IntN(60))
	switch p.r.IntN(4) {
	case 0:
		p.press("p", "'"+words.UpTo(x, 2), "enter")
		p.did(func(d *plainDesk) { d.readings[at].average = study.Known(x) })
	case 1:
		p.press("r", "'"+words.UpTo(x, 2), "enter")
		p.did(func(d *plainDesk) { d.readings[at].setups = study.Known(x) })
	case 2:
		step := p.r.IntN(len(p.study.Steps))
		p.press("s", fmt.Sprint(step+1))
		p.did(func(d *plainDesk) { d.readings[at].step = p.study.Steps[step].Name })
	default:
		p.press("c", "'"+words.UpTo(x, 2), "enter")
		if _, asks := p.screen.mode.(ask); asks { // it is odd
			p.press("enter")
		}
		if p.per(p.now.readings[at].step) == "visit" && x > 1 {
			p.press("esc")
			return
		}
		p.did(func(d *plainDesk) { d.readings[at].count = study.Known(x) })
	}
}

// restart ends the program and takes the session up in another, by a clock that may have
// begun anew.
func (p *player) restart() {
	name := p.state.Session.Name
	if name == "" {
		return
	}
	p.log = append(p.log, "restart")
	require.NoError(p.t, p.close())
	if p.r.IntN(2) == 0 {
		p.hand.Boot, p.hand.Mono = fmt.Sprint("b", p.hand.Mono), 7
	}
	again := benchIn(p.t, p.dir, p.hand, all)
	p.bench = again
	require.NoError(p.t, p.takeUp(name))
	p.screen.mode, p.screen.questions = workMode{}, nil
}

// holds compares the list with the session at hand, and with the journal on the disk.
func (p *player) holds(disk bool) {
	p.t.Helper()
	want := p.now.told()
	require.Equal(p.t, want, toldPlainly(p.state, p.now.moved), "%v", p.log)
	if !disk {
		return
	}
	states, problems := stopwatch.ReadFolder(filepath.Join(p.dir, "journal"), nil)
	require.Empty(p.t, problems)
	if p.state.Session.Name == "" {
		require.Empty(p.t, states)
		return
	}
	require.Len(p.t, states, 1)
	require.Equal(p.t, want, toldPlainly(states[0], p.now.moved), "%v", p.log)
	require.Empty(p.t, states[0].Warnings)
}

// Whatever is pressed, the session is the plain list that was kept of it, on the screen and
// on the disk, after every key and every restart; an undo goes back to what was before.
func TestRandomKeysAreAPlainList(t *testing.T) {
	for seed := range uint64(6) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			p := newPlayer(t, rand.New(rand.NewPCG(seed, 21)))
			for i := range 50 {
				if p.r.IntN(3) == 0 {
					p.hand.run(time.Duration(p.r.IntN(200_000)) * time.Millisecond)
				}
				p.move()
				p.holds(i%4 == 0)
				p.shown(20+p.r.IntN(100), 3+p.r.IntN(30))
			}
			assert.Greater(t, len(p.before), 10, "the play is worth it")
			for len(p.before) > 0 { // all the way back
				p.undo()
				p.holds(len(p.before)%9 == 0)
			}
			assert.Greater(t, len(p.log), 100)
		})
	}
}
