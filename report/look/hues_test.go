package look

import (
	"fmt"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// sight turns the linear red, green and blue of a colour into those that a kind
// of colour vision tells apart: Machado, Oliveira and Fernandes, A
// Physiologically-based Model for Simulation of Color Vision Deficiency, IEEE
// Transactions on Visualization and Computer Graphics 15(6), 2009, severity 1.
type sight [3][3]float64

var sights = map[string]sight{
	"normal":       {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia":   {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// lab is a colour as seen, in CIE 1976 L*a*b* under D65 (IEC 61966-2-1 for the
// way to XYZ, ISO/CIE 11664-4 from there).
func (s sight) lab(c color.NRGBA) [3]float64 {
	from := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	var seen [3]float64
	for i, row := range s {
		for j, x := range row {
			seen[i] += x * from[j]
		}
		seen[i] = min(max(seen[i], 0), 1)
	}
	r, g, b := seen[0], seen[1], seen[2]
	f := func(t float64) float64 {
		if t > 216./24389 {
			return math.Cbrt(t)
		}
		return (24389./27*t + 16) / 116
	}
	x := f((0.4124*r + 0.3576*g + 0.1805*b) / 0.9505)
	y := f(0.2126*r + 0.7152*g + 0.0722*b)
	z := f((0.0193*r + 0.1192*g + 0.9505*b) / 1.089)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// apartTo is how far two colours are apart to a kind of sight, the ΔE of CIE
// 1976: 2.3 is just noticeable side by side.
func (s sight) apartTo(a, b color.NRGBA) float64 {
	p, q := s.lab(a), s.lab(b)
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

func TestColoursStayApart(t *testing.T) {
	palettes := map[string][]color.NRGBA{
		"fills": append(append([]color.NRGBA{}, fills...), RestFill),
	}
	for name, palette := range palettes {
		for kind, s := range sights {
			for i, a := range palette {
				for j, b := range palette[:i] {
					assert.Greater(t, s.apartTo(a, b), 20.0, "%s %d and %d, %s", name, j, i, kind)
				}
			}
		}
	}
}

// In grey print neighbours in a bar still differ, and kinds of cost do.
func TestGreysStayApart(t *testing.T) {
	neighbours := append(append([]color.NRGBA{}, fills...), RestFill)
	for i, c := range neighbours[1:] {
		assert.Greater(t, contrast(neighbours[i], c), 1.75, "%d and %d", i, i+1)
	}
	for i, c := range Greys[1:] {
		assert.Greater(t, contrast(Greys[i], c), 1.75, "grey %d and %d", i, i+1)
	}
	assert.Greater(t, contrast(SameFill, RestFill), 1.4)
}

// WCAG 2.1, 1.4.3: text has a contrast of 4.5 at least.
func TestTextIsLegible(t *testing.T) {
	for _, c := range append(append(append([]color.NRGBA{}, fills...), Greys...), RestFill, SameFill) {
		text := Onto(c)
		assert.GreaterOrEqual(t, contrast(text, c), 4.5, fmt.Sprintf("%v", c))
	}
}
