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
	if alike := Alike(name, known); len(alike) == 1 {
		return alike[0], true
	}
	return "", false
}

// Alike are the known names that are the same as a name in any case and with runs of blanks
// as one.
func Alike(name string, known []string) []string {
	var alike []string
	folded := FoldedName(name)
	for _, k := range known {
		if FoldedName(k) == folded {
			alike = append(alike, k)
		}
	}
	return alike
}

// FoldedName is what names have in common that are the same in any case and with runs of
// blanks as one.
func FoldedName(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(name), " "))
}

// Names are known names among which one is found at once, however many they are.
type Names struct {
	exact  map[string]bool
	folded map[string]string // of each folded name the only one that has it, "" where several do
}

// NamesOf are names to be found.
func NamesOf(known []string) *Names {
	n := &Names{map[string]bool{}, map[string]string{}}
	for _, name := range known {
		folded := FoldedName(name)
		if _, ok := n.folded[folded]; ok && !n.exact[name] {
			n.folded[folded] = ""
		} else {
			n.folded[folded] = name
		}
		n.exact[name] = true
	}
	return n
}

// Same is the one that a name stands for, as SameName has it; false too where there are no
// names.
func (n *Names) Same(name string) (same string, ok bool) {
	if n == nil || n.exact[name] {
		return name, n != nil
	}
	same = n.folded[FoldedName(name)]
	return same, same != ""
}
