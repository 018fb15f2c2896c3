package tasklog

import (
	"fmt"

	"headhours/timing/study"
	"headhours/timing/words"
)

// Differences says in which columns of a log a reading is not as another, and how: none
// where both are written alike.
func Differences(r, other study.Reading) []string {
	var differ []string
	row, others := rowOf(r, ""), rowOf(other, "")
	for c, cell := range row {
		if cell != others[c] {
			differ = append(differ, fmt.Sprintf("%s %s instead of %s", column(c), orBlank(cell), orBlank(others[c])))
		}
	}
	return differ
}

func orBlank(cell string) string {
	if cell == "" {
		return "blank"
	}
	return words.Quote(cell)
}
