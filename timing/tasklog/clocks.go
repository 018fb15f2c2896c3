package tasklog

import "headhours/timing/condense"

// noClock is the time of day of a blank cell.
const noClock = -1

// plainClock reads H:MM or H:MM:SS, or a blank, which a field must hold alone, and goes
// behind what ends it; 0 where there is anything else.
func plainClock(data []byte, at int, end byte) (seconds float64, behind int) {
	seconds = noClock
	if data[at]-'0' <= 9 {
		hours := int(data[at] - '0')
		if at++; data[at]-'0' <= 9 {
			hours = 10*hours + int(data[at]-'0')
			at++
		}
		total, ok := hours, hours < 24 && data[at] == ':'
		parts := 0
		for ; ok && parts < 2 && data[at] == ':'; parts++ {
			tens, ones := data[at+1]-'0', data[at+2]-'0'
			ok = tens <= 5 && ones <= 9
			total = 60*total + 10*int(tens) + int(ones)
			at += 3
		}
		if !ok {
			return 0, 0
		}
		if parts == 1 {
			total *= 60
		}
		seconds = float64(total)
	}
	if data[at] == '\r' && end == '\n' {
		at++
	}
	if data[at] != end {
		return 0, 0
	}
	return seconds, at + 1
}

// between is the time from a clock time to another, which may lie past midnight; 0 where
// one is not known.
func between(start, end float64) float64 {
	switch {
	case start == noClock || end == noClock:
		return 0
	case end < start:
		return end - start + 24*3600
	}
	return end - start
}

// clocked is the index of what a row has in common with others of its batch, and that its
// start and end are noted.
func (p *parser) clocked(what uint32) uint32 {
	for int(what) >= len(p.clocks) {
		p.clocks = append(p.clocks, 0)
	}
	if p.clocks[what] == 0 { // which can be of no other: it stands behind that without
		w := p.parsed.batch.What[what]
		w.Flags |= condense.HasClock
		p.clocks[what] = p.addWhat(w)
	}
	return p.clocks[what]
}
