package folder

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
)

// Readings call their file as they were asked to, whatever kind of file it is and whenever
// they are gone through; what is said of the file itself names it as it was given.
func TestFilesAreCalled(t *testing.T) {
	csv, workbook := map[string]string{"timings/a.csv": sowings}, string(sheet(t, []any{"step", "count", "time"}, []any{"sow", 4, 9.5}))
	several := map[string]string{
		"timings/a.csv": sowings, "timings/b.xlsx": workbook, "journal/" + monday + ".jsonl": session(monday, begun, sow, thin, stopped, ended),
	}
	how := How{Name: func(path string) string { return "of " + filepath.Base(path) }}
	for _, c := range []struct {
		files map[string]string
		names []string
	}{
		{csv, []string{"of a.csv", "of a.csv"}}, // held as it was read first
		{several, []string{"of a.csv", "of a.csv", "of b.xlsx", "of " + monday + ".jsonl", "of " + monday + ".jsonl"}},
	} {
		c.files["study.toml"] = small
		o, err := Open(studyIn(t, c.files), nil, how)
		require.NoError(t, err)
		var again, kept []string
		require.NoError(t, o.Readings.Again(nil, func(b *condense.Batch) error {
			for i := range b.Rows.Len() {
				again = append(again, b.Place(b.Rows.At(i)).File)
			}
			return nil
		}))
		assert.Equal(t, c.names, again)
		for _, s := range o.Readings.Steps {
			for _, r := range s.Kept.First {
				kept = append(kept, r.Place().File)
			}
		}
		assert.ElementsMatch(t, c.names, kept)
	}

	dir := studyIn(t, map[string]string{"study.toml": small, "timings/a.csv": sowings + "sow,zwanzig,95\n"})
	_, err := Open(dir, nil, how)
	require.ErrorContains(t, err, filepath.Join(dir, "timings", "a.csv")+":")
}
