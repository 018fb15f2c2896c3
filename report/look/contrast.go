package look

import (
	"image/color"
	"math"
)

// contrast is the ratio of WCAG 2.2 between two colours, 1 to 21.
func contrast(a, b color.NRGBA) float64 {
	p, q := luminance(a), luminance(b)
	return (max(p, q) + 0.05) / (min(p, q) + 0.05)
}

// Onto is the one of black and white that reads better on a colour.
func Onto(c color.NRGBA) color.NRGBA {
	if contrast(white, c) > contrast(black, c) {
		return white
	}
	return black
}

// luminance is the relative luminance of WCAG 2.2, 0 for black and 1 for white.
func luminance(c color.NRGBA) float64 {
	r, g, b := linear(c.R), linear(c.G), linear(c.B)
	return 0.2126*r + 0.7152*g + 0.0722*b
}

// linear undoes the transfer function of sRGB (IEC 61966-2-1).
func linear(level uint8) float64 {
	x := float64(level) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}
