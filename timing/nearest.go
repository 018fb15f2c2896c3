package timing

import "strings"

// Nearest is the known name closest to a mistyped one, or "" where none is
// close: at most a third of its letters, and never fewer than one, may differ.
// Distance is Levenshtein's (insertions, deletions, substitutions), letter case
// ignored; of equally close names the first is taken.
func Nearest(name string, known []string) string {
	best, least := "", max(1, len([]rune(name))/3)+1
	for _, k := range known {
		if d := editDistance(strings.ToLower(name), strings.ToLower(k)); d < least {
			best, least = k, d
		}
	}
	return best
}

func editDistance(a, b string) int {
	x, y := []rune(a), []rune(b)
	if len(x) > 100 || len(y) > 100 {
		return len(x) + len(y) // no name of ours is that long
	}
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := range x {
		diagonal := row[0]
		row[0] = i + 1
		for j := range y {
			cost := diagonal
			if x[i] != y[j] {
				cost = 1 + min(diagonal, row[j], row[j+1])
			}
			diagonal, row[j+1] = row[j+1], cost
		}
	}
	return row[len(y)]
}
