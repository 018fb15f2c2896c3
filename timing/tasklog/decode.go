package tasklog

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"headhours/timing/condense"
	"headhours/timing/notation"
	"headhours/timing/study"
	"headhours/timing/words"
)

// decoder reads what cells hold, each a text without blanks about it that is not blank
// itself. Errors say what is wrong, to be written behind the text.
type decoder struct {
	dialect  *Dialect
	comma    bool                        // decimal commas are allowed
	groups   bool                        // but such as may stand between thousands
	units    [columns]unit               // of bare times
	meanings [columns]map[string]meaning // what the names in a column stand for
}

// meaning is what a name stands for, and what is wrong with it.
type meaning struct {
	ours string
	err  error
}

var (
	errMore      = errors.New("is more than any farm has: at most 1000000000000")
	errLeast     = errors.New("is as good as 0: at least 0.000000001")
	errNotAbove0 = errors.New("is not above 0")
	errHours     = errors.New("may be hours and minutes or minutes and seconds, since a number alone is hours there: write h:mm:ss, or as 90min")
	errMinutes   = errors.New("is not a time: minutes as 3 or 3.5, or one of 3:07, 1:03:07, 3m7s, 187s, PT3M7S")
	errInHours   = errors.New("is not a time: hours as 1 or 1.5, or one of 1:03:07, 1h3m, 90min, PT1H3M")
	errSource    = errors.New("is not a source: watch, film or judged")
)

// numberIn reads digits with at most one decimal mark.
func (d *decoder) numberIn(text string) (float64, error) {
	if err := d.grouped(text); err != nil {
		return 0, err
	}
	x, err := notation.Number(text, d.comma)
	if err != nil && d.hasDecimalComma(text) {
		err = wrongComma("number", text)
	}
	return sane(x, err)
}

// hasDecimalComma says whether a text is a number with a decimal comma in a log whose columns
// are parted by commas. Three digits behind it may as well be thousands.
func (d *decoder) hasDecimalComma(text string) bool {
	whole, rest, found := strings.Cut(text, ",")
	return found && !d.comma && whole != "" && rest != "" && len(rest) != 3 && strings.Trim(whole+rest, "0123456789") == ""
}

// wrongComma says how to write what has a decimal comma.
func wrongComma(what, text string) error {
	return fmt.Errorf("is not a %s where commas part the columns: write %s, or save the file with ; or tabs between them, where a comma may be decimal",
		what, strings.Replace(text, ",", ".", 1))
}

// grouped is what is wrong with a number such as 1,234 where nothing tells whether its comma
// is decimal.
func (d *decoder) grouped(text string) error {
	whole, rest, found := strings.Cut(text, ",")
	if !d.groups || !found || len(whole) > 3 || len(rest) != 3 || strings.Trim(whole+rest, "0123456789") != "" {
		return nil
	}
	return fmt.Errorf("may be %s%s or %s.%s: write the one that is meant", whole, rest, whole, rest)
}

// mayBeThousands says whether a number has three digits behind a point where a comma may be decimal, so that
// the point may part thousands; what ends its cell may follow it.
func (d *decoder) mayBeThousands(cell []byte) bool {
	if !d.comma {
		return false
	}
	whole, rest, found := bytes.Cut(bytes.TrimRight(cell, ";\t\r\n\" "), []byte{'.'})
	return found && len(rest) == 3 && 0 < len(whole) && len(whole) <= 3 && whole[0] != '0'
}

// clockIn reads a time of day, in seconds after midnight.
func (d *decoder) clockIn(text string) (float64, error) { return sane(notation.Clock(text, d.comma)) }

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

// above0 reads a number that must be above 0.
func (d *decoder) above0(text string) (float64, error) {
	x, err := d.numberIn(text)
	if err == nil && x == 0 {
		return 0, errNotAbove0
	}
	return x, err
}

// durationIn reads a time, in seconds; where it may have been meant otherwise it is doubtful.
func (d *decoder) durationIn(c column, text string) (seconds float64, doubtful bool, err error) {
	if err := d.grouped(text); err != nil {
		return 0, false, err
	}
	seconds, doubtful, err = notation.Duration(text, d.comma)
	if err != nil {
		return 0, false, d.wrongTime(c, text, err)
	}
	if u := d.units[c].seconds; u > 1 {
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

// wrongTime is what is wrong with a time, by what a number alone is in its column.
func (d *decoder) wrongTime(c column, text string, err error) error {
	switch u := d.units[c].seconds; {
	case d.hasDecimalComma(text):
		return wrongComma("time", text)
	case u == 60 && errors.Is(err, notation.ErrTime):
		return errMinutes
	case u == 3600 && errors.Is(err, notation.ErrTime):
		return errInHours
	}
	return err
}

// dayIn reads a date in any of the forms that are understood.
func (d *decoder) dayIn(text string) (condense.Day, error) {
	day, ok := d.dialect.day(text)
	if !ok {
		return condense.NoDay, d.wrongDate(text)
	}
	return condense.DayOf(day), nil
}

// standsFor is what a name in a column stands for, one copy of it; where it is unknown it is
// the name itself.
func (d *decoder) standsFor(c column, text string) (string, error) {
	if m, ok := d.meanings[c][text]; ok {
		return m.ours, m.err
	}
	text = strings.Clone(text) // of a whole row
	m := d.meaning(c, text)
	if d.meanings[c] == nil || len(d.meanings[c]) >= maxNames {
		d.meanings[c] = map[string]meaning{}
	}
	d.meanings[c][text] = m
	return m.ours, m.err
}

// maxNames is how many names of a kind are remembered.
const maxNames = 10_000

func (d *decoder) meaning(c column, text string) meaning {
	m, isKnown, names := meaning{ours: text}, true, []string(nil)
	switch c {
	case stepColumn:
		m.ours, isKnown = d.dialect.OurStep(text)
		names = d.dialect.Steps
	case workflowColumn:
		m.ours, isKnown = d.dialect.OurWorkflow(text)
		names = d.dialect.Workflows
	case growColumn:
		m.ours = d.dialect.OurGrow(text)
	case workerColumn:
		m.ours = d.dialect.OurWorker(text)
	}
	if !isKnown {
		m.ours = text
		m.err = &often{key: study.FoldedName(text), words: func() (what, do string) { return unknownName(c, text, names) }}
	}
	return m
}

// forget forgets the names that were met.
func (d *decoder) forget() { d.meanings = [columns]map[string]meaning{} }

func (d *decoder) sourceNamed(text string) (study.Source, error) {
	for _, source := range study.Sources {
		if strings.EqualFold(text, string(source)) {
			return source, nil
		}
	}
	return "", errSource
}

// wrongDate says what is wrong with a date. Dates whose order is not known are one problem
// for all rows.
func (d *decoder) wrongDate(text string) error {
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
