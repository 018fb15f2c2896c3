package condense

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// aTable is the names and the What of batches that share a table, as one who reads a log keeps
// them.
type aTable struct {
	table *NameTable
	known *KnownParts
	names [naming]Index[string]
	whats []What
}

func newTable() *aTable {
	t := &aTable{table: &NameTable{}, known: &KnownParts{}}
	for kind := range t.names {
		t.names[kind].Of("")
	}
	return t
}

// batch is a batch of readings of one file, of this table.
func (t *aTable) batch(readings []study.Reading) *Batch {
	b := batchOf(readings)
	b.Table, b.Known = t.table, t.known
	index := func(kind int, name int32) int32 { return int32(t.names[kind].Of(b.Names[kind][name])) }
	for i, w := range b.Where {
		b.Where[i] = Where{index(GrowNames, w.Grow), index(WorkflowNames, w.Workflow)}
	}
	for i, at := range b.Rows.What {
		b.Rows.What[i] = at + uint32(len(t.whats))
	}
	for _, w := range b.What {
		t.whats = append(t.whats, What{index(StepNames, w.Step), index(WorkerNames, w.Worker), w.Voided})
	}
	b.What = slices.Clip(t.whats)
	for kind := range t.names {
		b.Names[kind] = slices.Clip(t.names[kind].List)
	}
	return b
}

// Batches of two tables, whose parts serve again and are digested ahead of what is taken in, come to
// what they come to by themselves, to the last digit: whether the same recurs, grows follow each
// other, workers are new in each, or there are more keys than cells.
func TestPartsThatRecur(t *testing.T) {
	t.Parallel()
	name := func(letter string, number int) string { return fmt.Sprint(letter, number) }
	for what, names := range map[string]func(r *rand.Rand, batch int) (grow, worker string){
		"the same":        func(r *rand.Rand, _ int) (string, string) { return name("g", r.IntN(4)), name("w", r.IntN(3)) },
		"grows in order":  func(r *rand.Rand, b int) (string, string) { return name("g", b+r.IntN(3)), "w" },
		"grows by turns":  func(r *rand.Rand, b int) (string, string) { return name("g", b%8/4*20+r.IntN(20)), "w" },
		"new workers":     func(r *rand.Rand, b int) (string, string) { return name("g", r.IntN(4)), name("w", b/2+r.IntN(2)) },
		"more than cells": func(r *rand.Rand, _ int) (string, string) { return name("g", r.IntN(90)), name("w", r.IntN(120)) },
		"then more":       func(r *rand.Rand, b int) (string, string) { return name("g", r.IntN(1+b*b)), name("w", r.IntN(1+b*b)) },
	} {
		for i, filter := range []Filter{{}, {Grow: "g3", Since: day(15)}, {}, {Worker: "w1"}} {
			r := rand.New(rand.NewPCG(5, 17))
			st := twoChanges()
			if i < 2 {
				st.Made = nil
			}
			g, alone := Gather(st, filter), Gather(st, filter)
			tables := []*aTable{newTable(), newTable()}
			var waiting []*Batch
			for i := range 24 {
				readings := ofAll(300, uint64(i))
				for at := range readings {
					readings[at].Place.File = "a.csv"
					readings[at].Grow, readings[at].Worker = names(r, i)
				}
				require.NoError(t, alone.Take(batchOf(readings)))
				b := tables[r.IntN(2)].batch(readings)
				if r.IntN(4) == 0 {
					Gather(st, Filter{Grow: "g2"}).Digest(b) // its parts are not this one's
				}
				g.Digest(b)
				if waiting = append(waiting, b); len(waiting) == 4 {
					for _, b := range waiting {
						require.NoError(t, g.Take(b))
					}
					waiting = nil
				}
			}
			require.True(t, slices.Equal(described(alone.Condensed(nil)), described(g.Condensed(nil))), what)
		}
	}
}

// Digested ahead while readings are told apart no longer, batches of a table are digested anew.
func TestPartsThatRecurJoined(t *testing.T) {
	t.Parallel()
	st := twoChanges()
	st.Made = nil
	g, alone, table := Gather(st, Filter{}), Gather(st, Filter{}), newTable()
	readings := manyGrows(maxKinds + 4000)
	for i := range readings {
		readings[i].Worker = fmt.Sprint("w", i%3)
	}
	var batches []*Batch
	for part := range slices.Chunk(readings, 3000) {
		for range 2 {
			require.NoError(t, alone.Take(batchOf(part)))
			batches = append(batches, table.batch(part))
			g.Digest(batches[len(batches)-1])
		}
	}
	for _, b := range batches {
		require.NoError(t, g.Take(b))
	}
	require.True(t, g.joined.Load())
	for range 2 { // those who digest know of it now
		b := table.batch(readings[:3000])
		g.Digest(b)
		require.NoError(t, g.Take(b))
		require.NoError(t, alone.Take(batchOf(readings[:3000])))
	}
	require.Equal(t, described(alone.Condensed(nil)), described(g.Condensed(nil)))
}
