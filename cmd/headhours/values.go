package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"headhours/timing/study"
	"headhours/timing/words"
)

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

// notTaken says that a command does not take a flag, and which do.
func notTaken(cmd command, flag string) error {
	const maxListed = 4
	var takers []string
	for _, other := range commands() {
		if slices.Contains(other.flags, flag) {
			takers = append(takers, other.name)
		}
	}
	more := max(0, len(takers)-maxListed)
	listed, verb := words.UpToMore(strings.Join(takers[:len(takers)-more], ", "), more), words.Agree(len(takers), "does", "do")
	return usagef("%s takes no --%s; %s %s", cmd.name, flag, listed, verb)
}
