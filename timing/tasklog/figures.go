package tasklog

import "math"

// Figures in the forms that nearly all have are read where they stand, the rest by their
// decoders. Each of these goes behind what ends a cell, and gives 0 where it is of another
// form.

// numberAt reads digits with at most one decimal mark.
func numberAt(data []byte, at int, end, comma byte) (x float64, behind int) {
	values := wordAt(data, at) ^ lowest*'0'
	size := digits(values)
	if size == 0 {
		return 0, 0
	}
	whole := eightDigits(values << (64 - 8*size))
	at += int(size)
	mark := data[at]
	if mark == end {
		return float64(int64(whole)), at + 1
	}
	if mark != '.' && mark != comma {
		return float64(int64(whole)), behindReturn(data, at, end)
	}
	values = wordAt(data, at+1) ^ lowest*'0'
	if size = digits(values); size == 0 {
		return 0, 0
	}
	whole = whole*tens[size] + eightDigits(values<<(64-8*size))
	if at += 1 + int(size); data[at] == end {
		return float64(int64(whole)) / float64(tens[size]), at + 1
	}
	return float64(int64(whole)) / float64(tens[size]), behindReturn(data, at, end)
}

// timeAt reads minutes and seconds, with or without hours, or a number of a time's units
// that can be meant in one way only.
func timeAt(data []byte, at int, c, end *part) (seconds float64, behind int) {
	if seconds, behind = numberAt(data, at, end.end, c.mark); behind > 0 {
		if seconds < 10 && behind-at > 4 { // it may have two decimals
			return 0, 0
		}
		return seconds * c.unit, behind
	}
	values := wordAt(data, at) ^ lowest*'0'
	size := digits(values)
	if size == 0 || size > 4 {
		return 0, 0
	}
	total, parts := eightDigits(values<<(64-8*size)), 0
	for at += int(size); parts < 2 && data[at] == ':'; parts++ {
		ten, one := data[at+1]-'0', data[at+2]-'0'
		if ten > 5 || one > 9 {
			return 0, 0
		}
		total = 60*total + 10*uint64(ten) + uint64(one)
		at += 3
	}
	if parts == 0 || parts == 1 && c.unit > 60 {
		return 0, 0
	}
	return float64(total), end.past(data, at)
}

// clockAt reads H:MM or H:MM:SS.
func clockAt(data []byte, at int, p *part) (seconds float64, behind int) {
	word, size := clockDigits(wordAt(data, at))
	sinceMidnight := secondsOf(word)
	if sinceMidnight >= 24*3600 {
		return 0, 0
	}
	return float64(sinceMidnight), p.past(data, at+size)
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
