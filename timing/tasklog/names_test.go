package tasklog

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A list has the names in order, each once, and finds them in whatever order they come, few or
// many; what was forgotten is not found, and lists that were handed over stay as they were.
func TestNameList(t *testing.T) {
	var n nameList
	for range 2 {
		n.forget()
		at, ok := n.find(nil)
		assert.True(t, ok, "a blank name is there from the first")
		assert.Zero(t, at)
		want := []string{""}
		for i := range 5000 {
			name := fmt.Sprint("g", i*7919%3000)
			at, ok := n.find([]byte(name))
			known := slices.Index(want, name)
			require.Equal(t, known >= 0, ok, name)
			if !ok {
				known = len(want)
				want = append(want, name)
			} else {
				require.EqualValues(t, known, at, name)
			}
			require.EqualValues(t, known, n.of(name), name)
		}
		require.Equal(t, want, n.list)
		before := n.list
		n.forget()
		_, ok = n.find([]byte("g7"))
		assert.False(t, ok)
		assert.EqualValues(t, 1, n.of("another"))
		assert.Zero(t, n.of(""))
		assert.Equal(t, want, before)
	}
}
