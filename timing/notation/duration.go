package notation

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"

	"headhours/timing/late"
)

// ErrTime is of a text that is no time, and of which nothing tells what was meant.
var ErrTime = errors.New("is not a time: seconds as 187 or 187.4, or one of 3:07, 1:03:07, 3m7s, 3.5min, PT3M7S")

// Duration reads a time that something takes, in seconds: a number of seconds;
// m:ss or h:mm:ss; numbers with the letters h, m or min, s; or an ISO 8601
// duration of hours, minutes and seconds, PT…H…M…S. comma allows decimal
// commas. doubtful says that the text, such as 1.30, has exactly two decimals
// and is below ten: it is read as seconds and may have been meant as minutes
// and seconds. The error says what would be right, to be written behind the text; a time
// too large for a float64 is one.
func Duration(text string, comma bool) (seconds float64, doubtful bool, err error) {
	switch {
	case strings.Contains(text, ":"):
		seconds, err = parseColons(strings.SplitN(text, ":", 4), comma)
	case strings.ContainsAny(text, "hHmMsS"):
		seconds, err = parseUnits(text, comma)
	default:
		seconds, err = Number(text, comma)
		mark := strings.IndexAny(text, ".,")
		doubtful = err == nil && mark >= 0 && mark == len(text)-3 && seconds < 10
	}
	switch {
	case errors.Is(err, ErrTime), errors.Is(err, errNumber), errors.Is(err, errNegative), errors.Is(err, errNumberComma):
		err = wrongTime(text, comma)
	case math.IsInf(seconds, 0):
		err = errLarge
	}
	if err != nil {
		return 0, false, err
	}
	return seconds, doubtful, nil
}

// parseColons reads the parts of m:ss and h:mm:ss. The first may be any size,
// those after it are two digits under 60; the last may have decimals.
func parseColons(parts []string, comma bool) (float64, error) {
	if len(parts) > 3 {
		return 0, ErrTime
	}
	total := 0.0
	for i, part := range parts {
		x, err := Number(part, comma)
		if err != nil {
			return 0, err
		}
		whole, last := len(part), i == len(parts)-1
		if mark := strings.IndexAny(part, ".,"); mark >= 0 {
			whole = mark
			if !last {
				return 0, ErrTime
			}
		}
		if i > 0 && (whole != 2 || x >= 60) {
			return 0, ErrTime
		}
		total = 60*total + x
	}
	return total, nil
}

var (
	lettered = late.Regexp(`^(?:([\d.,]+)[hH])?(?:([\d.,]+)(?:[mM]|[mM][iI][nN]))?(?:([\d.,]+)[sS])?$`)
	duration = late.Regexp(`^PT(?:([\d.,]+)H)?(?:([\d.,]+)M)?(?:([\d.,]+)S)?$`)
)

// parseUnits reads 1h3m7s and PT1H3M7S: each unit at most once, in that order,
// decimals on the last only.
func parseUnits(text string, comma bool) (float64, error) {
	parts := lettered().FindStringSubmatch(text)
	if parts == nil {
		parts = duration().FindStringSubmatch(text)
	}
	if parts == nil {
		return 0, ErrTime
	}
	total, decimals := 0.0, false
	for i, seconds := range []float64{3600, 60, 1} {
		part := parts[i+1]
		if part == "" {
			continue
		}
		x, err := Number(part, comma)
		if err != nil {
			return 0, err
		}
		if decimals {
			return 0, ErrTime
		}
		total += seconds * x
		decimals = strings.ContainsAny(part, ".,")
	}
	return total, nil
}

var (
	betweenDigits = late.Regexp(`\d[\s\p{Zs}]+\d`) // 3 07 may be 3:07 or 307
	unitWord      = late.Regexp(`(?i)(\d)(hours?|hrs?|minutes?|mins?|seconds?|secs?)\.?`)
	decimalComma  = late.Regexp(`(\d),(\d{1,2}\D)`) // three digits may be thousands
)

// wrongTime says what is wrong with a text that is no time. Where it would be one
// but for blanks, unit words or a decimal comma, it says how to write it.
func wrongTime(text string, comma bool) error {
	right, ok := plainTime(text, comma)
	switch {
	case !ok:
		return ErrTime
	case strings.ContainsFunc(text, unicode.IsSpace):
		return fmt.Errorf("is not a time: write it without blanks: %s", right)
	}
	return fmt.Errorf("is not a time: write %s", right)
}

// plainTime is a time as a log takes it that was written with blanks or whole
// words, such as 3 minutes 7 s; false where what is meant is in doubt.
func plainTime(text string, comma bool) (string, bool) {
	if len(text) > maxHint || betweenDigits().MatchString(text) {
		return "", false
	}
	right := strings.Join(strings.FieldsFunc(text, unicode.IsSpace), "")
	right = unitWord().ReplaceAllStringFunc(right, func(found string) string {
		letter := strings.ToLower(found[1:2])
		return found[:1] + map[string]string{"h": "h", "m": "min", "s": "s"}[letter]
	})
	if !comma {
		right = decimalComma().ReplaceAllString(right, "$1.$2")
	}
	if right == text {
		return "", false
	}
	_, _, err := Duration(right, comma)
	return right, err == nil
}
