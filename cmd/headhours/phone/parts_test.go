package phone

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A part that stands beside the others and is not named would never reach a phone.
func TestPageHasAllItsParts(t *testing.T) {
	parts, err := fs.Glob(pageParts, "page/*.js")
	require.NoError(t, err)
	require.NotEmpty(t, parts)
	script := pageJS()
	for _, part := range parts {
		text, err := pageParts.ReadFile(part)
		require.NoError(t, err)
		assert.Contains(t, script, string(text), part)
	}
}
