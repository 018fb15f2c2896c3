package folder

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
)

// Names that differ in case alone are said once each, the first of many, and none twice.
func TestNamesThatDifferInCase(t *testing.T) {
	for pairs, want := range map[int]string{0: "", 1: "", 20: "", 21: "1 more name of readings differs so", 25: "5 more names of readings differ so"} {
		log := "step,count,time,grow\n"
		for i := range pairs {
			for range 3 {
				log += fmt.Sprintf("sow,1,9,grow %d\nsow,1,9,Grow %d\n", i, i)
			}
		}
		log += "sow,1,9,one\nsow,1,9,One of them\n"
		path := filepath.Join(t.TempDir(), "a.csv")
		require.NoError(t, os.WriteFile(path, []byte(log), 0o600))
		o, err := Open(filepath.Dir(path), []string{path}, How{})
		require.NoError(t, err)
		said := min(pairs, 20)
		for i := range said {
			assert.Equal(t, fmt.Sprintf(`%s:%d:1: grow "Grow %d" differs from "grow %d" at %s:%d:1 in case or blanks alone, and they are taken for two: write both alike if they are one`,
				path, 6*i+3, i, i, path, 6*i+2), o.Warnings[i].Error())
		}
		if want == "" {
			assert.Len(t, o.Warnings, said)
			continue
		}
		require.Len(t, o.Warnings, said+1)
		assert.Equal(t, want, o.Warnings[said].Text)
	}
}

// A filter's names are those of readings in any case, exact ones first, and stay as they are
// where two may be meant or none is.
func TestFilterInAnyCase(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.csv")
	log := "step,count,time,worker,grow\nsow,1,9,Anna,G 1\nsow,1,9,anna,G 1\nsow,1,9,Ben,G 2\n"
	require.NoError(t, os.WriteFile(path, []byte(log), 0o600))
	for _, c := range []struct {
		asked, meant condense.Filter
		readings     int
	}{
		{condense.Filter{}, condense.Filter{}, 3},
		{condense.Filter{Worker: "BEN"}, condense.Filter{Worker: "Ben"}, 1},
		{condense.Filter{Worker: "anna"}, condense.Filter{Worker: "anna"}, 1},
		{condense.Filter{Worker: "ANNA"}, condense.Filter{Worker: "ANNA"}, 0},
		{condense.Filter{Grow: "g  1"}, condense.Filter{Grow: "G 1"}, 2},
		{condense.Filter{Grow: "g 1", Worker: "Anna"}, condense.Filter{Grow: "G 1", Worker: "Anna"}, 1},
		{condense.Filter{Grow: "g3"}, condense.Filter{Grow: "g3"}, 0},
	} {
		o, err := Open(filepath.Dir(path), []string{path}, How{Filter: c.asked})
		require.NoError(t, err)
		assert.Equal(t, c.meant, o.Readings.Filter)
		assert.Equal(t, c.readings, o.Readings.Steps[0].Readings, c.asked)
		assert.Equal(t, 1, strings.Count(o.Warnings.Error(), "differs from"), "%v", o.Warnings)
	}
}
