package tasklog

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
)

// oddRows is a log in which plain rows stand between such as end a stretch, in any order: new
// names come in all of them.
func oddRows(rows int, seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 5))
	var text strings.Builder
	text.WriteString("step,date,time,worker,void,plants,trays,note\n")
	for i := range rows {
		step, void, plants, trays, note, end := "sow", "", fmt.Sprint(1+r.IntN(400)), "", "", "\n"
		switch r.IntN(12) {
		case 0:
			void = "slipped"
		case 1:
			note = "\"two\n\nlines\""
		case 2:
			plants, trays = "", plants
		case 3:
			note = "\"a line like a row:\nsow,2026-03-01,60,w1,,5,,\n\""
		case 4:
			end = "\r\n\n"
		case 5:
			step = "\"soak, then fill\""
		case 6:
			step = "a step of a name that is too long for words"
		}
		if r.IntN(4) == 0 {
			step = fmt.Sprintf("step %d", i/3)
		}
		fmt.Fprintf(&text, "%s,2026-03-%02d,%d.%d,w%d,%s,%s,%s,%s%s", step, 1+i/300%28, 60+r.IntN(2000), i%10, r.IntN(i/8+3), void, plants, trays, note, end)
	}
	return text.String()
}

func TestStretchesEndAnywhere(t *testing.T) {
	counts := Dialect{Columns: map[string][]string{"count": {"plants", "trays"}}}
	for seed := range uint64(20) {
		text := oddRows(int(20+100*seed), seed)
		_, err := Read(strings.NewReader(text), "monday.csv", counts)
		require.NoError(t, err) // else its rows are not compared
		checkScan(t, text, counts)
	}
}

// Names are in order of first appearance, whichever rows are read in place.
func TestOrderOfNames(t *testing.T) {
	counts := Dialect{Columns: map[string][]string{"count": {"plants", "trays"}}}
	in := &chunker{r: strings.NewReader(oddRows(3000, 7)), dialect: &counts, size: chunkSize}
	batches := 0
	_, err := scanChunks(in, "monday.csv", nil, func(b *condense.Batch) error {
		batches++
		for _, kind := range []int{condense.StepNames, condense.WorkerNames} {
			first := []string{""}
			seen := map[string]bool{"": true}
			for i := range b.Rows.Len() {
				if name := b.Name(b.Rows.At(i), kind); !seen[name] {
					first, seen[name] = append(first, name), true
				}
			}
			require.Equal(t, first, b.Names[kind])
		}
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, 1, batches)
}
