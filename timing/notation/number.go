package notation

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

var (
	errNumber      = errors.New("is not a number: digits with at most one decimal point")
	errNumberComma = errors.New("is not a number: digits with at most one decimal point or comma")
	errNegative    = errors.New("is below 0: want it without a sign")
	errLarge       = errors.New("is too large: fewer than 309 digits")
)

// Number reads digits with at most one decimal mark: a point, or a comma where comma allows
// it. The error says what would be right, to be written behind the text.
func Number(text string, comma bool) (float64, error) {
	digits, marks := 0, 0
	for _, b := range []byte(text) {
		switch {
		case '0' <= b && b <= '9':
			digits++
		case b == '.', b == ',' && comma:
			marks++
		default:
			marks = 2
		}
	}
	switch {
	case digits > 0 && marks < 2:
	case isNegative(text, comma):
		return 0, errNegative
	case isPercent(text, comma):
		return 0, fmt.Errorf("is not a number: write %s, without the sign", strings.TrimRight(text, "% "))
	case comma:
		return 0, errNumberComma
	default:
		return 0, errNumber
	}
	x, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil { // of digits alone, only their number can be wrong
		return 0, errLarge
	}
	return x, nil
}

// isNegative says whether a text is a number but for a sign that makes it less than 0.
func isNegative(text string, comma bool) bool {
	for _, sign := range []string{"-", "−"} {
		if rest, ok := strings.CutPrefix(text, sign); ok {
			_, err := Number(rest, comma)
			return err == nil
		}
	}
	return false
}

// isPercent says whether a text is a number but for a sign of percent behind it.
func isPercent(text string, comma bool) bool {
	rest, ok := strings.CutSuffix(text, "%")
	if !ok || strings.HasSuffix(rest, "%") {
		return false
	}
	_, err := Number(strings.TrimRight(rest, " "), comma)
	return err == nil
}
