package look

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The luminance of named colours, as WCAG's own examples have them: white 1,
// black 0, #777777 a contrast of 4.48 on white.
func TestLuminance(t *testing.T) {
	assert.InDelta(t, 1, luminance(white), 1e-12)
	assert.Zero(t, luminance(color.NRGBA{A: 0xff}))
	assert.InDelta(t, 4.48, contrast(rgb(0x777777), white), 0.005)
	assert.InDelta(t, 21, contrast(white, black), 1e-9)
}
