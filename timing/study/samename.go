package study

import (
	"slices"
	"strings"
)

// SameName is the one of the known names that a name stands for: itself, or else the only
// one that is the same in any case and with runs of blanks as one. False where there is
// none, or more than one.
func SameName(name string, known []string) (same string, ok bool) {
	if slices.Contains(known, name) {
		return name, true
	}
	folded := FoldedName(name)
	for _, k := range known {
		if FoldedName(k) == folded {
			if ok {
				return "", false
			}
			same, ok = k, true
		}
	}
	return same, ok
}

// FoldedName is what names have in common that are the same in any case and with runs of
// blanks as one.
func FoldedName(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(name), " "))
}
