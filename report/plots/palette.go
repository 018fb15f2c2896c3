package plots

import (
	"image/color"
	"math"
)

// Inks for letters, axes and what is behind the data.
var (
	ink     = color.NRGBA{0x1c, 0x21, 0x1e, 0xff}
	greyInk = color.NRGBA{0x4d, 0x55, 0x50, 0xff}
	gridInk = color.NRGBA{0xdd, 0xe0, 0xde, 0xff}
)

// fills are the colours of areas. Dark and light take turns, so that neighbours
// stay apart without any colour; the test of this file holds them against the
// common kinds of colour blindness.
var fills = []color.NRGBA{
	{0x37, 0x4b, 0x3f, 0xff}, // deep green
	{0xff, 0xd5, 0x87, 0xff}, // straw
	{0x5d, 0x81, 0xcc, 0xff}, // blue
	{0x99, 0xb9, 0x8f, 0xff}, // sage
	{0x48, 0x26, 0x5a, 0xff}, // plum
	{0xb7, 0x8e, 0x46, 0xff}, // ochre
	{0x76, 0x54, 0x26, 0xff}, // bark
	{0x75, 0xcb, 0xf4, 0xff}, // sky
	{0x82, 0x79, 0x8c, 0xff}, // slate
}

// restFill is the colour of what is too small for one of its own.
var restFill = color.NRGBA{0xe4, 0xe4, 0xe4, 0xff}

// strokes are the colours of lines and marks on white.
var strokes = []color.NRGBA{
	{0x52, 0x71, 0x64, 0xff}, // green
	{0x1f, 0x1a, 0x62, 0xff}, // navy
	{0xc1, 0x88, 0x3d, 0xff}, // ochre
	{0x6c, 0x31, 0x06, 0xff}, // bark
	{0x99, 0x6c, 0xbb, 0xff}, // violet
	{0x27, 0x0d, 0x17, 0xff}, // black cherry
}

// see is a colour through which others show.
func see(c color.NRGBA, opacity uint8) color.NRGBA {
	c.A = opacity
	return c
}

// luminance is the relative luminance of WCAG 2.1, 0 for black and 1 for white.
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

// onto is the ink that reads on a colour.
func onto(c color.NRGBA) color.Color {
	// where black and white have the same contrast, by the ratio of WCAG 2.1
	if luminance(c) < 0.179 {
		return color.White
	}
	return color.Black
}
