package sheets

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"headhours/timing/late"
)

const (
	perDay  = 24 * 3600 * 1e6 // microseconds
	perYear = 366             // days
)

// microseconds is a number of days to the microsecond: spreadsheets keep times as
// fractions of a day, of which 187 s is none exactly.
func microseconds(days float64) int64 { return int64(math.Round(days * perDay)) }

// clock is a time as H:MM:SS, with the decimals it has.
func clock(us int64) string {
	sign := ""
	if us < 0 {
		sign, us = "-", -us
	}
	text := fmt.Sprintf("%s%d:%02d:%02d", sign, us/3600e6, us/60e6%60, us/1e6%60)
	if rest := us % 1e6; rest > 0 {
		text += strings.TrimRight(fmt.Sprintf(".%06d", rest), "0")
	}
	return text
}

// timeText is a time of days. One of years is a date that is shown without its
// day, and so is one of a day where elapsed is not said, since only its time of
// day is shown.
func timeText(days float64, elapsed, from1904 bool) string {
	if math.Abs(days) >= perYear || days >= 1 && !elapsed {
		return dateText(days, from1904)
	}
	return clock(microseconds(days))
}

// dateText is the day that a serial number stands for, YYYY-MM-DD, and its time of
// day behind a T where it has one (ISO/IEC 29500-1, 18.17.4.1). In the system of
// 1900 the number 60 is a day that never was, and is given as that.
func dateText(days float64, from1904 bool) string {
	const last = 2958466 // the first number beyond the year 9999
	if !(days >= 0 && days < last) {
		return digits(days)
	}
	us := microseconds(days)
	day, rest := int(us/perDay), us%perDay
	start := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case from1904:
		start = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case day < 60:
		start = start.AddDate(0, 0, 1)
	}
	at := start.AddDate(0, 0, day).Add(time.Duration(rest) * time.Microsecond)
	switch {
	case day == 60 && !from1904:
		return "1900-02-29"
	case rest > 0:
		return at.Format("2006-01-02T15:04:05.999999")
	}
	return at.Format(time.DateOnly)
}

var midnight = late.Regexp(`^(\d{4}-\d\d-\d\d)T00:00(?::00(?:\.0+)?)?Z?$`)

// isoDate is a date or time that a file gives in words of ISO 8601, without a
// time of day of nothing.
func isoDate(text string) string { return midnight().ReplaceAllString(text, "$1") }

// value reads a number as files write it: in base 10, and finite.
func value(text string) (float64, bool) {
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && x-x == 0 && !strings.ContainsAny(text, "xX")
}

// digits is a number in plain digits.
func digits(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// twoDecimals is a number that is shown with two decimals, so written where it
// has no more than those.
func twoDecimals(x float64) string {
	text := strconv.FormatFloat(x, 'f', 2, 64)
	if short, _ := strconv.ParseFloat(text, 64); short != x {
		return digits(x)
	}
	return text
}

// percent is a share as it is shown: 0.95 is 95%.
func percent(x float64) string { return fmt.Sprintf("%.12g%%", 100*x) }
