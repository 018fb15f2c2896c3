package browsertest

import (
	"fmt"
	"regexp"
	"strings"
)

// Property is a custom property of CSS, such as --ink: #1c211e.
type Property struct{ Name, Value string }

var declared = regexp.MustCompile(`(--[a-z-]+): (#[0-9a-f]+);`)

// Schemes are the colours that a style sheet gives its pages, in the order of its rules for
// :root that have any: those of the day, of the night and of paper.
func Schemes(css string) [][]Property {
	var schemes [][]Property
	for _, rule := range strings.Split(css, ":root {")[1:] {
		rule, _, _ = strings.Cut(rule, "}")
		var scheme []Property
		for _, p := range declared.FindAllStringSubmatch(rule, -1) {
			scheme = append(scheme, Property{p[1], p[2]})
		}
		if scheme != nil {
			schemes = append(schemes, scheme)
		}
	}
	return schemes
}

// Computed is a colour of six digits as a browser computes it: rgb(28, 33, 30).
func Computed(value string) string {
	var r, g, b int
	fmt.Sscanf(value, "#%02x%02x%02x", &r, &g, &b)
	return fmt.Sprintf("rgb(%d, %d, %d)", r, g, b)
}
