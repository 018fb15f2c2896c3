package stepfit

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The extra sum of squares of sets: anova of R, of readings taken as independent.
func TestSetsAgreeWithReference(t *testing.T) {
	for _, c := range setsCases(t) {
		t.Run(c.ID, func(t *testing.T) {
			test, ok := Apart(SetupUnit, c.Spread, setsOf(t, c))
			require.True(t, ok)
			assert.EqualValues(t, c.Expected.DF1, test.DF1)
			assert.InEpsilon(t, c.Expected.F, test.F, 1e-9)
			assert.EqualValues(t, c.Expected.DF2, test.DF2)
			assert.InEpsilon(t, c.Expected.P, test.P, 1e-8)
		})
	}
}

type setsCase struct {
	ID, Data, By string
	Spread       int
	Expected     struct{ F, DF1, DF2, P float64 }
}

func setsCases(t *testing.T) []setsCase {
	t.Helper()
	text, err := os.ReadFile(reference + "sets.json")
	require.NoError(t, err)
	var file struct{ Cases []setsCase }
	require.NoError(t, json.Unmarshal(text, &file))
	require.NotEmpty(t, file.Cases)
	return file.Cases
}

func setsOf(t *testing.T, c setsCase) []Sums {
	t.Helper()
	f, err := os.Open(reference + c.Data)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	number := func(row []string, name string) float64 {
		x, err := strconv.ParseFloat(row[slices.Index(rows[0], name)], 64)
		require.NoError(t, err)
		return x
	}
	var names []string
	var sets []Sums
	for _, row := range rows[1:] {
		name := row[slices.Index(rows[0], c.By)]
		i := slices.Index(names, name)
		if i < 0 {
			i = len(names)
			names, sets = append(names, name), append(sets, Sums{})
		}
		sets[i].Add(Load{number(row, "setups"), number(row, "count")}, number(row, "time"))
	}
	return sets
}

// Sets of one count each fit any line through two of them: only a third tells.
func TestSetsThatCannotBeTold(t *testing.T) {
	set := func(count float64, seconds ...float64) (s Sums) {
		for _, x := range seconds {
			s.Add(Load{1, count}, x)
		}
		return s
	}
	sets := []Sums{set(10, 100, 110), set(20, 300, 310)}
	_, ok := Apart(SetupUnit, 0, sets)
	assert.False(t, ok)
	test, ok := Apart(SetupUnit, 0, append(sets, set(15, 150, 155)))
	require.True(t, ok)
	assert.Equal(t, 1, test.DF1)
	assert.Equal(t, 3, test.DF2)
	_, ok = Apart(SetupUnit, 0, sets[:1])
	assert.False(t, ok)
}
