package tasklog

import (
	"math"

	"headhours/timing/notation"
)

// clocks decode times of day, in seconds after midnight.
type clocks struct{ *form }

func (k *clocks) usual(data []byte, c *abreast) { c.n += k.plain(data, c) }

// plain reads H:MM and H:MM:SS.
func (*clocks) plain(data []byte, c *abreast) (rows int) {
	stop, beyond := byte(c.stop), c.beyond
	at, into := c.left()
	for i, from := range at {
		clock, size := clockDigits(wordAt(data, int(from)))
		seconds := secondsOf(clock)
		if behind := from + uint32(size); seconds < 24*3600 && data[behind] == stop {
			into[i], at[i] = float64(seconds), behind+beyond
			continue
		}
		return i
	}
	return len(at)
}

func (k *clocks) any(text string) (seconds float64, doubtful bool, err error) {
	seconds, err = sane(notation.Clock(text, k.comma))
	return seconds, false, err
}

// clockDigits is the time of day that eight bytes begin with, as two digits each and less midnight,
// and of how many of them it is.
func clockDigits(word uint64) (clock uint64, size int) {
	size = len("HH:MM:SS")
	if word>>8&255 == ':' {
		word, size = word<<8|'0', size-1
	}
	word ^= midnight
	if word>>(8*len("HH:MM"))&255 != 0 { // no seconds follow
		word, size = word&(1<<(8*len("HH:MM"))-1), size-len(":SS")
	}
	return word, size
}

// secondsOf is how many seconds a time of day is past midnight; no less than a day has where it
// is none.
func secondsOf(clock uint64) int64 {
	if (clock|(clock+beyondClock))&highest != 0 {
		return math.MaxInt64
	}
	pairs := clock*10 + clock>>8
	return int64(3600*(pairs&255) + 60*(pairs>>(8*len("HH:"))&255) + pairs>>(8*len("HH:MM:"))&255)
}

// midnight is 00:00:00, and beyondClock what takes each byte of a time of day less that to
// 128 where it is too large.
const (
	midnight    = lowest*'0' + (':'-'0')*(1<<16+1<<40)
	beyondClock = 0x767a_7f76_7a7f_7676
)
