// Package late has what is made when it is first used, so that a command of a moment does
// not wait for what others use.
package late

import (
	"regexp"
	"sync"
)

// Regexp is a regular expression, compiled when it is first asked for. It panics then
// where it cannot be.
func Regexp(text string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })
}
