package study

import (
	"fmt"
	"strconv"
	"strings"
)

// TOMLText is a text as a study file writes it, in quotes (TOML 1.0, basic strings).
func TOMLText(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case !strconv.IsPrint(r) && r > 0xffff:
			fmt.Fprintf(&b, `\U%08X`, r)
		case !strconv.IsPrint(r):
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
