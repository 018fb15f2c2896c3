package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"headhours/timing/study"
)

// Exit statuses.
const (
	done      = 0
	badData   = 1 // the data or the disk is at fault
	badUsage  = 2 // the command line is
	noCommand = ""
)

// usageError says what is wrong with a command line.
type usageError struct{ text string }

func (e usageError) Error() string { return e.text }

func usagef(format string, args ...any) error { return usageError{fmt.Sprintf(format, args...)} }

// maxEvery is the most days between sowings that make a schedule.
const maxEvery = 3660

// needed is what the value of each flag of a number must be.
var needed = map[string]string{
	"heads":          "a whole number above 0 is needed, such as 48; scale takes several, such as 100,1000",
	"confidence":     "a number between 0 and 1 is needed, such as 0.95",
	"assurance":      "a number between 0 and 1 is needed, such as 0.95",
	"within":         "a number between 0 and 1 is needed, such as 0.10",
	"heads-per-year": "a number above 0 is needed",
	"hours-per-day":  "a number above 0 is needed",
	"hours-per-week": "a number above 0 is needed",
	"every":          fmt.Sprintf("a whole number of days from 0 to %d is needed", maxEvery),
	"speed":          "a number above 0 is needed, such as 8 for film shown eight times too fast",
	"earn":           "a number of 0 or more is needed, such as 18",
	"port":           "a whole number from 0 to 65535 is needed",
}

// outOfRange says what is wrong with the number of a flag.
func outOfRange(flag string, found any) error {
	return usagef("--%s %v: %s", flag, found, needed[flag])
}

// misread says what is wrong with a command line that could not be taken apart.
func misread(err error, set *pflag.FlagSet) error {
	if invalid, ok := errors.AsType[*pflag.InvalidValueError](err); ok {
		return invalidValue(invalid.GetFlag(), invalid.GetValue())
	}
	if bare, ok := errors.AsType[*pflag.ValueRequiredError](err); ok {
		return bareFlag(bare.GetFlag())
	}
	return usageError{err.Error() + nearFlag(err, set)}
}

func invalidValue(flag *pflag.Flag, value string) error {
	what, isNumber := needed[flag.Name]
	switch {
	case !isNumber:
		return usagef("--%s=%s: it stands alone, without a value", flag.Name, value)
	case value != "" && strings.Trim(value, "0123456789") == "":
		return usagef("--%s %s is too large: %s", flag.Name, value, what)
	}
	return usagef("--%s %q: %s", flag.Name, value, what)
}

// bareFlag says what belongs behind a flag that ends the command line.
func bareFlag(flag *pflag.Flag) error {
	if what, isNumber := needed[flag.Name]; isNumber {
		return usagef("--%s has nothing behind it: %s", flag.Name, what)
	}
	holds, _ := pflag.UnquoteUsage(flag)
	return usagef("--%s has nothing behind it: --%s %s is needed", flag.Name, flag.Name, holds)
}

// nearFlag is the flag that may have been meant by one that there is not.
func nearFlag(err error, set *pflag.FlagSet) string {
	missing, ok := errors.AsType[*pflag.NotExistError](err)
	if !ok {
		return ""
	}
	var names []string
	set.VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	if near := study.Nearest(missing.GetSpecifiedName(), names); near != "" {
		return ": did you mean --" + near
	}
	return ""
}

func oneOf(flag, value string, allowed []string) error {
	if slices.Contains(allowed, value) {
		return nil
	}
	text := fmt.Sprintf("--%s %q: one of %s is needed", flag, value, strings.Join(allowed, ", "))
	if near := study.Nearest(value, allowed); near != "" {
		text += fmt.Sprintf("; did you mean %s", near)
	}
	return usageError{text}
}

func day(flag, value string) (time.Time, error) {
	if value == "" {
		return time.Time{}, nil
	}
	date, err := time.Parse(time.DateOnly, value)
	if err != nil || date.IsZero() { // which stands for none
		return time.Time{}, usagef("--%s %q: a date such as 2026-03-31 is needed", flag, value)
	}
	return date, nil
}

func namesOf[T ~string](values []T) []string {
	names := make([]string, len(values))
	for i, v := range values {
		names[i] = string(v)
	}
	return names
}
