package main

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// result is what the replicates of a scenario come to under one rule.
type result struct {
	group, scenario, rule string
	answers               [answers]coverage
}

// coverage is how often an answer's intervals held the truth.
type coverage struct {
	share, err float64 // of the intervals that were given; err is the simulation's own standard error
	withRange  float64 // share of all answers that had an interval
	width      float64 // of the bounded ones as a share of the truth: mean, for a break-even the median
	bounded    bool    // there is a width
}

// simulate runs every scenario on all cores. Results depend on the seed alone: each
// replicate has its own random numbers and its own place, and sums are made in order.
// step is called after every replicate.
func simulate(scenarios []scenario, replicates int, seed uint64, step func()) []result {
	var results []result
	for _, s := range scenarios {
		want := s.truth()
		scores := make([][][answers]score, replicates)
		var next atomic.Int64
		var workers sync.WaitGroup
		for range runtime.GOMAXPROCS(0) {
			workers.Go(func() {
				for k := int(next.Add(1)) - 1; k < replicates; k = int(next.Add(1)) - 1 {
					scores[k] = s.replicate(want, stream(seed, s.name, k))
					step()
				}
			})
		}
		workers.Wait()
		for r, rule := range s.rules {
			results = append(results, summed(s, rule.name, scores, r))
		}
	}
	return results
}

func summed(s scenario, rule string, scores [][][answers]score, r int) result {
	res := result{group: s.group, scenario: s.name, rule: rule}
	for a := range answers {
		column := make([]score, len(scores))
		for k := range scores {
			column[k] = scores[k][r][a]
		}
		res.answers[a] = covered(column, a == breakEvenHeads)
	}
	return res
}

// covered is the share of intervals that hit over all replicates. Intervals of one
// replicate hang together, so the standard error is that of a ratio of sums over
// replicates (Cochran, Sampling Techniques, 3rd ed., section 6.3).
func covered(scores []score, median bool) coverage {
	var c coverage
	var hits, bounded, intervals float64
	var widths []float64
	for _, s := range scores {
		hits, bounded, intervals = hits+s.hits, bounded+s.bounded, intervals+s.intervals
		widths = append(widths, s.widths...)
	}
	if bounded == 0 {
		return c
	}
	c.share, c.withRange = hits/bounded, bounded/intervals
	var squares float64
	for _, s := range scores {
		d := s.hits - c.share*s.bounded
		squares += d * d
	}
	c.err = math.Sqrt(squares) / bounded
	if len(widths) == 0 {
		return c
	}
	c.bounded = true
	if median {
		slices.Sort(widths)
		c.width = widths[len(widths)/2]
		return c
	}
	for _, w := range widths {
		c.width += w / float64(len(widths))
	}
	return c
}
