package tasklog

import (
	"errors"
	"strings"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// decoder reads what cells hold, each a text without blanks about it that is not blank
// itself. Errors say what is wrong, to be written behind the text.
type decoder struct {
	form  *Form
	comma bool          // decimal commas are allowed
	units [columns]unit // of bare times
	ours  [columns]map[string]string
	// ours has what the names in a column stand for, those that were met and are known.
}

var (
	errMore      = errors.New("is more than any farm has: at most 1000000000000")
	errLeast     = errors.New("is as good as 0: at least 0.000000001")
	errNotAbove0 = errors.New("is not above 0")
	errSource    = errors.New("is not a source: watch, film or judged")
)

// number reads digits with at most one decimal mark.
func (d *decoder) number(text string) (float64, error) { return sane(parseNumber(text, d.comma)) }

// clock reads a time of day, in seconds after midnight.
func (d *decoder) clock(text string) (float64, error) { return sane(parseClock(text, d.comma)) }

// sane holds a number to what is possible.
func sane(x float64, err error) (float64, error) {
	switch {
	case err != nil:
		return 0, err
	case x > study.MaxNumber:
		return 0, errMore
	case 0 < x && x < study.LeastDivisor:
		return 0, errLeast
	}
	return x, nil
}

// above0 reads a number that must be above 0.
func (d *decoder) above0(text string) (float64, error) {
	x, err := d.number(text)
	if err == nil && x == 0 {
		return 0, errNotAbove0
	}
	return x, err
}

// duration reads a time, in seconds; where it may have been meant otherwise it is doubtful.
func (d *decoder) duration(c column, text string) (seconds float64, doubtful bool, err error) {
	seconds, doubtful, err = parseTime(text, d.comma)
	if u := d.units[c].seconds; u > 1 && err == nil {
		switch {
		case u == 3600 && strings.Count(text, ":") == 1:
			return 0, false, errHours
		case !strings.ContainsAny(text, ":hHmMsS"):
			seconds *= u
		}
	}
	seconds, err = sane(seconds, err)
	return seconds, doubtful, err
}

// day reads a date in any of the forms that are understood.
func (d *decoder) day(text string) (condense.Day, error) {
	day, ok := d.form.day(text)
	if !ok {
		return condense.NoDay, d.wrongDate(text)
	}
	return condense.DayOf(day), nil
}

// name is what a name in a column stands for, one copy of it; where it is unknown it is
// the name itself.
func (d *decoder) name(c column, text string) (string, error) {
	if ours, met := d.ours[c][text]; met {
		return ours, nil
	}
	text = strings.Clone(text) // of a whole row
	ours, known, names := text, true, []string(nil)
	switch c {
	case stepColumn:
		ours, known = d.form.Step(text)
		names = d.form.Steps
	case workflowColumn:
		ours, known = d.form.Workflow(text)
		names = d.form.Workflows
	case workerColumn:
		ours = d.form.Worker(text)
	}
	if !known {
		return text, &often{key: text, words: func() (what, do string) { return unknownName(c, text, names) }}
	}
	if d.ours[c] == nil {
		d.ours[c] = map[string]string{}
	}
	d.ours[c][text] = ours
	return ours, nil
}

// forget forgets the names that were met.
func (d *decoder) forget() { d.ours = [columns]map[string]string{} }

func (d *decoder) source(text string) (study.Source, error) {
	for _, source := range study.Sources {
		if strings.EqualFold(text, string(source)) {
			return source, nil
		}
	}
	return "", errSource
}
