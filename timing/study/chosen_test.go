package study

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func threeWays() Study {
	return Study{
		Workflows: []Workflow{{Name: "tray"}, {Name: "plug"}, {Name: "Bought in"}},
		Changes:   []Change{{Name: "board"}, {Name: "scales"}},
		Made:      []MadeChange{{Change: Change{Name: "dibber"}}},
	}
}

// Ways come in the order in which they are named, each once, and none named is all.
func TestChoose(t *testing.T) {
	for _, c := range []struct {
		names, want []string
	}{
		{nil, []string{"tray", "plug", "Bought in"}},
		{[]string{"plug"}, []string{"plug"}},
		{[]string{"bought  IN", "tray"}, []string{"Bought in", "tray"}},
		{[]string{"plug", "tray", "Plug"}, []string{"plug", "tray"}},
	} {
		chosen, err := threeWays().Choose(c.names)
		require.NoError(t, err)
		assert.Equal(t, c.want, Study{Workflows: chosen}.WorkflowNames())
	}
	_, err := threeWays().Choose([]string{"tray", "plugs"})
	assert.EqualError(t, err, `no workflow is named "plugs": did you mean "plug"`)
	_, err = threeWays().Choose([]string{"by hand"})
	assert.EqualError(t, err, `no workflow is named "by hand": there is "tray", "plug", "Bought in"`)
	_, err = Study{}.Choose([]string{"tray"})
	assert.Equal(t, errNoWorkflow, err)
	_, err = Study{}.Choose(nil)
	assert.Equal(t, errNoWorkflow, err)
}

// Of one way, the first of the study answers where none is named.
func TestOneOfTheWays(t *testing.T) {
	w, err := threeWays().Workflow("")
	require.NoError(t, err)
	assert.Equal(t, "tray", w.Name)
	w, err = threeWays().Workflow("PLUG")
	require.NoError(t, err)
	assert.Equal(t, "plug", w.Name)
	_, err = threeWays().Workflow("sow")
	assert.Error(t, err)
	_, err = Study{}.Workflow("")
	assert.Equal(t, errNoWorkflow, err)
}

// What-ifs are found by name; one that was made is no what-if, and that is said.
func TestChangesNamed(t *testing.T) {
	found, err := threeWays().ChangesNamed([]string{"Scales", "board"})
	require.NoError(t, err)
	assert.Equal(t, []Change{{Name: "scales"}, {Name: "board"}}, found)
	found, err = threeWays().ChangesNamed(nil)
	require.NoError(t, err)
	assert.Empty(t, found)
	_, err = threeWays().ChangesNamed([]string{"board", "dibber"})
	assert.True(t, errors.Is(err, ErrMade))
	assert.ErrorContains(t, err, `"dibber"`)
	_, err = threeWays().ChangesNamed([]string{"bord"})
	assert.Equal(t, UnknownName{Kind: "change", Name: "bord", Known: []string{"board", "scales"}}, err)
}

func TestJoined(t *testing.T) {
	assert.Equal(t, "board + scales", Joined([]string{"board", "scales"}))
	assert.Equal(t, "board", Joined([]string{"board"}))
}
