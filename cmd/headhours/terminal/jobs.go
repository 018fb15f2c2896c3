package terminal

import (
	"sync"

	"headhours/timing/stopwatch"
)

// program stands between the screen and the terminal. A key gets its time as it comes;
// a goroutine of its own then does what the keys ask for, one after the other, so that
// none is stamped late because the disk is slow.
type program struct {
	*recorder
	screen        *screen
	width, height int
	clock         func() stopwatch.Instant

	mu     sync.Mutex // of the recorder and the screen
	jobs   chan job   // nil: keys are done as they come
	ended  chan struct{}
	last   []painted // at last
	redraw func()    // once something has changed by itself; may be nil
}

// job is a key that was pressed, or the next second of the clock.
type job struct {
	key      keystroke
	at       stopwatch.Instant
	tick     bool
	outcomes chan outcome
}

// maxKeys is how many keys may wait to be done, each with its time.
const maxKeys = 4096

// work does keys as they come until stop is called, which waits for those that have come.
func (p *program) work() (stop func()) {
	p.jobs, p.ended = make(chan job, maxKeys), make(chan struct{})
	go func() {
		defer close(p.ended)
		for j := range p.jobs {
			p.one(j)
		}
	}()
	return func() { close(p.jobs); <-p.ended }
}

// one does what a key asks for, and once that shows what it leaves to be done.
func (p *program) one(j job) outcome {
	p.mu.Lock()
	do := outcome{}
	if j.tick {
		p.save()
	} else {
		do = p.take(j.key, j.at)
	}
	p.mu.Unlock()
	if j.outcomes != nil {
		j.outcomes <- do
	}
	p.mu.Lock()
	before, ready := p.verdicts, p.latest.Ready
	if news := p.afterwards(); news != "" {
		p.screen.notice = news
	}
	changed := p.verdicts != before || p.latest.Ready != ready
	p.mu.Unlock()
	if changed && p.redraw != nil {
		p.redraw()
	}
	return do
}

func (p *program) take(k keystroke, at stopwatch.Instant) outcome {
	p.at = at
	do := p.screen.key(k, at)
	for do.then != nil || len(do.events) > 0 || do.takeUp != "" {
		err := p.do(do)
		p.screen.went(err)
		then := do.then
		do = outcome{}
		if then != nil {
			do = then(err, at)
		}
	}
	return do
}

func (p *program) do(do outcome) error {
	switch {
	case do.takeUp != "":
		return p.takeUp(do.takeUp)
	case do.in != "":
		return p.pressIn(do.in, do.events...)
	case len(do.events) > 0:
		return p.recorder.press(do.events...)
	}
	return nil
}
