package answer

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// Where no way is named the quickest two of a crop are to be told apart, or another pair of
// one crop: never two crops.
func TestPlansTellWaysOfACropApart(t *testing.T) {
	way := func(name, crop string, hours float64) Hours {
		return Hours{Workflow: name, Hours: hours, Gives: Harvest{Crop: crop}}
	}
	pair := func(a, b string, otherCrop, clear bool) Pair {
		p := Pair{A: a, B: b, OtherCrop: otherCrop, Low: study.Known(-1), High: study.Known(1)}
		if clear {
			p.Low = study.Known(0.5)
		}
		return p
	}
	for _, c := range []struct {
		name  string
		pairs []Pair
		want  []string
	}{
		{"two crops", []Pair{pair("tray", "basil", true, false), pair("tray", "raft", false, false), pair("raft", "basil", true, false)}, []string{"tray", "raft"}},
		{"all of one crop are clear", []Pair{pair("tray", "basil", true, false), pair("tray", "raft", false, true)}, nil},
		{"not the quickest", []Pair{pair("tray", "raft", false, true), pair("tray", "pots", false, false), pair("pots", "basil", true, false)}, []string{"tray", "pots"}},
	} {
		comparison := Comparison{Workflows: []Hours{way("basil", "basil", 1), way("tray", "chard", 2), way("raft", "chard", 3), way("pots", "chard", 4)}, Pairs: c.pairs}
		got := comparison.unclear()
		if c.want == nil {
			assert.Nil(t, got, c.name)
			continue
		}
		require.NotNil(t, got, c.name)
		assert.Equal(t, c.want, []string{got.A, got.B}, c.name)
	}
}
