package crop

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fewerThan is the chance of fewer heads than asked for, the binomial's terms summed up.
func fewerThan(heads, cells int, chance float64) (sum float64) {
	term := math.Pow(1-chance, float64(cells))
	for x := range heads {
		sum += term
		term *= float64(cells-x) / float64(x+1) * chance / (1 - chance)
	}
	return sum
}

// Cells of one, two and three seeds, with losses on the way: the number that is enough, and
// one less that is not.
func TestAssuredWithLosses(t *testing.T) {
	for _, heads := range []int{1, 2, 10, 48} {
		for _, share := range []float64{0.5, 0.8, 0.97} {
			for seeds := 1; seeds <= 3; seeds++ {
				for _, losses := range [][]Loss{nil, {{Day: 5, Share: 0.3}}, {{Day: 5, Share: 0.2}, {Day: 900, Share: 0.1}}} {
					s := Propagation{Germination: share, SeedsPerCell: seeds, Losses: losses}
					chance := 1 - math.Pow(1-share, float64(seeds))
					for _, l := range losses {
						chance *= 1 - l.Share
					}
					for _, assurance := range []float64{0.5, 0.8, 0.95, 0.999} {
						cells, ok := s.Assured(heads, assurance, Germination{Share: share})
						require.True(t, ok)
						what := fmt.Sprint(heads, share, seeds, losses, assurance, cells)
						require.GreaterOrEqual(t, 1-fewerThan(heads, cells, chance), assurance-1e-12, what)
						if cells > heads {
							require.Less(t, 1-fewerThan(heads, cells-1, chance), assurance+1e-12, what)
						}
					}
				}
			}
		}
	}
}

// For one head the answer stands in one line: ⌈ln(1 − assurance) ÷ ln(1 − chance)⌉.
func TestAssuredOfOneHead(t *testing.T) {
	for _, chance := range []float64{1e-6, 0.01, 0.3, 0.62} {
		for _, assurance := range []float64{0.5, 0.95, 0.9999} {
			cells, ok := Propagation{Germination: chance, SeedsPerCell: 1}.Assured(1, assurance, Germination{Share: chance})
			require.True(t, ok)
			assert.Equal(t, int(math.Ceil(math.Log(1-assurance)/math.Log1p(-chance))), cells, "%v %v", chance, assurance)
		}
	}
}

// Where every cell gives a head, as many are sown as are wanted.
func TestAssuredWhereNoneFails(t *testing.T) {
	for _, s := range []Propagation{{Germination: 1, SeedsPerCell: 1}, {Germination: 1, SeedsPerCell: 3}, {Bought: true, SeedsPerCell: 1}} {
		for _, heads := range []int{1, 48, 100_000} {
			cells, ok := s.Assured(heads, 0.9999, Germination{Share: 1})
			assert.Equal(t, []any{heads, true}, []any{cells, ok})
		}
	}
}

// What a test of germination leaves open is Beta(came up + ½, of − came up + ½): its mean
// and variance are those of that distribution, and so is the chance that none of some seeds
// comes up.
func TestChancesOfAGerminationTest(t *testing.T) {
	for _, g := range []Germination{{CameUp: 0, Of: 1}, {CameUp: 1, Of: 1}, {CameUp: 8, Of: 10}, {CameUp: 182, Of: 200}, {CameUp: 0, Of: 50}, {CameUp: 9_100, Of: 10_000}} {
		a, b := float64(g.CameUp)+0.5, float64(g.Of-g.CameUp)+0.5
		var weight, mean, square float64
		for _, c := range (Propagation{SeedsPerCell: 1}).chances(g) {
			weight += c.weight
			mean += c.weight * c.cell
			square += c.weight * c.cell * c.cell
		}
		what := fmt.Sprint(g)
		assert.InDelta(t, 1, weight, 1e-12, what)
		assert.InDelta(t, a/(a+b), mean, 1e-10, what)
		assert.InDelta(t, a*b/((a+b)*(a+b)*(a+b+1)), square-mean*mean, 1e-10, what)

		empty := 1.0 // Π (b + i) ÷ (a + b + i): none of four
		for i := range 4 {
			empty *= (b + float64(i)) / (a + b + float64(i))
		}
		var filled float64
		for _, c := range (Propagation{SeedsPerCell: 4}).chances(g) {
			filled += c.weight * c.cell
		}
		assert.InDelta(t, 1-empty, filled, 1e-10, what)
	}
}

// At one seed a cell and no loss the heads are a beta-binomial, whose terms are gamma
// functions.
func TestAssuredIsABetaBinomial(t *testing.T) {
	gamma := func(x float64) float64 { l, _ := math.Lgamma(x); return l }
	for _, g := range []Germination{{CameUp: 9, Of: 10}, {CameUp: 40, Of: 50}, {CameUp: 182, Of: 200}} {
		a, b := float64(g.CameUp)+0.5, float64(g.Of-g.CameUp)+0.5
		g.Share = float64(g.CameUp) / float64(g.Of)
		atLeast := func(heads, n int) (sum float64) {
			for k := heads; k <= n; k++ {
				x, m := float64(k), float64(n)
				sum += math.Exp(gamma(m+1) - gamma(x+1) - gamma(m-x+1) + gamma(x+a) + gamma(m-x+b) - gamma(m+a+b) - gamma(a) - gamma(b) + gamma(a+b))
			}
			return sum
		}
		for _, heads := range []int{1, 12, 48} {
			cells, ok := Propagation{Germination: g.Share, SeedsPerCell: 1}.Assured(heads, 0.95, g)
			require.True(t, ok)
			assert.GreaterOrEqual(t, atLeast(heads, cells), 0.95-1e-9)
			assert.Less(t, atLeast(heads, cells-1), 0.95+1e-9)
			chances := Propagation{SeedsPerCell: 1}.chances(g)
			assert.InDelta(t, atLeast(heads, cells), chances.atLeast(heads, cells), 1e-9)
		}
	}
}

// What a few seeds leave open asks for more cells than a share that is known.
func TestFewSeedsTestedAskForMore(t *testing.T) {
	s, before := Propagation{Germination: 0.9, SeedsPerCell: 1}, math.MaxInt
	for _, of := range []int{10, 50, 200, 10_000} {
		cells, ok := s.Assured(48, 0.95, Germination{Share: 0.9, CameUp: of * 9 / 10, Of: of})
		require.True(t, ok)
		assert.Less(t, cells, before)
		before = cells
	}
	known, _ := s.Assured(48, 0.95, Germination{Share: 0.9})
	assert.InDelta(t, known, before, 1)
}

// All cells are filled or empty, all seeds come up, are surplus, or do not; plants are lost
// until heads are left: whatever is sown.
func TestCountsAddUp(t *testing.T) {
	for _, share := range []float64{0.3, 0.91, 1} {
		for seeds := 1; seeds <= 5; seeds++ {
			s := Propagation{Germination: share, SeedsPerCell: seeds, CellsPerTray: 40, Losses: []Loss{{Day: 12, Share: 0.2}, {Day: 20, Share: 0.5}}}
			for _, heads := range []float64{1, 48, 1e6} {
				at := func(w Word, day int) float64 { return s.Counts().Count(w, day, heads) }
				cells := at(Cells, 0)
				assert.InEpsilon(t, cells, at(Filled, 0)+at(Empty, 0), 1e-12)
				assert.InEpsilon(t, cells*float64(seeds)*share, at(Filled, 0)+at(Surplus, 0), 1e-12)
				assert.InEpsilon(t, cells*float64(seeds), at(Seeds, 0), 1e-12)
				assert.InEpsilon(t, at(Filled, 0), at(Plants, 11), 1e-12)
				assert.InEpsilon(t, 0.8*at(Filled, 0), at(Plants, 12), 1e-12)
				assert.InEpsilon(t, heads, at(Plants, 20), 1e-12)
				assert.Equal(t, heads, at(Heads, 0))
				assert.Equal(t, 1.0, at(Once, 0))
				assert.GreaterOrEqual(t, at(Trays, 0), cells/40*(1-1e-9))
				assert.Less(t, at(Trays, 0), cells/40+1)
			}
		}
	}
}

// Plants that are bought are all there, one a cell, and nothing is sown.
func TestBoughtCounts(t *testing.T) {
	s := Propagation{Bought: true, SeedsPerCell: 1, CellsPerTray: 10, Losses: []Loss{{Day: 3, Share: 0.5}}}
	for w, want := range map[Word]float64{Seeds: 0, Surplus: 0, Empty: 0, Cells: 60, Filled: 60, Trays: 6, Plants: 60, Heads: 30, Once: 1} {
		assert.InDelta(t, want, s.Counts().Count(w, 2, 30), 1e-12, string(w))
		line := s.Counts().Linear(w, 2)
		assert.Equal(t, w == Once, line.Fixed == 1, string(w))
		assert.InDelta(t, want, line.at(30)-map[Word]float64{Trays: 0.5}[w], 1e-12, string(w))
	}
	assert.Equal(t, 1.0, s.FilledShare())
	assert.InDelta(t, 2, s.CellsPerHead(), 1e-15)
}

// Losses fall before the tasks of their day, in whatever order they are listed; the
// caller's list stays as it was.
func TestLossesOnADay(t *testing.T) {
	losses := []Loss{{Day: 20, Share: 0.5}, {Day: 5, Share: 0.1}, {Day: 20, Share: 0.2}}
	s := Propagation{Germination: 1, SeedsPerCell: 1, Losses: losses}
	for day, want := range map[int]float64{-3: 1, 0: 1, 4: 1, 5: 0.9, 19: 0.9, 20: 0.36, 400: 0.36} {
		assert.InDelta(t, want, s.SurvivingShare(day), 1e-15)
		assert.InDelta(t, want*100/0.36, s.Counts().Count(Plants, day, 100), 1e-10)
	}
	assert.Equal(t, []Loss{{Day: 20, Share: 0.5}, {Day: 5, Share: 0.1}, {Day: 20, Share: 0.2}}, losses)
	assert.Equal(t, Amount{Fixed: 2, PerHead: 3}.at(10), 32.0)
}
