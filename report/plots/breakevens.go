package plots

import "headhours/timing"

// BreakEvens draws the lower part of Growth alone: for each pair the heads at
// which both may take the same hours, over the heads of a scale.
func BreakEvens(s timing.Scale, pairs []timing.Pair) Figure {
	var blocks []block
	sentences := []string{"Heads at which two ways of working take the same hours."}
	if heads := headsOf(tracksOf(s)); len(heads) > 0 {
		blocks = evens(pairs, heads)
	}
	for _, p := range pairs {
		sentences = append(sentences, evenWords(p)+".")
	}
	return Figure{blocks, spoken(sentences...)}
}
