package plots

import (
	"cmp"
	"math"
	"slices"

	"headhours/timing/answer"
	"headhours/timing/words"
)

// differs is what a step takes more in one way than in another, in minutes a grow;
// below zero, what it saves.
type differs struct {
	step    string
	minutes float64
}

// littleChange is the share of all changes below which a step's joins the others.
const littleChange = 0.05

// pairOf is the pair of two ways, b − a.
func pairOf(c answer.Comparison, a, b string) answer.Pair {
	for _, p := range c.Pairs {
		if p.A == a && p.B == b {
			return p
		}
	}
	return answer.Pair{}
}

// hoursByStep sums a way's hours by step; a step may stand in it several times.
func hoursByStep(h answer.Hours) map[string]float64 {
	hours := map[string]float64{}
	for _, s := range h.Steps {
		hours[s.Step] += s.Hours.Value
	}
	return hours
}

// stepsThatDiffer are the steps that take longer in one of two ways than in the other,
// the largest change first.
func stepsThatDiffer(a, b answer.Hours) []differs {
	was, ok := hoursByStep(a), hoursByStep(b)
	var all []differs
	seen := map[string]bool{}
	for _, s := range slices.Concat(a.Steps, b.Steps) {
		if seen[s.Step] {
			continue
		}
		seen[s.Step] = true
		if more := ok[s.Step] - was[s.Step]; math.Abs(more) > 1e-12*(math.Abs(ok[s.Step])+math.Abs(was[s.Step])) {
			all = append(all, differs{s.Step, 60 * more})
		}
	}
	slices.SortStableFunc(all, func(a, b differs) int { return cmp.Compare(math.Abs(b.minutes), math.Abs(a.minutes)) })
	return all
}

// joinLittle puts small changes together, the smallest first, as long as the sum could
// not change its sign without them.
func joinLittle(all []differs) []differs {
	var sum, changes float64
	for _, d := range all {
		sum, changes = sum+d.minutes, changes+math.Abs(d.minutes)
	}
	keep, joined, reach := len(all), 0.0, 0.0
	for keep > 0 {
		d := all[keep-1]
		if math.Abs(d.minutes) >= littleChange*changes || reach+math.Abs(d.minutes) >= math.Abs(sum) {
			break
		}
		joined, reach, keep = joined+d.minutes, reach+math.Abs(d.minutes), keep-1
	}
	if len(all)-keep < 2 {
		return all
	}
	return append(slices.Clone(all[:keep]), differs{words.Many(len(all)-keep, "other"), joined})
}

// sameInAll are the steps that take as long in every way, in the order of the first.
func sameInAll(c answer.Comparison) []string {
	var same []string
	if len(c.Workflows) == 0 {
		return nil
	}
	hours := make([]map[string]float64, len(c.Workflows))
	for i, h := range c.Workflows {
		hours[i] = hoursByStep(h)
	}
	for _, s := range c.Workflows[0].Steps {
		if slices.Contains(same, s.Step) || !s.Hours.Known {
			continue
		}
		at := hours[0][s.Step]
		alike := !slices.ContainsFunc(hours, func(h map[string]float64) bool {
			other, ok := h[s.Step]
			return !ok || math.Abs(other-at) > 1e-9*math.Abs(at)
		})
		if alike {
			same = append(same, s.Step)
		}
	}
	return same
}
