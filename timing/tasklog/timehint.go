package tasklog

import (
	"fmt"
	"strings"
	"unicode"

	"headhours/timing/late"
)

// maxHint is how many bytes a text may have that its writer is helped with.
const maxHint = 40

var (
	betweenDigits = late.Regexp(`\d[\s\p{Zs}]+\d`) // 3 07 may be 3:07 or 307
	unitWord      = late.Regexp(`(?i)(\d)(hours?|hrs?|minutes?|mins?|seconds?|secs?)\.?`)
	decimalComma  = late.Regexp(`(\d),(\d{1,2}\D)`) // three digits may be thousands
)

// wrongTime says what is wrong with a text that is no time. Where it would be one
// but for blanks, unit words or a decimal comma, it says how to write it.
func wrongTime(text string, comma bool) error {
	right, ok := plainTime(text, comma)
	switch {
	case !ok:
		return errTime
	case strings.ContainsFunc(text, unicode.IsSpace):
		return fmt.Errorf("is not a time: write it without blanks: %s", right)
	}
	return fmt.Errorf("is not a time: write %s", right)
}

// plainTime is a time as a log takes it that was written with blanks or whole
// words, such as 3 minutes 7 s; false where what is meant is in doubt.
func plainTime(text string, comma bool) (string, bool) {
	if len(text) > maxHint || betweenDigits().MatchString(text) {
		return "", false
	}
	right := strings.Join(strings.FieldsFunc(text, unicode.IsSpace), "")
	right = unitWord().ReplaceAllStringFunc(right, func(found string) string {
		letter := strings.ToLower(found[1:2])
		return found[:1] + map[string]string{"h": "h", "m": "min", "s": "s"}[letter]
	})
	if right == text {
		return "", false
	}
	if !comma {
		right = decimalComma().ReplaceAllString(right, "$1.$2")
	}
	_, _, err := parseTime(right, comma)
	return right, err == nil
}
