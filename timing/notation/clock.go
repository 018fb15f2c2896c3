package notation

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

var errClock = errors.New("is not a time of day: H:MM or H:MM:SS, from 0:00 to 23:59:59")

// Clock reads a time of day, H:MM or H:MM:SS, in seconds after midnight. comma allows decimal
// commas. The error says what would be right, to be written behind the text.
func Clock(text string, comma bool) (float64, error) {
	t, ok := clock(text, comma)
	if !ok {
		return 0, wrongClock(text, comma)
	}
	return t, nil
}

func clock(text string, comma bool) (seconds float64, ok bool) {
	parts := strings.SplitN(text, ":", 4)
	if len(parts) == 2 {
		parts = append(parts, "00")
	}
	if len(parts) != 3 || len(parts[0]) > 2 {
		return 0, false
	}
	t, err := parseColons(parts, comma)
	return t, err == nil && t < 24*3600
}

// wrongClock says what is wrong with a text that is no time of day, and how to write it where a day stands
// before it, or which half of the day it is of stands behind it.
func wrongClock(text string, comma bool) error {
	if before, time, found := strings.Cut(text, "T"); found && !strings.Contains(before, ":") {
		text = before + " " + time
	}
	if len(text) > maxHint {
		return errClock
	}
	if fields := strings.Fields(text); len(fields) == 2 && strings.Trim(fields[0], "0123456789-/.") == "" {
		if _, ok := clock(fields[1], comma); ok {
			return fmt.Errorf("has its day too: write %s, and the day in the column date", fields[1])
		}
	}
	if letters := strings.IndexFunc(text, unicode.IsLetter); letters > 0 {
		if right, ok := onFullClock(strings.TrimSpace(text[:letters]), text[letters:]); ok {
			return fmt.Errorf("is not on a clock of 24 hours: write %s", right)
		}
	}
	return errClock
}

// onFullClock is a time of the first or second half of a day as a clock of 24 hours has it.
func onFullClock(time, half string) (right string, ok bool) {
	hours, rest, _ := strings.Cut(time, ":")
	h, err := strconv.Atoi(hours)
	if half = strings.ToLower(strings.ReplaceAll(half, ".", "")); err != nil || h < 1 || h > 12 || half != "am" && half != "pm" {
		return "", false
	}
	if h %= 12; half == "pm" {
		h += 12
	}
	right = fmt.Sprintf("%d:%s", h, rest)
	_, ok = clock(right, false)
	return right, ok
}
