package answer

import (
	"errors"
	"math"
	"sort"
)

// errNoLimit says that nothing known of a workflow takes longer with more heads.
var errNoLimit = errors.New("nothing that takes longer with more heads was timed or judged, so no number of heads is too many")

// MaxHeads is the most heads a grow that leave a steady week within so many
// hours, and so many heads a week; 0 where even one head takes longer. The
// schedule must have a new grow every so many days. The errors are those of Compare
// and errNoLimit.
func (m *Models) MaxHeads(s Schedule, hoursPerWeek float64) (heads int, perWeek float64, err error) {
	var failed error
	tooMany := func(n int) bool {
		s.Heads = n + 1
		c, err := m.Calendar(s)
		failed = err
		return err != nil || !c.SteadyWeek.Known || c.SteadyWeek.Value > hoursPerWeek
	}
	const maxInt = math.MaxInt32
	high := 1
	for high < maxInt && !tooMany(high) {
		high *= 2
	}
	heads = sort.Search(high, tooMany)
	switch {
	case failed != nil:
		return 0, 0, failed
	case heads >= maxInt:
		return 0, 0, errNoLimit
	}
	s.Heads = max(1, heads)
	c, err := m.Calendar(s)
	if heads == 0 {
		return 0, 0, err
	}
	return heads, c.HeadsPerWeek.Value, err
}
