package page

import (
	"fmt"
	"strings"

	"headhours/report"
	"headhours/timing/condense"
	"headhours/timing/words"
)

// printHead is the style of the heads of printed pages: the study on the left, heads and
// the day of the latest reading on the right, since no clock is read here.
func printHead(w report.Whole) string {
	right := words.Many(w.Heads, "head") + " a grow"
	if w.LastDay != condense.NoDay {
		right += ", readings to " + w.LastDay.Date().Format("2006-01-02")
	}
	return fmt.Sprintf("@page {\n  @top-left { content: %s; }\n  @top-right { content: %s; }\n}\n", cssString(words.Short(words.Show(title(w)))), cssString(right))
}

// cssString is text as a string of CSS, all but letters, digits and blanks of ASCII
// escaped, so that none of it can end the string or the style sheet.
func cssString(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		if r == ' ' || r == ',' || r == '-' || '0' <= r && r <= '9' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, "\\%06x", r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

func title(w report.Whole) string {
	if w.Study == "" {
		return "Hours and cost per head"
	}
	return w.Study
}
