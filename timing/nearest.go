package timing

import "strings"

// Nearest is the known name closest to a mistyped one, or "" where none is
// close: about a third of its letters may differ, and at least one must agree.
// Letter case is ignored; of equally close names the first is taken.
func Nearest(name string, known []string) string {
	typed := []rune(strings.ToLower(name))
	best, least := "", min(max(1, len(typed)/3)+1, len(typed))
	for _, k := range known {
		if d := editDistance(typed, []rune(strings.ToLower(k))); d < least {
			best, least = k, d
		}
	}
	return best
}

// longName is a length beyond which nothing is taken for a mistyped name.
const longName = 100

// editDistance is the optimal string alignment distance: insertions, deletions,
// substitutions and swaps of neighbours, each 1 (Damerau 1964, Levenshtein 1966).
func editDistance(a, b []rune) int {
	if len(a) > longName || len(b) > longName {
		return len(a) + len(b)
	}
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			change := d[i-1][j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			d[i][j] = min(change, d[i-1][j]+1, d[i][j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}
