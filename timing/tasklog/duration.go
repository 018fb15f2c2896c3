package tasklog

import (
	"errors"
	"strings"

	"headhours/timing/notation"
)

// durations decode times that something takes, in seconds, and times without a unit by their column's. Those
// below ten with two decimals are doubtful.
type durations struct {
	*form
	unit   *unit // of numbers alone
	mayBe0 bool  // as pauses are
}

var (
	errHours   = errors.New("may be hours and minutes or minutes and seconds, since a number alone is hours there: write h:mm:ss, or as 90min")
	errMinutes = errors.New("is not a time: minutes as 3 or 3.5, or one of 3:07, 1:03:07, 3m7s, 187s, PT3M7S")
	errInHours = errors.New("is not a time: hours as 1 or 1.5, or one of 1:03:07, 1h3m, 90min, PT1H3M")
)

func (d *durations) usual(data []byte, c *abreast) {
	u := usualNumbers{unit: max(1, d.unit.seconds), comma: d.marks(), zero: d.mayBe0, hundredths: true, groups: d.groups}
	for more := true; more && c.n < len(c.at); {
		more = u.read(data, c)
		minutes := d.minutes(data, c)
		c.n += minutes
		more = more || minutes > 0
	}
}

// minutes reads minutes and seconds, with or without hours, up to a time of another form.
func (d *durations) minutes(data []byte, c *abreast) (rows int) {
	stop, isHours := byte(c.stop), d.unit.seconds > 60
	at, into := c.left()
	for i, from := range at {
		values := wordAt(data, int(from)) ^ lowest*'0'
		size := digits(values)
		if size == 0 || size > 4 {
			return i
		}
		total, to, parts := eightDigits(values<<(64-8*size)), int(from)+int(size), 0
		for ; parts < 2 && data[to] == ':'; parts++ {
			ten, one := data[to+1]-'0', data[to+2]-'0'
			if ten > 5 || one > 9 {
				return i
			}
			total = 60*total + 10*uint64(ten) + uint64(one)
			to += 3
		}
		if parts == 0 || parts == 1 && isHours || data[to] != stop || total == 0 {
			return i
		}
		into[i], at[i] = float64(int64(total)), uint32(to)+c.beyond
	}
	return len(at)
}

func (d *durations) any(text string) (seconds float64, doubtful bool, err error) {
	if err := d.grouped(text); err != nil {
		return 0, false, err
	}
	seconds, doubtful, err = notation.Duration(text, d.comma)
	if err != nil {
		return 0, false, d.wrong(text, err)
	}
	if u := d.unit.seconds; u > 1 {
		switch {
		case u == 3600 && strings.Count(text, ":") == 1:
			return 0, false, errHours
		case !strings.ContainsAny(text, ":hHmMsS"):
			seconds *= u
		}
	}
	seconds, err = sane(seconds, nil)
	return seconds, doubtful, err
}

// wrong is what is wrong with a time, by what a number alone is in its column.
func (d *durations) wrong(text string, err error) error {
	switch u := d.unit.seconds; {
	case d.hasDecimalComma(text):
		return wrongComma("time", text)
	case u == 60 && errors.Is(err, notation.ErrTime):
		return errMinutes
	case u == 3600 && errors.Is(err, notation.ErrTime):
		return errInHours
	}
	return err
}
