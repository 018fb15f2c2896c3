package study

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func problemAt(line int) Problem {
	return Problem{Place: Place{File: "a.csv", Line: line, Column: 2}, Text: fmt.Sprint("wrong ", line)}
}

// However problems come together, the first thousand are listed and all are counted.
func TestProblemsBeyondThoseListed(t *testing.T) {
	for _, n := range []int{0, 1, 2, MaxProblems - 1, MaxProblems, MaxProblems + 1, 3 * MaxProblems} {
		var one, together, halves Problems
		for i := range n {
			one = one.AndOne(problemAt(i + 1))
		}
		list := []Problem{}
		for i := range n {
			list = append(list, problemAt(i+1))
		}
		together = together.And(list...)
		halves = Problems(nil).And(list[:n/2]...)
		halves = halves.And(Problems(nil).And(list[n/2:]...)...)
		for _, ps := range []Problems{one, together} {
			require.Equal(t, n, ps.Count())
			require.Equal(t, list[:min(n, MaxProblems)], append([]Problem{}, ps[:min(n, MaxProblems)]...))
			lines := strings.Split(ps.Error(), "\n")
			if n == 0 {
				require.NoError(t, ps.Err())
				continue
			}
			require.Error(t, ps.Err())
			require.Len(t, lines, min(n, MaxProblems+1))
			require.Equal(t, "a.csv:1:2: wrong 1", lines[0])
			if n > MaxProblems {
				require.Equal(t, fmt.Sprintf("and %d more", n-MaxProblems), lines[MaxProblems])
			}
		}
		require.Equal(t, n, halves.Count(), "lists of which some are only counted")
	}
}

// A list as it was put together elsewhere, too long, is cut where it is shown.
func TestLongListIsCut(t *testing.T) {
	ps := make(Problems, MaxProblems+5)
	for i := range ps {
		ps[i] = problemAt(i)
	}
	lines := strings.Split(ps.Error(), "\n")
	assert.Len(t, lines, MaxProblems+1)
	assert.Equal(t, "and 5 more", lines[MaxProblems])
}

// Once some are only counted nothing is listed behind them.
func TestNothingBehindWhatIsCounted(t *testing.T) {
	ps := Problems{problemAt(1), unlisted(4)}
	ps = ps.And(problemAt(2), unlisted(3))
	assert.Equal(t, Problems{problemAt(1), unlisted(8)}, ps)
	assert.Equal(t, 9, ps.Count())
	assert.Equal(t, "a.csv:1:2: wrong 1\nand 8 more", ps.Error())
}

// What comes late but stands early takes the place of the last that is listed.
func TestFirstProblemsAreListed(t *testing.T) {
	other := Problem{Place: Place{File: "b.csv", Line: 1}, Text: "of another file"}
	var ps Problems
	for i := range MaxProblems + 2 {
		ps = ps.AndOne(problemAt(10 + i))
	}
	ps = ps.And(problemAt(2), problemAt(5000), problemAt(12), other)
	listed, more := ps.Listed()
	require.Len(t, listed, MaxProblems)
	assert.Equal(t, 6, more)
	assert.Equal(t, MaxProblems+6, ps.Count())
	assert.Equal(t, []Problem{problemAt(2), problemAt(10), problemAt(11), problemAt(12), problemAt(12), problemAt(13)}, []Problem(listed[:6]))
	assert.Equal(t, problemAt(MaxProblems+7), listed[MaxProblems-1])
	assert.Equal(t, unlisted(6), ps[MaxProblems])

	listed, more = Problems{problemAt(1), unlisted(4)}.Listed()
	assert.Equal(t, Problems{problemAt(1)}, listed)
	assert.Equal(t, 4, more)
	listed, more = make(Problems, MaxProblems+5).Listed()
	assert.Len(t, listed, MaxProblems)
	assert.Equal(t, 5, more)
}

// Problems of a place keep their order, and are in that of lines and then columns.
func TestSortKeepsOrderWithinAPlace(t *testing.T) {
	at := func(line, column int, text string) Problem {
		return Problem{Place: Place{Line: line, Column: column}, Text: text}
	}
	ps := Problems{unlisted(2), at(2, 0, "x"), at(1, 9, "b"), at(1, 9, "a"), at(1, 0, "line"), at(0, 0, "file")}
	ps.Sort()
	var texts []string
	for _, p := range ps {
		texts = append(texts, p.Text)
	}
	assert.Equal(t, []string{"file", "line", "b", "a", "x", "and 2 more"}, texts)
}

func TestProblemsAreAnError(t *testing.T) {
	var ps Problems
	err := fmt.Errorf("reading: %w", Problems{problemAt(3)}.Err())
	assert.True(t, errors.As(err, &ps))
	assert.Equal(t, 1, ps.Count())
	assert.Equal(t, "reading: a.csv:3:2: wrong 3", err.Error())
}
