package tasklog

import (
	"errors"
	"fmt"
	"math/bits"
	"strings"

	"headhours/timing/notation"
	"headhours/timing/study"
)

// numbers decode digits with at most one decimal mark.
type numbers struct {
	*form
	doubts bool // three digits behind a point are doubtful where a comma may be decimal
}

// form is how the numbers of a log are written.
type form struct {
	comma  bool // decimal commas are allowed
	groups bool // but such as may stand between thousands
}

func (n *numbers) usual(data []byte, c *abreast) {
	u := usualNumbers{unit: 1, comma: n.marks(), thousands: n.doubts && n.comma, groups: n.groups}
	for u.read(data, c) {
	}
}

func (n *numbers) any(text string) (x float64, doubtful bool, err error) {
	if err := n.grouped(text); err != nil {
		return 0, false, err
	}
	x, err = notation.Number(text, n.comma)
	if err != nil && n.hasDecimalComma(text) {
		err = wrongComma("number", text)
	}
	x, err = sane(x, err)
	return x, n.doubts && n.mayBeThousands(text), err
}

// usualNumbers are those that stand in rows as numbers mostly do.
type usualNumbers struct {
	unit       float64 // what they are times
	comma      uint64  // has a decimal comma be a point, in all bytes
	zero       bool    // 0 is usual
	hundredths bool    // below ten, two decimals are doubtful
	thousands  bool    // three decimals behind a point are
	groups     bool    // three decimals may be wrong
}

// read reads numbers, some of each form in turn; false where that are none, or all are read.
func (u *usualNumbers) read(data []byte, c *abreast) (more bool) {
	before := c.n
	c.n += u.wholes(data, c)
	if c.n == len(c.at) {
		return false
	}
	c.n += u.tenths(data, c)
	c.n += u.decimals(data, c)
	c.n += u.long(data, c)
	return before < c.n && c.n < len(c.at)
}

// wholes reads numbers of up to four digits. Loops such as this call nothing, which leaves them the registers.
func (u *usualNumbers) wholes(data []byte, c *abreast) (rows int) {
	const first = highest >> 24 // bytes of a word, which the stop is among
	at, into := c.left()
	stop, beyond, unit := c.stop, 7+c.beyond, u.unit
	for i, from := range at {
		word := wordAt(data, int(from))
		stops := zeros(word^stop) & first
		if stops == 0 {
			return i
		}
		values, up := valuesBefore(word, stops)
		four := uint32(values >> 24)
		number := fourDigits(four)
		if !areDigits(four) || number == 0 && !(u.zero && byte(word) == '0') {
			return i
		}
		into[i], at[i] = float64(int64(number))*unit, from+beyond-uint32(up)/8
	}
	return len(at)
}

// valuesBefore is the values of the digits of a word before the first byte that stops, given where there
// are such: the last below the highest byte, and eight times how many bytes they were moved up by.
func valuesBefore(word, stops uint64) (values uint64, up uint) {
	up = uint(bits.TrailingZeros64(stops)) ^ 63
	return (word ^ lowest*'0') << (up & 63), up
}

// tenths reads numbers of up to four digits and one behind a decimal mark.
func (u *usualNumbers) tenths(data []byte, c *abreast) (rows int) {
	const (
		first = highest >> 8
		most  = 0x00767f7676767600 // what digits, and 0 where the mark was, can be more by without their high bits
	)
	at, into := c.left()
	stop, beyond, unit := c.stop, 7+c.beyond, u.unit
	comma := u.comma & (255 << 40)
	for i, from := range at {
		word := wordAt(data, int(from))
		stops := zeros(word^stop) & first
		if stops == 0 {
			return i
		}
		values, up := valuesBefore(word, stops)
		values = (values | comma) ^ ('.'^'0'|comma>>40)<<40
		number := 10*uint64(fourDigits(uint32(values>>8))) + values>>48&255
		if (values+most|values)&(first&^255) != 0 || number == 0 {
			return i
		}
		into[i], at[i] = float64(int64(number))/10*unit, from+beyond-uint32(up)/8
	}
	return len(at)
}

// decimals reads others with a decimal mark, of up to seven bytes.
func (u *usualNumbers) decimals(data []byte, c *abreast) (rows int) {
	at, into := c.left()
	stop, beyond, unit, comma := c.stop, 7+c.beyond, u.unit, u.comma
	for i, from := range at {
		word := wordAt(data, int(from))
		stops := zeros(word ^ stop)
		values, up := valuesBefore(word, stops)
		marks := zeros((word|comma)^lowest*'.') << (up & 63)
		if stops == 0 || marks == 0 {
			return i
		}
		within := marks ^ (marks - 1) // the first of them and what stands before it
		values = (values&^within | values&(within>>8)<<8) << 8
		number, mark := eightDigits(values), uint(bits.TrailingZeros64(marks))/8
		if !areAllDigits(values) || number == 0 || mark > 4 && number < 100_000 {
			return i
		}
		if mark == 4 && u.hundredths && number < 1000 || mark == 3 && u.thousands && mayBeThousands(word, up) {
			if c.doubts == nil {
				return i
			}
			c.doubts[c.n+i]++
		} else if mark == 3 && u.groups {
			return i
		}
		into[i], at[i] = float64(int64(number))/scales[mark&7]*unit, from+beyond-uint32(up)/8
	}
	return len(at)
}

// mayBeThousands says of a number with three decimals, which was moved up by so many bits, whether its mark may part
// thousands: a point behind digits of which 0 is not the first.
func mayBeThousands(word uint64, up uint) bool {
	const first = 24 // bits of three digits
	return up < first && byte(word) != '0' && byte(word>>((first-up)&63)) == '.'
}

// scales are what numbers without their marks are to be divided by, by where these stood.
var scales = [8]float64{1e6, 1e5, 1e4, 1e3, 1e2, 1e1, 1}

// long reads numbers of more digits than the usual, but of no more than a float64 is sure to have, up to another.
func (u *usualNumbers) long(data []byte, c *abreast) (rows int) {
	const most = 15
	stop := byte(c.stop)
	at, into := c.left()
	for i, from := range at {
		whole, scale, marks, to := int64(0), int64(1), 0, int(from)
		for ; data[to] != stop && to-int(from) <= most; to++ {
			switch digit := data[to] - '0'; {
			case digit <= 9:
				whole = 10*whole + int64(digit)
				if marks > 0 {
					scale *= 10
				}
			case data[to] == '.' || data[to] == ',' && u.comma > 0:
				marks++
			default:
				return i
			}
		}
		size, x := to-int(from), float64(whole)/float64(scale)*u.unit
		if size < 5 || size < 8 && marks > 0 || size-marks > most || data[to] != stop || marks > 1 || x < study.MinDivisor || x > study.MaxNumber || u.hundredths && x < 10*u.unit {
			return i
		}
		into[i], at[i] = x, uint32(to)+c.beyond
	}
	return len(at)
}

// marks are the bits in which decimal commas are other than points, in all bytes, where they are allowed.
func (f *form) marks() uint64 {
	if f.comma {
		return lowest * (',' ^ '.')
	}
	return 0
}

// grouped is what is wrong with a number such as 1,234 where nothing tells whether its comma
// is decimal.
func (f *form) grouped(text string) error {
	whole, rest, found := strings.Cut(text, ",")
	if !f.groups || !found || len(whole) > 3 || len(rest) != 3 || strings.Trim(whole+rest, "0123456789") != "" {
		return nil
	}
	return fmt.Errorf("may be %s%s or %s.%s: write the one that is meant", whole, rest, whole, rest)
}

// mayBeThousands says whether a number has three digits behind a point where a comma may be decimal, so that
// the point may part thousands.
func (f *form) mayBeThousands(text string) bool {
	whole, rest, found := strings.Cut(text, ".")
	return f.comma && found && len(rest) == 3 && 0 < len(whole) && len(whole) <= 3 && whole[0] != '0'
}

// hasDecimalComma says whether a text is a number with a decimal comma in a log whose columns
// are parted by commas. Three digits behind it may as well be thousands.
func (f *form) hasDecimalComma(text string) bool {
	whole, rest, found := strings.Cut(text, ",")
	return found && !f.comma && whole != "" && rest != "" && len(rest) != 3 && strings.Trim(whole+rest, "0123456789") == ""
}

// wrongComma says how to write what has a decimal comma.
func wrongComma(what, text string) error {
	return fmt.Errorf("is not a %s where commas part the columns: write %s, or save the file with ; or tabs between them, where a comma may be decimal",
		what, strings.Replace(text, ",", ".", 1))
}

var (
	errMore      = errors.New("is more than any farm has: at most 1000000000000")
	errLeast     = errors.New("is as good as 0: at least 0.000000001")
	errNotAbove0 = errors.New("is not above 0")
)

// sane holds a number to what is possible.
func sane(x float64, err error) (float64, error) {
	switch {
	case err != nil:
		return 0, err
	case x > study.MaxNumber:
		return 0, errMore
	case 0 < x && x < study.MinDivisor:
		return 0, errLeast
	}
	return x, nil
}
