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
	for _, odd := range []map[int]string{
		{5: `5" pots`, 20_000: `"a"b`, 39_000: `x"`},
		{10_000: `5" pots`, 10_001: "\"of\ntwo lines\""},
		{39_990: `"never closed`},
		{7: `a "quoted" word`, 8: "\"of\ntwo lines\"", 30_000: `"more"of it`},
	} {
		var text strings.Builder
		text.WriteString("step,count,time,note\n")
		for row := range 40_000 {
			note := "as usual"
			if n, ok := odd[row]; ok {
				note = n
			} else if row%50 == 0 {
				note = "\"in two\nlines, \"\"so\"\"\""
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
