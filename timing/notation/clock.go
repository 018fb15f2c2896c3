package notation

import (
	"errors"
	"strings"
)

var errClock = errors.New("is not a time of day: H:MM or H:MM:SS, from 0:00 to 23:59:59")

// Clock reads a time of day, H:MM or H:MM:SS, in seconds after midnight. comma allows decimal
// commas. The error says what would be right, to be written behind the text.
func Clock(text string, comma bool) (float64, error) {
	parts := strings.SplitN(text, ":", 4)
	if len(parts) == 2 {
		parts = append(parts, "00")
	}
	if len(parts) != 3 || len(parts[0]) > 2 {
		return 0, errClock
	}
	t, err := parseColons(parts, comma)
	if err != nil || t >= 24*3600 {
		return 0, errClock
	}
	return t, nil
}
