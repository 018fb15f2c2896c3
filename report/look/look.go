// Package look is how all that headhours draws looks: the colours of its pages and
// figures, in light, dark and on paper, and the letters, corners and gaps that its
// pages share. The phone's page and the report take their style sheet's beginning
// from here, the figures their inks, so that none of them parts from the others.
//
// A colour has a part to play rather than a hue: a page says --leaf, and each
// scheme says what leaf is in it. No page has colours of its own.
package look

import (
	_ "embed"
	"fmt"
	"strings"
)

//go:embed look.css
var basics string

// CSS is what a page's style sheet begins with: the colours of each scheme as
// custom properties, then what all pages share.
func CSS() string {
	var b strings.Builder
	b.WriteString(":root {\n  color-scheme: light dark;\n" + Light.declarations("  ") + "}\n")
	b.WriteString("@media (prefers-color-scheme: dark) {\n  :root {\n" + dark.declarations("    ") + "  }\n}\n")
	b.WriteString("@media print {\n  :root {\n    color-scheme: light;\n" + paper.declarations("    ") + "  }\n}\n")
	return b.String() + basics
}

func (s Scheme) declarations(indent string) string {
	var b strings.Builder
	for _, p := range s.properties() {
		fmt.Fprintf(&b, "%s%s: %s;\n", indent, p.name, p.value)
	}
	return b.String()
}
