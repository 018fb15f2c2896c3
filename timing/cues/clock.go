package cues

import (
	"regexp"
	"strconv"
	"time"

	"headhours/timing/late"
)

// maxTime is a time in a film beyond which there is none: sums stay far from
// the end of time.Duration.
const maxTime = 1_000_000 * time.Hour

var (
	// WebVTT, section 6.3, "collect a WebVTT timestamp": hours of any length, or
	// none, then two digits below 60 twice and three decimals. Blanks round the
	// arrow may be missing; what follows the end is cue settings.
	webvttTiming = late.Regexp(`^[ \t\f]*` + webvttStamp + `[ \t\f]*-->[ \t\f]*` + webvttStamp + `(?:\D.*)?$`)
	subripTiming = late.Regexp(`^[ \t]*` + subripStamp + `[ \t]*-->[ \t]*` + subripStamp + `[ \t]*$`)
)

const (
	webvttStamp = `(?:(\d+):)?([0-5]\d):([0-5]\d)\.(\d{3})`
	subripStamp = `(\d{2,}):([0-5]\d):([0-5]\d),(\d{3})`
)

// timingLine reads the start and the end of a cue.
func timingLine(form *regexp.Regexp, text string) (start, end time.Duration, ok bool) {
	parts := form.FindStringSubmatch(text)
	if parts == nil {
		return 0, 0, false
	}
	start, okStart := stamp(parts[1:5])
	end, okEnd := stamp(parts[5:9])
	return start, end, okStart && okEnd
}

// stamp is the time of hours, minutes, seconds and thousandths; hours may be
// blank. It is false beyond the longest film.
func stamp(parts []string) (time.Duration, bool) {
	var sum time.Duration
	for i, unit := range []time.Duration{time.Hour, time.Minute, time.Second, time.Millisecond} {
		if parts[i] == "" {
			continue
		}
		n, err := strconv.Atoi(parts[i])
		if err != nil || time.Duration(n) > maxTime/unit {
			return 0, false
		}
		sum += time.Duration(n) * unit
	}
	return sum, true
}
