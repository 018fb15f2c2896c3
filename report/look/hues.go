package look

import (
	"fmt"
	"image/color"
)

// Hues with a part to play in pages as well as in figures.
var (
	deepGreen = rgb(0x374b3f)
	straw     = rgb(0xffd587)
	sage      = rgb(0x99b98f)

	white, black = rgb(0xffffff), rgb(0x000000)
	shade        = color.NRGBA{A: 0x99}
)

// fills are the colours of steps, the same ones in every figure and on the phone. Dark
// and light take turns, so that neighbours stay apart without any colour; the test of
// this file holds them against the common kinds of colour blindness.
var fills = []color.NRGBA{
	deepGreen,
	straw,
	rgb(0x5d81cc), // blue
	sage,
	rgb(0x48265a), // plum
	rgb(0xb78e46), // ochre
	rgb(0x765426), // bark
	rgb(0x75cbf4), // sky
	rgb(0x82798c), // slate
	rgb(0xfb970e), // orange
	rgb(0x12130f), // coal
	rgb(0x6e36be), // violet
}

// StepLook is how a step is told from others: by its colour, and by a letter where that is
// not enough.
type StepLook struct {
	Fill   color.NRGBA
	Letter string // "" beyond the alphabet
}

// StepAt is the look of the step that is so far along in the order of those to tell
// apart. Steps beyond the colours there are share a grey.
func StepAt(i int) StepLook {
	s := StepLook{Fill: RestFill}
	if i < len(fills) {
		s.Fill = fills[i]
	}
	if i < 26 {
		s.Letter = string(rune('a' + i))
	}
	return s
}

// Hex is a colour as CSS writes it.
func Hex(c color.NRGBA) string { return css(c) }

// Greys are the colours of what is no step, such as kinds of cost, the darkest first.
// Neighbours stay apart in print.
var Greys = []color.NRGBA{
	rgb(0x3c423e), rgb(0xc9cec9), rgb(0x7d857f), rgb(0xefefef), rgb(0x5c635e), rgb(0xa9b0ab),
}

// SameFill is the colour of what several things have in common.
var SameFill = rgb(0xb9beb9)

// RestFill is the colour of what is too small for one of its own.
var RestFill = rgb(0xe4e4e4)

// rgb is a colour as CSS writes it, without the #.
func rgb(x uint32) color.NRGBA {
	return color.NRGBA{R: uint8(x >> 16), G: uint8(x >> 8), B: uint8(x), A: 0xff}
}

// css is a colour as CSS writes it.
func css(c color.NRGBA) string {
	if c.A == 0xff {
		return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B)
	}
	return fmt.Sprintf("#%02x%02x%02x%02x", c.R, c.G, c.B, c.A)
}
