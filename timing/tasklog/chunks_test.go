package tasklog

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
)

// partsThatFail can be read up to an offset.
type partsThatFail struct {
	*strings.Reader
	from int64
}

var errDisk = errors.New("the disk is gone")

func (p partsThatFail) ReadAt(into []byte, at int64) (int, error) {
	if at+int64(len(into)) > p.from {
		return 0, errDisk
	}
	return p.Reader.ReadAt(into, at)
}

// Parts are read at once, and yet what is read before one that cannot be is handed over in order.
func TestPartsThatFail(t *testing.T) {
	text := "step,count,time\n" + strings.Repeat("sow,3,40\n", 5000)
	for _, from := range []int{4000, 20_000, 30_001} {
		rows, _, err := scannedIn(&chunker{r: partsThatFail{strings.NewReader(text), int64(from)}, dialect: &Dialect{}, size: 512})
		require.ErrorIs(t, err, errDisk)
		require.LessOrEqual(t, len(rows), from/9)
		require.GreaterOrEqual(t, len(rows), from/9-3*512/9)
		for i := range rows {
			require.Equal(t, i+2, rows[i].place.Line)
		}
	}
}

// Where quotes stand that CSV does not have, a chunk may end within a cell that is in quotes, and what
// stands behind it in memory looks like the rest of that.
func TestChunksThatEndWithinCells(t *testing.T) {
	const header, strayed = "step,note,worker,count,time\n", "mist,5\" pot,w1,1,20\n"
	for _, note := range []string{"two\nlines, one note", "two\nlines, and " + strings.Repeat("many words ", 9), "\n\n\n\n", strings.Repeat("\n", 70)} {
		some := "sow,\"" + note + "\",anna berta of the greenhouse,12,30\n"
		strays := header + strings.Repeat(some, 20) + strayed + strings.Repeat(some, 20) + strayed + strings.Repeat(some, 20)
		for _, text := range []string{strays, header + strings.Repeat(some, 30) + some[:9], header + strings.Repeat(some, 30) + "sow,\"two\n"} {
			_, want := Read(strings.NewReader(text), "monday.csv", Dialect{})
			for size := len(header); size < 1000; size += 7 {
				_, _, err := scanned(text, size, Dialect{})
				require.Equal(t, want, err, size)
			}
		}
	}
}

// A log that ends in an error of the disk, and one who takes no more, leave nothing
// running: the test would hang or race.
func TestScanStops(t *testing.T) {
	text := manyRows(30_000)
	lost := errors.New("the disk is gone")
	_, err := Scan(io.MultiReader(strings.NewReader(text), iotest.ErrReader(lost)), "monday.csv", Dialect{}, nil, func(*condense.Batch) error { return nil })
	assert.ErrorIs(t, err, lost)
	enough := errors.New("enough")
	_, err = Scan(strings.NewReader(text), "monday.csv", Dialect{}, nil, func(*condense.Batch) error { return enough })
	assert.ErrorIs(t, err, enough)
}

// A quote that is never closed, and a row without an end, take up no more memory than a
// long row.
func TestRowWithoutEnd(t *testing.T) {
	for start, want := range map[string]string{
		"step,count,time,note\nsow,1,20,\"": "monday.csv:2:1: a row of more than 4 million bytes: is a quote in it never closed? The rows behind it were not read",
		"step,count,time,note\nsow,1,20,":   "monday.csv:2:1: a row of more than 4 million bytes: is a quote in it never closed? The rows behind it were not read",
		"step,count,time,":                  "monday.csv:1:1: a row of more than 4 million bytes: is a quote in it never closed? The rows behind it were not read",
	} {
		endless := func() io.Reader { return io.MultiReader(strings.NewReader(start), endlessly('x')) }
		_, err := Scan(endless(), "monday.csv", Dialect{}, nil, func(*condense.Batch) error { return nil })
		assert.EqualError(t, err, want)
		_, err = Read(endless(), "monday.csv", Dialect{})
		assert.EqualError(t, err, want)
	}
}

// endlessly is a file that has no end.
type endlessly byte

func (e endlessly) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = byte(e)
	}
	return len(p), nil
}
