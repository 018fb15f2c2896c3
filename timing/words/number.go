package words

import (
	"math"
	"strconv"
	"strings"
)

// Fixed is a number with so many decimals, never "-0".
func Fixed(x float64, decimals int) string {
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// InFull is a number with all the digits that it has, never as a power of ten.
func InFull(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// UpTo is a number with so many decimals at the most, and none that is a 0 at its end.
func UpTo(x float64, decimals int) string {
	unit := math.Pow10(decimals)
	return InFull(math.Round(x*unit) / unit)
}

// Digits is a number to so many significant digits, never as a power of ten, without zeros
// at the end of its decimals.
func Digits(x float64, digits int) string {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return InFull(x)
	}
	unit := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-float64(digits-1))
	switch {
	case unit < 1e-300: // as good as nothing
		return "0"
	case unit >= 1:
		return Fixed(math.Round(x/unit)*unit, 0)
	}
	text := strconv.FormatFloat(x, 'f', int(math.Round(-math.Log10(unit))), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// Rounded is a number to so many significant digits.
func Rounded(x float64, digits int) float64 {
	rounded, err := strconv.ParseFloat(Digits(x, digits), 64)
	if err != nil {
		return x // as large as a number gets
	}
	return rounded
}

// Apart is a number to three digits, and to as many more as show that it is not another.
func Apart(x, other float64) string {
	digits := 3
	for digits < 12 && x != other && Rounded(x, digits) == Rounded(other, digits) {
		digits++
	}
	return InFull(Rounded(x, digits))
}

// Decimals is how many decimals a figure deserves that is known to ± half.
func Decimals(half float64) int {
	switch {
	case half >= 1.95:
		return 0
	case half >= 0.195:
		return 1
	default:
		return 2
	}
}

// PlainDecimals is how many decimals a figure of unknown precision is given.
func PlainDecimals(x float64) int {
	switch x := math.Abs(x); {
	case x >= 10:
		return 0
	case x >= 1:
		return 1
	default:
		return 2
	}
}

// Plain is a figure of unknown precision, with few digits that count; something shows of one
// that is small.
func Plain(x float64) string { return Fixed(x, Visible(PlainDecimals(x), x)) }

// maxDecimals is how many decimals a small amount gets at most.
const maxDecimals = 7

// Enough is how many decimals, of so many at least, show two digits of an amount below a
// tenth that is not nothing.
func Enough(decimals int, x float64) int {
	if x = math.Abs(x); x == 0 || x >= 0.1 {
		return decimals
	}
	return max(decimals, min(maxDecimals, 1-int(math.Floor(math.Log10(x)))))
}

// Visible is how many decimals, of so many at least, show something of an amount that is not
// nothing.
func Visible(decimals int, x float64) int {
	if x := math.Abs(x); x > 1e-7 && x < 0.5*math.Pow10(-decimals) { // less is what rounding leaves of nothing
		return Enough(decimals, x)
	}
	return decimals
}

// Count is a count as a person writes it: whole where it is.
func Count(x float64) string {
	switch {
	case math.Abs(x-math.Round(x)) <= 1e-9*math.Abs(x):
		return Fixed(x, 0)
	case math.Abs(x) < 10:
		return strings.TrimSuffix(Fixed(x, Visible(2, x)), "0")
	default:
		return Fixed(x, 1)
	}
}

// Count3 is a count to three digits.
func Count3(x float64) string { return Count(Rounded(x, 3)) }

// AtMost is a number to three digits, and to all that are whole, that is no greater.
func AtMost(x float64) string {
	unit := min(1, math.Pow(10, math.Floor(math.Log10(x))-2))
	return Digits(math.Floor(x/unit*(1+1e-14))*unit, 15)
}

// Share is a share in whole percent.
func Share(share float64) string { return Fixed(100*share, 0) + " %" }

// Percent is a share in percent, to so many significant digits.
func Percent(share float64, digits int) string { return Digits(100*share, digits) + " %" }

// Price is a price as it was written: two decimals, more where it has more, and something
// of one that is small.
func Price(x float64) string {
	text := Fixed(x, Visible(4, x))
	for strings.HasSuffix(text, "0") && len(text)-strings.IndexByte(text, '.') > 3 {
		text = strings.TrimSuffix(text, "0")
	}
	return text
}
