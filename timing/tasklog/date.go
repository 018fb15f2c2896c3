package tasklog

import (
	"errors"
	"fmt"
	"strings"

	"headhours/timing/condense"
	"headhours/timing/notation"
	"headhours/timing/words"
)

// dates decode days in any of the forms that are understood, and remember those in other than the usual one.
type dates struct {
	dialect *Dialect
	met     map[string]condense.Day
	one     [len("YYYY-MM-DD") + padding]byte // a text by itself
}

// of is the day that a text says, not blank and without blanks about it. The error says what is wrong, to be written
// behind the text.
func (d *dates) of(text string) (condense.Day, error) {
	size := copy(d.one[:len("YYYY-MM-DD")], text)
	if size < len(text) {
		return d.any(text)
	}
	clear(d.one[size:])
	return d.in(d.one[:], 0, size)
}

// in is of, of a text that stands within data.
func (d *dates) in(data []byte, from, to int) (condense.Day, error) {
	if day, ok := dateAt(data, from); ok && to-from == len("YYYY-MM-DD") {
		return day, nil
	}
	if day, ok := d.met[string(data[from:to])]; ok {
		return day, nil
	}
	return d.any(string(data[from:to]))
}

func (d *dates) any(text string) (condense.Day, error) {
	when, ok := d.dialect.day(text)
	if !ok {
		return condense.NoDay, d.wrong(text)
	}
	day := condense.DayOf(when)
	if d.met == nil || len(d.met) == maxFigures {
		d.met = map[string]condense.Day{}
	}
	d.met[strings.Clone(text)] = day
	return day, nil
}

// wrong says what is wrong with a date. Dates whose order is not known are one problem
// for all rows.
func (d *dates) wrong(text string) error {
	order, shows := notation.OrderShown(text)
	text = strings.Clone(text)
	switch known := d.dialect.Dates; {
	case known.Order == 0 && notation.NeedsOrder(text):
		return &often{key: noOrder, words: func() (what, do string) {
			return fmt.Sprintf("date %s may have its day or its month first", words.Quote(text)), writeOrder()
		}}
	case shows && known.Shown != "" && order != known.Order:
		return &often{key: "other order", words: func() (what, do string) {
			return fmt.Sprintf("date %s has its day and month the other way round than %s in line %d",
				words.Quote(text), words.Quote(known.Shown), known.At.Line), "write all dates one way, and " + writeOrder()
		}}
	}
	wrong := notation.WrongDate(text)
	if said := d.dialect.Dates.Order; said != 0 && shows && order != said {
		wrong += fmt.Sprintf("; or correct study.toml, which has dates = %q under [log]", said.Pattern())
	}
	return errors.New(wrong)
}

// The dashes of YYYY-MM-DD, and what takes each byte of such less those and zeros to 128 where it is too large.
const (
	dashes     = lowest*'0' - ('0'-'-')*(1<<32+1<<56)
	beyondDate = 0x7f76_767f_7676_7676
)

// dateAt reads YYYY-MM-DD, as nearly all dates are; not ok where there is no such day.
func dateAt(data []byte, at int) (day condense.Day, ok bool) {
	month, date := wordAt(data, at)^dashes, wordAt(data, at+8)^lowest*'0'
	const two = 0xffff
	if ((month|(month+beyondDate))|(date&two|(date&two+0x7676)))&highest != 0 {
		return 0, false
	}
	y, m, d := int(fourDigits(uint32(month))), 10*int(month>>40&255)+int(month>>48&255), 10*int(date&255)+int(date>>8&255)
	if y < 2 || m < 1 || m > 12 || d < 1 || d > daysOf[m] && !(m == 2 && d == 29 && y%4 == 0 && (y%100 != 0 || y%400 == 0)) {
		return 0, false
	}
	return dayOf(y, m, d), true
}

// daysOf is how many days a month has, from January on as 1, February in a common year.
var daysOf = [...]int{0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// dayOf is a day of the Gregorian calendar since 1970-01-01, of years from March on (E. M. Reingold and
// N. Dershowitz, Calendrical Calculations, 4th ed., 2018, section 2.3).
func dayOf(year, month, day int) condense.Day {
	if month -= 3; month < 0 {
		year, month = year-1, month+12
	}
	const epoch = 719468 // days from 0000-03-01 to 1970-01-01
	return condense.Day(365*year + year/4 - year/100 + year/400 + (153*month+2)/5 + day - 1 - epoch)
}
