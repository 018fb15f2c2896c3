package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// progress shows on a terminal how far logs are read, where that takes a while.
type progress struct {
	w   io.Writer
	now func() time.Time

	mu    sync.Mutex
	began time.Time
	last  time.Time // that it was shown; zero where it is not
	share float64
}

// How long reading may take before it is shown, and how often it is shown anew.
const (
	patience = time.Second
	refresh  = 100 * time.Millisecond
)

// update takes note of how many bytes are read; a nil progress does nothing.
func (p *progress) update(done, of int64) {
	if p == nil || of == 0 {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	now, share := p.now(), min(1, float64(done)/float64(of))
	if p.began.IsZero() || share < p.share { // another reading
		p.began = now
	}
	p.share = share
	switch {
	case share == 1:
		p.clear()
		p.began = time.Time{}
	case now.Sub(p.began) >= patience && now.Sub(p.last) >= refresh:
		p.last = now
		fmt.Fprintf(p.w, "\r%s\x1b[K", progressLine(share, now.Sub(p.began)))
	}
}

// progressLine is a bar, the share that is done and the time that is left.
func progressLine(share float64, took time.Duration) string {
	const width = 30
	full := int(share * width)
	left := time.Duration(float64(took) * (1 - share) / share).Round(time.Second)
	return fmt.Sprintf("reading the logs %s%s %3.0f %%, %s left",
		strings.Repeat("█", full), strings.Repeat("░", width-full), 100*share, max(left, time.Second))
}

// end takes the bar away.
func (p *progress) end() {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.clear()
}

func (p *progress) clear() {
	if !p.last.IsZero() {
		fmt.Fprint(p.w, "\r\x1b[K")
		p.last = time.Time{}
	}
}
