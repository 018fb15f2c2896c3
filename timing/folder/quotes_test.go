package folder

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// A long log with quotes where CSV has none is told of as if it were read row by row: what ends a
// row goes by the quotes above it.
func TestStrayQuotesOfLongLogs(t *testing.T) {
	const twoLines = "\"in two\nlines, \"\"so\"\"\""
	for _, some := range []struct {
		rows int
		note string // in one row of fifty
		odd  map[int]string
	}{
		{40_000, twoLines, map[int]string{5: `5" pots`, 20_000: `"a"b`, 39_000: `x"`}},
		{40_000, twoLines, map[int]string{10_000: `5" pots`, 10_001: "\"of\ntwo lines\""}},
		{40_000, twoLines, map[int]string{39_990: `"never closed`}},
		{40_000, twoLines, map[int]string{7: `a "quoted" word`, 8: "\"of\ntwo lines\"", 30_000: `"more"of it`}},
		{300_000, "plain", map[int]string{3: `5" pots`}}, // a whole row's bytes behind it without another
	} {
		var text strings.Builder
		text.WriteString("step,count,time,note\n")
		for row := range some.rows {
			note := "as usual"
			if n, ok := some.odd[row]; ok {
				note = n
			} else if row%50 == 0 {
				note = some.note
			}
			fmt.Fprintf(&text, "sow,%d,%d,%s\n", 1+row%30, 20+row%100, note)
		}
		log := filepath.Join(t.TempDir(), "long.csv")
		require.NoError(t, os.WriteFile(log, []byte(text.String()), 0o600))
		_, want := tasklog.Read(strings.NewReader(text.String()), log, tasklog.Dialect{})
		require.ErrorAs(t, want, new(study.Problems))
		_, err := Open("", []string{log}, How{})
		require.Equal(t, want.Error(), err.Error())
	}
}
