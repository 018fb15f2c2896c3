package study

import (
	"strings"
	"unicode/utf8"

	"headhours/timing/words"
)

// Nearest is the known name closest to a mistyped one, or "" where none is
// close: about a third of its letters may differ, and at least one must agree.
// Letter case is ignored; of equally close names the first is taken.
func Nearest(name string, known []string) string {
	if !isShort(name) {
		return ""
	}
	typed := []rune(strings.ToLower(name))
	best, distance := "", min(max(1, len(typed)/3)+1, len(typed))
	for _, k := range known {
		if !isShort(k) {
			continue
		}
		if d := editDistance(typed, []rune(strings.ToLower(k)), distance); d < distance {
			best, distance = k, d
		}
	}
	return best
}

// longName is a length beyond which nothing is taken for a mistyped name.
const longName = 100

func isShort(name string) bool {
	return len(name) <= longName*utf8.UTFMax && utf8.RuneCountInString(name) <= longName
}

// editDistance is the optimal string alignment distance: insertions, deletions,
// substitutions and swaps of neighbours, each 1 (Damerau 1964, Levenshtein 1966). Of
// names that are most or more apart, and none is longer than longName, it says no more
// than that: cells so far from the diagonal are not looked at.
func editDistance(a, b []rune, maxDistance int) int {
	if max(len(a)-len(b), len(b)-len(a)) >= maxDistance {
		return maxDistance
	}
	var rows [3][longName + 2]int // a swap goes back two
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		row, above, second := &rows[i%3], &rows[(i+2)%3], &rows[(i+1)%3]
		from, to := max(1, i-maxDistance), min(len(b), i+maxDistance)
		row[from-1], row[to+1] = i, i+maxDistance // at least maxDistance, or the first cell
		for j := from; j <= to; j++ {
			change := above[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, above[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], second[j-2]+1)
			}
		}
	}
	return rows[len(a)%3][len(b)]
}

// IsMeant asks whether the nearest known name was meant: `is "sow" meant?`; "" where none is
// near.
func IsMeant(name string, known []string) string {
	if near := Nearest(name, known); near != "" {
		return "is " + words.Quote(near) + " meant?"
	}
	return ""
}
