package look

import "image/color"

// Hues with a part to play in pages as well as in figures.
var (
	DeepGreen = rgb(0x374b3f)
	Straw     = rgb(0xffd587)
	Sage      = rgb(0x99b98f)

	white, black = rgb(0xffffff), rgb(0x000000)
	shade        = color.NRGBA{A: 0x99}
)

// Fills are the colours of areas of a figure. Dark and light take turns, so that
// neighbours stay apart without any colour; the test of this file holds them
// against the common kinds of colour blindness.
var Fills = []color.NRGBA{
	DeepGreen,
	Straw,
	rgb(0x5d81cc), // blue
	Sage,
	rgb(0x48265a), // plum
	rgb(0xb78e46), // ochre
	rgb(0x765426), // bark
	rgb(0x75cbf4), // sky
	rgb(0x82798c), // slate
}

// RestFill is the colour of what is too small for one of its own.
var RestFill = rgb(0xe4e4e4)

// Strokes are the colours of lines and marks on white.
var Strokes = []color.NRGBA{
	rgb(0x527164), // green
	rgb(0x1f1a62), // navy
	rgb(0xc1883d), // ochre
	rgb(0x6c3106), // bark
	rgb(0x996cbb), // violet
	rgb(0x270d17), // black cherry
}

// rgb is a colour as CSS writes it, without the #.
func rgb(x uint32) color.NRGBA {
	return color.NRGBA{R: uint8(x >> 16), G: uint8(x >> 8), B: uint8(x), A: 0xff}
}
