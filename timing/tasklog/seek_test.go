package tasklog

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
)

// parsedOnce is a log of one chunk, parsed, and its parser.
func parsedOnce(t *testing.T, text string) (*parser, chunk) {
	t.Helper()
	in := newChunker(strings.NewReader(text), &Dialect{})
	first, err := in.begin()
	require.NoError(t, err)
	header := newCSVReader("monday.csv", in.dialect, in.separator)
	rows, good, err := header.begin(in, first)
	require.NoError(t, err)
	require.True(t, good)
	p := newParser(header, &condense.Origin{})
	var into parsed
	p.parse(rows, &into)
	require.Empty(t, into.problems)
	return p, rows
}

// Cells that recur are found by what they begin with, whatever stands behind them: names alike in
// all but their last bytes, blank ones beside such as begin like what follows a blank one, some in quotes
// with separators.
func TestCellsAreSought(t *testing.T) {
	long := "lettuce in the second house of "
	for _, names := range [][]string{
		{"sow", "thin", "pick"},
		{"grow-2025-01", "grow-2025-02"},
		{"transplant to raft", "transplant to tower", "sow"},
		{"batch of trays 11", "batch of trays 12", "batch of trays 21", "batch of trays 22"},
		{"a1", "a11", "a111", "a1111"},
		{"xa234567890123456789012b", "xb234567890123456789012a", "xa234567890123456789012a", "xb234567890123456789012b"},
		{`"sow, then thin"`, `"sow, then pick"`, "sow"},
		{"", "north", `"north, south"`, "nothing", "so", "soon"},
		{`"so, soon"`, `"sun, sand"`, ""},
		{long[:25], long[:24], long[:20] + "x"},
	} {
		var text strings.Builder
		text.WriteString("step,count,time,note,bed\n")
		r := rand.New(rand.NewPCG(7, 8))
		for i := range 4000 {
			name := names[r.IntN(len(names))]
			if i < len(names) { // at first in this order
				name = names[i]
			}
			fmt.Fprintf(&text, "sow,%d,%d,%s,%s%d\n", 1+r.IntN(60), 10+r.IntN(900), name, []string{"north ", "south ", "so"}[r.IntN(3)], r.IntN(100))
		}
		p, c := parsedOnce(t, text.String())
		note := p.recurs[noteColumn]
		require.NotNil(t, note)
		sought, rows, data := 0, 0, c.data[:len(c.data)+padding]
		for from := 0; from < len(c.data); rows++ {
			cell := from
			for range 3 {
				cell += bytes.IndexByte(data[cell:], ',') + 1
			}
			at, found := []uint32{uint32(cell)}, []uint32{0}
			sought += note.seek(data, at, found)
			from += bytes.IndexByte(data[from:], '\n') + 1
		}
		assert.Greater(t, sought, rows*98/100, names)
	}
}

// Notes that recur are told apart as names are; of which each is another are skipped.
func TestNotesThatDoNotRecur(t *testing.T) {
	for _, unique := range []bool{false, true} {
		var text strings.Builder
		text.WriteString("step,count,time,note\n")
		for i := range 4000 {
			note := []string{`"cold, wet"`, "", `"two visitors, who had a question or several"`}[i%3]
			if unique {
				note = fmt.Sprintf(`"tray %d, as ever"`, i)
			}
			fmt.Fprintf(&text, "sow,%d,%d,%s\n", 1+i%50, 20+i%77, note)
		}
		p, c := parsedOnce(t, text.String())
		var again parsed
		p.parse(c, &again)
		assert.Equal(t, 4000, again.batch.Rows.Len())
		assert.Equal(t, unique, p.skipNotes)
		checkScan(t, text.String(), Dialect{})
	}
}

// Jobs are taken in in order, each once, whichever is done first; where one cannot be, none is behind
// it, and no worker waits for ever.
func TestQueue(t *testing.T) {
	const workers, jobs = 3, 400
	failed := errors.New("no room")
	for _, failsAt := range []int{-1, 0, 57} {
		q := new(queue)
		var cutting sync.Mutex
		begun, number := 0, map[*chunkJob]int{}
		var taken []int
		takeIn := func(j *chunkJob) error {
			cutting.Lock()
			n := number[j]
			cutting.Unlock()
			taken = append(taken, n)
			if n == failsAt {
				return failed
			}
			return nil
		}
		var working sync.WaitGroup
		for w := range workers {
			working.Go(func() {
				r := rand.New(rand.NewPCG(uint64(w), 9))
				idle := make(chan *chunkJob, jobsEach)
				for range jobsEach {
					idle <- &chunkJob{home: idle}
				}
				for {
					j := <-idle
					cutting.Lock()
					if begun == jobs {
						cutting.Unlock()
						return
					}
					number[j] = begun
					begun++
					q.add(j)
					cutting.Unlock()
					for range r.IntN(50) {
						runtime.Gosched()
					}
					free, ok := q.finish(j, takeIn)
					if free {
						idle <- j
					}
					if !ok {
						return
					}
				}
			})
		}
		working.Wait()
		want := jobs
		if failsAt >= 0 {
			want = failsAt + 1
			assert.Equal(t, failed, q.err)
		} else {
			assert.NoError(t, q.err)
		}
		require.Len(t, taken, want)
		for i, n := range taken {
			require.Equal(t, i, n)
		}
	}
}
