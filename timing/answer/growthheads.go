package answer

import (
	"math"
	"slices"
)

// How a figure against heads is laid out: how far it goes beyond the largest grow whose
// counts were timed, how many points it has, and how many heads are looked at.
const (
	growthBeyond = 4
	growthPoints = 36
	maxGrowth    = 20000
)

// GrowthHeads are numbers of heads for a figure of what workflows take, rising and close
// together: from two thirds of the smallest grow whose counts were timed in some workflow to four
// times the largest. Where there is none, the study's heads stand in for both. The errors
// are those of Compare.
func (m *Models) GrowthHeads(names []string) ([]int, error) {
	workflows, err := m.Study.Choose(names)
	if err != nil {
		return nil, err
	}
	minHeads, maxHeads := 0, 0
	for n := 1; n <= maxGrowth; n = max(n+1, n*26/25) {
		for _, w := range workflows {
			if basis := m.basis(m.visits(w, float64(n))); len(basis.Beyond) > 0 || len(basis.Timed) == 0 {
				continue
			}
			if minHeads == 0 {
				minHeads = n
			}
			maxHeads = n
			break
		}
	}
	usual := max(m.Study.Heads, 1)
	if minHeads == 0 || maxHeads >= maxGrowth/26*25 { // nothing, or everything, is within what was timed
		minHeads, maxHeads = usual, usual
	}
	low, high := max(1, min(minHeads, usual)*2/3), growthBeyond*max(maxHeads, 1)
	heads := []int{minHeads, maxHeads, usual}
	for i := range growthPoints {
		share := float64(i) / (growthPoints - 1)
		heads = append(heads, int(math.Round(float64(low)+share*float64(high-low))))
	}
	for n := low; n < low+(high-low)/8; n = max(n+1, n*6/5) { // where time a head falls quickly
		heads = append(heads, n)
	}
	slices.Sort(heads)
	heads = slices.Compact(heads)
	return slices.DeleteFunc(heads, func(n int) bool { return n > max(high, usual) }), nil
}
