package cues

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"headhours/timing/study"
)

// Bounds of a cue file, far beyond any film's.
const (
	maxCues  = 16 // MiB
	maxLines = 1_000_000
)

// Read reads one cue file; file is the name that places carry. The readings
// come in the order of the file, a reading in parts where its first part stands;
// their source is film, their time (end − start) × speed summed over the parts,
// and their place the line of their first timing line or mark.
//
// The error is study.Problems, in order of line, and then there are no readings; or it
// is that of r itself, or of a speed that is no number above 0.
func Read(r io.Reader, file string, opts Options) ([]study.Reading, error) {
	if opts.Speed == 0 {
		opts.Speed = 1
	}
	if !(opts.Speed > 0) || math.IsInf(opts.Speed, 0) {
		return nil, fmt.Errorf("speed %v: want a number above 0", opts.Speed)
	}
	data, err := study.ReadAtMost(r, maxCues)
	if large, ok := errors.AsType[study.TooLarge](err); ok {
		return nil, study.Problems{{Place: study.Place{File: file}, Text: large.Error()}}
	}
	if err != nil {
		return nil, err
	}
	opts.Grow, opts.Workflow, opts.Worker = clean(opts.Grow), clean(opts.Workflow), clean(opts.Worker)
	f := reader{file: file, opts: opts}
	readings := f.readings(data)
	if len(f.problems) > 0 {
		f.problems.Sort()
		return nil, f.problems
	}
	return readings, nil
}

func (r *reader) readings(data []byte) []study.Reading {
	if bytes.Count(data, []byte("\n"))+bytes.Count(data, []byte("\r")) > maxLines {
		r.problem(0, "is not read: holds more than %d lines", maxLines)
		return nil
	}
	lines := split(data)
	if bad := slices.IndexFunc(lines, notText); bad >= 0 {
		r.problem(bad+1, "is not UTF-8 text: save the file as UTF-8")
		return nil
	}
	var groups []group
	switch {
	case isWebVTT(lines[0].text):
		groups = r.group(r.cues(r.webvtt(lines)))
		r.checkOverlaps(groups)
	case slices.ContainsFunc(lines, hasArrow):
		groups = r.group(r.cues(r.subrip(lines)))
		r.checkOverlaps(groups)
	default:
		groups = r.group(r.marks(lines)) // in order of time, or a problem already
	}
	if len(groups) == 0 && len(r.problems) == 0 {
		r.problem(0, "no cues: want WebVTT, SubRip, or marks such as 0:12 sow x24")
	}
	readings := make([]study.Reading, len(groups))
	for i, g := range groups {
		readings[i] = r.reading(g)
	}
	return readings
}
