package terminal

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// nameOf is the one of some names that a name stands for, in any case and spacing, and in
// quotes as errors have it. The error says which names are near, or else all of them.
func nameOf(kind, name string, names []string) (string, error) {
	if bare := strings.Trim(name, `"`); !slices.Contains(names, name) && bare != "" {
		name = bare
	}
	if same, ok := study.SameName(name, names); ok {
		return same, nil
	}
	text := study.NoneNamed(kind, name)
	if near := nearNames(name, names); len(near) > 0 {
		return "", fmt.Errorf("%s: did you mean %s", text, words.Or(words.Quotes(near)))
	}
	return "", fmt.Errorf("%s: there is %s", text, words.QuoteList(names, len(names)))
}

// nearNames are those that may be meant: the one that is nearest in its letters, and
// those that have a word in common.
func nearNames(name string, names []string) []string {
	var near []string
	if nearest := study.Nearest(name, names); nearest != "" {
		near = append(near, nearest)
	}
	for _, n := range names {
		if !slices.Contains(near, n) && shareAWord(name, n) {
			near = append(near, n)
		}
	}
	return near
}

// minWord is how many letters a word has that tells something.
const minWord = 3

func shareAWord(a, b string) bool {
	words := strings.Fields(strings.ToLower(b))
	return slices.ContainsFunc(strings.Fields(strings.ToLower(a)), func(w string) bool {
		return len(w) >= minWord && slices.ContainsFunc(words, func(o string) bool { return strings.HasPrefix(o, w) })
	})
}
