package study

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is something wrong, or worth a warning, at a place in a file. Its
// text says what was found and what would be right.
type Problem struct {
	Place Place  `json:"place"`
	Text  string `json:"text"`
	More  int    `json:"more,omitempty"` // 0; or so many more stand here than are listed
}

// Error is the problem on one line, place first.
func (p Problem) Error() string {
	if p.More > 0 {
		return p.Text
	}
	return p.Place.String() + ": " + p.Text
}

// MaxProblems is how many problems are listed; the rest are counted.
const MaxProblems = 1000

// Problems are all that is wrong with what was read, or worth a warning; as an error
// they are listed a line each. Beyond MaxProblems they are only counted, in a last one
// whose More is above 0; of one file, those listed are the first by their places.
type Problems []Problem

// And adds problems. What was added to must not be used any more.
func (ps Problems) And(others ...Problem) Problems {
	for _, p := range others {
		ps = ps.AndOne(p)
	}
	return ps
}

// AndOne adds one, as And does.
func (ps Problems) AndOne(p Problem) Problems {
	if last := MaxProblems - 1; len(ps) > last && p.isBefore(ps[last]) {
		at := slices.IndexFunc(ps, p.isBefore)
		copy(ps[at+1:MaxProblems], ps[at:last])
		ps[at], p = p, Problem{More: 1} // the last listed is only counted now
	}
	more := max(1, p.More)
	if last := len(ps) - 1; last >= 0 && ps[last].More > 0 {
		ps[last] = unlisted(ps[last].More + more)
		return ps
	}
	if len(ps) < MaxProblems && p.More == 0 {
		return append(ps, p)
	}
	return append(ps, unlisted(more))
}

// isBefore says whether a problem stands before another in one file.
func (p Problem) isBefore(other Problem) bool {
	return p.More == 0 && other.More == 0 && p.Place.File == other.Place.File && byPlace(p, other) < 0
}

func byPlace(a, b Problem) int {
	return cmp.Or(cmp.Compare(a.Place.Line, b.Place.Line), cmp.Compare(a.Place.Column, b.Place.Column))
}

func unlisted(more int) Problem {
	return Problem{Text: fmt.Sprintf("and %d more", more), More: more}
}

// Sort puts problems of one file in order of place; the count of those that are not
// listed stays last.
func (ps Problems) Sort() {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.More, b.More), byPlace(a, b))
	})
}

// Listed are those that stand at a place, and how many more there are.
func (ps Problems) Listed() (listed Problems, more int) {
	listed = ps[:min(len(ps), MaxProblems)]
	if last := len(listed) - 1; last >= 0 && listed[last].More > 0 {
		listed = listed[:last]
	}
	return listed, ps.Count() - len(listed)
}

// Count is how many there are.
func (ps Problems) Count() int {
	if last := len(ps) - 1; last >= 0 && ps[last].More > 0 {
		return last + ps[last].More
	}
	return len(ps)
}

// Error lists the problems, a line each.
func (ps Problems) Error() string {
	var b strings.Builder
	for i, p := range ps {
		if i == MaxProblems {
			b.WriteString(unlisted(ps.Count() - i).Text)
			break
		}
		b.WriteString(p.Error())
		if i < len(ps)-1 {
			b.WriteByte('\n')
		}
	}
	return b.String()
}

// Err is the problems as an error, nil where there are none.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}
