package folder

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// FuzzReadStudy holds that any bytes are read without a panic, that every
// problem stands in the file, in order, and that a study without one keeps what
// the rest of the program takes for granted.
func FuzzReadStudy(f *testing.F) {
	files, err := filepath.Glob("testdata/*.toml")
	require.NoError(f, err)
	require.NotEmpty(f, files)
	for _, file := range append(files, "testdata/chard/study.toml") {
		src, err := os.ReadFile(file)
		require.NoError(f, err)
		f.Add(src)
	}
	for _, src := range []string{"", "\ufeff", "a=[]\n[a.b]", "a=1\na.b=2", "[[a]]\n[a.b]\n[[a]]\nb.c=1", "[[step.a]]", "step=[[[]],{},1,{a.b=[{}]}]", "study=\"\xff", "a={b=1,\nb=2}", "\r\n\r"} {
		f.Add([]byte(src))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		st, err := ReadStudy(src, "study.toml")
		if err == nil {
			checkSound(t, st)
			return
		}
		var problems study.Problems
		require.True(t, errors.As(err, &problems))
		lines := bytes.Split(bytes.TrimPrefix(src, []byte("\ufeff")), []byte("\n"))
		for _, p := range problems {
			if p.More > 0 {
				continue
			}
			require.True(t, 1 <= p.Place.Line && p.Place.Line <= len(lines), "%v", p)
			require.True(t, 1 <= p.Place.Column && p.Place.Column <= len(lines[p.Place.Line-1])+1, "%v", p)
			require.NotEmpty(t, p.Text)
		}
		sorted := slices.Clone(problems)
		sorted.Sort()
		require.Equal(t, sorted, problems)
	})
}

func checkSound(t *testing.T, s study.Study) {
	t.Helper()
	steps, workflows := s.StepNames(), s.WorkflowNames()
	assert.True(t, s.Germination.Share > 0 && s.Germination.Share <= 1)
	assert.True(t, s.Confidence > 0 && s.Confidence < 1)
	for _, step := range s.Steps {
		assert.NotEmpty(t, step.Name)
		if e := step.Estimate; e != nil {
			assert.True(t, 0 <= e.Low && e.Low <= e.Likely && e.Likely <= e.High && e.High > 0)
		}
	}
	for _, w := range s.Workflows {
		assert.NotEmpty(t, w.Tasks)
		assert.Positive(t, w.SeedsPerCell)
		for _, task := range w.Tasks {
			assert.Contains(t, steps, task.Step)
			assert.NotEmpty(t, task.Days)
			assert.NotEmpty(t, task.Count)
			assert.True(t, task.Count != "trays" || w.CellsPerTray > 0)
		}
		for _, space := range w.Space {
			assert.Less(t, space.From, space.To)
		}
	}
	for _, g := range s.Grows {
		assert.Contains(t, workflows, g.Workflow)
	}
	for _, c := range s.Chores {
		assert.Contains(t, steps, c.Step)
		assert.Positive(t, c.EveryDays)
	}
	for _, c := range s.Changes {
		assert.Contains(t, steps, c.Step)
	}
}
