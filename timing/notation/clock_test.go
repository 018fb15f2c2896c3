package notation

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestClock(t *testing.T) {
	const refused = -1
	for _, c := range []struct {
		text         string
		point, comma float64
	}{
		{"0:00", 0, 0},
		{"9:05", 32700, 32700},
		{"09:05", 32700, 32700},
		{"9:05:07", 32707, 32707},
		{"9:05:07.25", 32707.25, 32707.25},
		{"9:05:07,25", refused, 32707.25},
		{"23:59:59", 86399, 86399},
		{"23:59:59.999", 86399.999, 86399.999},
		{"23:59:59.99999999999999", refused, refused}, // is 24:00 to a float64
		{"24:00", refused, refused},
		{"25:00", refused, refused},
		{"009:05", refused, refused},
		{"9:5", refused, refused},
		{"9:60", refused, refused},
		{"9:05:60", refused, refused},
		{"9:05.5", refused, refused},
		{"9.05", refused, refused},
		{"905", refused, refused},
		{"9h05", refused, refused},
		{"9:05 am", refused, refused},
		{"9:05pm", refused, refused},
		{"-9:05", refused, refused},
		{"9", refused, refused},
		{"", refused, refused},
		{":", refused, refused},
		{"1:02:03:04", refused, refused},
		{"T09:05", refused, refused},
		{"09:05Z", refused, refused},
	} {
		for comma, want := range map[bool]float64{false: c.point, true: c.comma} {
			seconds, err := Clock(c.text, comma)
			if want == refused {
				assert.ErrorIs(t, err, errClock, c.text)
				continue
			}
			assert.NoError(t, err, c.text)
			assert.Equal(t, want, seconds, c.text)
		}
	}
}
