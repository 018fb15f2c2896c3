package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
)

// progress is a bar that grows on a terminal; one without a writer draws nothing.
type progress struct {
	to            io.Writer
	total         int
	mutex         sync.Mutex
	done, percent int // shown in percent
}

const barWidth = 40

// step says that one more piece is done.
func (p *progress) step() {
	if p.to == nil {
		return
	}
	p.mutex.Lock()
	defer p.mutex.Unlock()
	p.done++
	if percent := 100 * p.done / p.total; percent > p.percent {
		p.percent = percent
		full := barWidth * percent / 100
		fmt.Fprintf(p.to, "\r[%s%s] %3d %%", strings.Repeat("#", full), strings.Repeat(" ", barWidth-full), percent)
	}
}

// end takes the bar away.
func (p *progress) end() {
	if p.to != nil {
		fmt.Fprintf(p.to, "\r%s\r", strings.Repeat(" ", barWidth+8))
	}
}
