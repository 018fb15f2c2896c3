package cues

import (
	"fmt"
	"time"

	"headhours/timing/study"
)

// Options say what the cue file leaves open.
type Options struct {
	Speed                  float64   // how many times too fast the film was shown; 0 is taken for 1
	Date                   time.Time // this and the next line are of cues that say nothing else
	Grow, Workflow, Worker string
	Steps, Workflows       []string // the names there are; nil lets any pass
}

// reader reads one cue file.
type reader struct {
	file     string
	opts     Options
	problems study.Problems
}

func (r *reader) problem(line int, format string, args ...any) {
	place := study.Place{File: r.file, Line: line}
	r.problems = r.problems.And(study.Problem{Place: place, Text: fmt.Sprintf(format, args...)})
}
