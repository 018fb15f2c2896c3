package condense

import (
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// cut cuts readings at so many places.
func cut(r *rand.Rand, readings []study.Reading, places int) (parts [][]study.Reading) {
	at := []int{0, len(readings)}
	for range places {
		at = append(at, r.IntN(len(readings)+1))
	}
	slices.Sort(at)
	for i := range at[1:] {
		if at[i] < at[i+1] {
			parts = append(parts, readings[at[i]:at[i+1]])
		}
	}
	return parts
}

// However readings are cut, they come to the same, and the first and the farthest are kept.
func TestCutAnywhere(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 1))
	for seed := range uint64(6) {
		readings := ofAll(40+int(seed)*130, seed)
		whole := gather(t, twoChanges(), Filter{}, readings)
		for _, places := range []int{1, 3, 20, len(readings)} {
			parts := gather(t, twoChanges(), Filter{}, cut(r, readings, places)...)
			alike(t, whole, parts)
			require.Equal(t, whole.Grows, parts.Grows)
			require.Equal(t, whole.Workers, parts.Workers)
			for i := range whole.Steps {
				require.Equal(t, whole.Steps[i].Kept, parts.Steps[i].Kept)
			}
		}
	}
}

// In whatever order batches come, sums, days and whole numbers are the same.
func TestBatchesInAnyOrder(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(2, 1))
	for seed := range uint64(12) {
		readings := ofAll(300, seed)
		parts := cut(r, readings, 9)
		whole := gather(t, twoChanges(), Filter{}, parts...)
		r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		alike(t, whole, gather(t, twoChanges(), Filter{}, parts...))
	}
}

// Digested side by side and taken in in order, batches give the same to the last digit.
func TestDigestedSideBySide(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 1))
	for seed := range uint64(6) {
		readings := ofAll(1500, seed)
		parts := cut(r, readings, 12)
		one := gather(t, twoChanges(), Filter{Worker: "ab"}, parts...)
		g := Gather(twoChanges(), Filter{Worker: "ab"})
		var batches []*Batch
		for _, part := range parts {
			require.NoError(t, InMemory(part)(nil, func(b *Batch) error { batches = append(batches, b); return nil }))
		}
		var all sync.WaitGroup
		for _, b := range batches {
			all.Go(func() { g.Digest(b) })
		}
		all.Wait()
		for _, b := range batches {
			require.NoError(t, g.Take(b))
		}
		require.Equal(t, described(one), described(g.Condensed(InMemory(readings))))
	}
}

// A digest made for another gathering, which may filter otherwise, is not taken for one's
// own.
func TestDigestOfAnother(t *testing.T) {
	readings := ofAll(200, 1)
	b := batchOf(readings[:100])
	Gather(twoChanges(), Filter{Grow: "g1"}).Digest(b)
	g := Gather(twoChanges(), Filter{})
	require.NoError(t, g.Take(b))
	require.Equal(t, described(gather(t, twoChanges(), Filter{}, readings[:100])), described(g.Condensed(nil)))
}

// One at a time is the plainest way to take readings in.
func TestWholeIsOneByOne(t *testing.T) {
	readings := ofAll(500, 8)
	var each [][]study.Reading
	for i := range readings {
		each = append(each, readings[i:i+1])
	}
	alike(t, gather(t, twoChanges(), Filter{}, readings), gather(t, twoChanges(), Filter{}, each...))
}

// Batches that share a table of names may name more later on; each index keeps its name.
func TestTableOfNamesGrows(t *testing.T) {
	table := &NameTable{}
	first := batchOf([]study.Reading{plainReading("sow"), plainReading("thin")})
	more := batchOf([]study.Reading{plainReading("sow"), plainReading("thin"), plainReading("pick")})
	first.Table, more.Table = table, table
	g := Gather(twoChanges(), Filter{})
	for _, b := range []*Batch{first, more, more} {
		require.NoError(t, g.Take(b))
	}
	c := g.Condensed(nil)
	require.Equal(t, []int{3, 3, 2}, []int{c.Steps[0].Readings, c.Steps[1].Readings, c.Steps[2].Readings})
}
