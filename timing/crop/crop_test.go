package crop

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The cases of testdata/reference/germination.json were computed in R from the
// binomial and, for germination tests, by its integrate; one is from a printed
// page. The source of each stands in it.
type germinationCase struct {
	ID, Kind string
	Input    struct {
		Heads, Of, K int
		CameUp       int `json:"came_up"`
		SeedsPerCell int `json:"seeds_per_cell"`
		Germination  float64
		Loss         float64
		Assurance    float64
	}
	Expected json.RawMessage
}

func germinationCases(t *testing.T) []germinationCase {
	t.Helper()
	text, err := os.ReadFile("../../testdata/reference/germination.json")
	require.NoError(t, err)
	var file struct{ Cases []germinationCase }
	require.NoError(t, json.Unmarshal(text, &file))
	return file.Cases
}

func near(t *testing.T, want, got float64, what string) {
	t.Helper()
	assert.InDelta(t, want, got, 1e-10*math.Max(1, math.Abs(want)), what)
}

func TestGerminationAgreesWithReference(t *testing.T) {
	kinds := map[string]int{}
	for _, c := range germinationCases(t) {
		t.Run(c.ID, func(t *testing.T) {
			kinds[c.Kind]++
			switch c.Kind {
			case "table":
				var rows []map[string]float64
				require.NoError(t, json.Unmarshal(c.Expected, &rows))
				for _, row := range rows {
					s := Propagation{Germination: row["germination"], SeedsPerCell: int(row["seeds_per_cell"])}
					cells := s.CellsPerHead()
					near(t, row["filled"], s.FilledShare(), "filled")
					near(t, row["empty"]*cells, s.Counts().Count(Empty, 0, 1), "empty")
					near(t, row["surplus"]*cells, s.Counts().Count(Surplus, 0, 1), "surplus")
				}
			case "filled":
				s := Propagation{Germination: c.Input.Germination, SeedsPerCell: c.Input.SeedsPerCell}
				var want map[string]float64
				require.NoError(t, json.Unmarshal(c.Expected, &want))
				near(t, want["filled"], s.FilledShare(), "filled")
			default:
				checkAssured(t, c)
			}
		})
	}
	assert.Len(t, kinds, 4)
}

func checkAssured(t *testing.T, c germinationCase) {
	var want struct {
		CellsAssured  int     `json:"cells_assured"`
		At            float64 `json:"probability_at"`
		OneFewer      float64 `json:"probability_one_fewer"`
		CellsExpected float64 `json:"cells_expected"`
	}
	require.NoError(t, json.Unmarshal(c.Expected, &want))
	g := Germination{Share: c.Input.Germination, CameUp: c.Input.CameUp, Of: c.Input.Of}
	if g.Of > 0 {
		g.Share = float64(g.CameUp) / float64(g.Of)
	}
	s := Propagation{Germination: g.Share, SeedsPerCell: c.Input.SeedsPerCell, Losses: []Loss{{Day: 10, Share: c.Input.Loss}}}
	cells, ok := s.Assured(c.Input.Heads, c.Input.Assurance, g)
	assert.True(t, ok)
	assert.Equal(t, want.CellsAssured, cells)
	chances := s.chances(g)
	near(t, want.At, chances.atLeast(c.Input.Heads, cells), "probability")
	if cells > c.Input.Heads {
		near(t, want.OneFewer, chances.atLeast(c.Input.Heads, cells-1), "probability of one fewer")
	}
	near(t, want.CellsExpected, float64(c.Input.Heads)*s.CellsPerHead(), "expected")
}

// The exact sum of the binomial, term by term, for small numbers.
func TestAssuredAgainstTheBinomialSum(t *testing.T) {
	choose := func(n, k int) float64 {
		x := 1.0
		for i := range k {
			x = x * float64(n-i) / float64(i+1)
		}
		return x
	}
	for heads := 1; heads <= 9; heads++ {
		for _, p := range []float64{0.3, 0.62, 0.9} {
			s := Propagation{Germination: p, SeedsPerCell: 1}
			cells, ok := s.Assured(heads, 0.9, Germination{Share: p})
			require.True(t, ok)
			tail := func(n int) (sum float64) {
				for k := heads; k <= n; k++ {
					sum += choose(n, k) * math.Pow(p, float64(k)) * math.Pow(1-p, float64(n-k))
				}
				return sum
			}
			assert.GreaterOrEqual(t, tail(cells), 0.9)
			assert.Less(t, tail(cells-1), 0.9)
		}
	}
}

func TestMoreAssuranceNeverSowsFewer(t *testing.T) {
	for _, g := range []Germination{{Share: 0.8}, {Share: 0.8, CameUp: 8, Of: 10}} {
		s, before := Propagation{Germination: g.Share, SeedsPerCell: 2}, 0
		for _, assurance := range []float64{0.01, 0.5, 0.8, 0.9, 0.95, 0.99, 0.999} {
			cells, ok := s.Assured(30, assurance, g)
			assert.True(t, ok)
			assert.GreaterOrEqual(t, cells, before)
			before = cells
		}
	}
}

func TestAssuredGivesUp(t *testing.T) {
	_, ok := Propagation{Germination: 1e-9, SeedsPerCell: 1}.Assured(10, 0.95, Germination{Share: 1e-9})
	assert.False(t, ok)
}

// As many as are looked at are found, though the last doubling goes beyond: 1e9 heads
// at a half, 2e9 + z·√(1e9·½)/½ cells.
func TestAssuredOfMany(t *testing.T) {
	cells, ok := Propagation{Germination: 0.5, SeedsPerCell: 1}.Assured(1e9, 0.95, Germination{Share: 0.5})
	require.True(t, ok)
	assert.InDelta(t, 2_000_073_560.4, cells, 2) // by the normal distribution, z = 1.6448536
	_, ok = Propagation{Germination: 0.2, SeedsPerCell: 1}.Assured(1e9, 0.95, Germination{Share: 0.2})
	assert.False(t, ok)
}

// Losses in any order, several on a day.
func TestCountsAreThoseOfTheSowing(t *testing.T) {
	s := Propagation{Germination: 0.8, SeedsPerCell: 2, Losses: []Loss{{9, 0.1}, {3, 0.2}, {9, 0.3}, {20, 0.05}}}
	for _, day := range []int{-1, 0, 2, 3, 4, 8, 9, 10, 20, 21} {
		assert.InDelta(t, 100/s.SurvivingShare(math.MaxInt)*s.SurvivingShare(day), s.Counts().Count(Plants, day, 100), 1e-9)
	}
}

func TestCount(t *testing.T) {
	s := Propagation{
		Germination: 0.8, SeedsPerCell: 2, CellsPerTray: 20,
		Losses: []Loss{{Day: 10, Share: 0.1}, {Day: 20, Share: 0.05}, {Day: 20, Share: 0.02}},
	}
	p := 0.96
	cells := 100 / (p * 0.9 * 0.95 * 0.98)
	for _, c := range []struct {
		word Word
		day  int
		want float64
	}{
		{Seeds, 0, 2 * cells}, {Cells, 0, cells}, {Trays, 0, math.Ceil(cells / 20)},
		{Filled, 30, p * cells}, {Empty, 30, (1 - p) * cells}, {Surplus, 30, (1.6 - p) * cells},
		{Plants, 9, p * cells}, {Plants, 10, p * cells * 0.9}, {Plants, 19, p * cells * 0.9},
		{Plants, 20, 100}, {Heads, 0, 100}, {Heads, 40, 100}, {Once, 5, 1},
	} {
		near(t, c.want, s.Counts().Count(c.word, c.day, 100), string(c.word))
		line := s.Counts().Linear(c.word, c.day)
		if c.word == Trays {
			near(t, cells/20+0.5, line.at(100), "trays on a line")
		} else {
			near(t, c.want, line.at(100), string(c.word)+" on a line")
		}
	}
}

func TestNoSurplusAtOneSeedACell(t *testing.T) {
	s := Propagation{Germination: 0.91, SeedsPerCell: 1}
	assert.Less(t, s.Counts().Count(Surplus, 0, 5000), 1e-9)
}

func TestRoundUp(t *testing.T) {
	for x, want := range map[float64]float64{0: 0, 0.2: 1, 1: 1, 3.0000000001: 3, 3.00001: 4, 7.9999999999: 8} {
		assert.Equal(t, want, RoundUp(x), "RoundUp(%v)", x)
	}
}

// Small shares keep their digits: sums of the binomial's own terms, none of which is less
// than nothing, say what they are.
func TestSmallShares(t *testing.T) {
	for _, g := range []float64{1e-9, 1e-6, 0.001, 0.02, 0.3, 0.9, 0.999, 1} {
		for _, k := range []int{1, 2, 3, 6, 40} {
			s := Propagation{Germination: g, SeedsPerCell: k}
			var filled, surplus float64
			for up := 1; up <= k; up++ {
				chance := math.Pow(g, float64(up)) * math.Pow(1-g, float64(k-up))
				for i := 1; i <= up; i++ {
					chance *= float64(k-up+i) / float64(i)
				}
				filled += chance
				surplus += chance * float64(up-1)
			}
			same := func(want, got float64, what string) {
				assert.InDelta(t, want, got, 1e-13*want, "%s of %d seeds of %v", what, k, g)
			}
			same(filled, s.FilledShare(), "filled")
			same(math.Pow(1-g, float64(k)), s.EmptyShare(), "empty")
			same(surplus, s.SurplusPerCell(), "surplus")
			cells := s.CellsPerHead()
			same(surplus*cells, s.Counts().Count(Surplus, 0, 1), "surplus a head")
			same(s.EmptyShare()*cells, s.Counts().Count(Empty, 0, 1), "empty a head")
		}
	}
}
