package plots

import (
	"image/color"

	"headhours/report/look"
)

// Inks for letters, axes and what is behind the data, and the colours of areas and
// lines. Figures are drawn on white in every scheme.
var (
	ink      = look.Light.Ink
	greyInk  = look.Light.Soft
	gridInk  = look.Light.Rule
	greys    = look.Greys
	restFill = look.RestFill
	sameFill = look.SameFill
)

// see is a colour through which others show.
func see(c color.NRGBA, opacity uint8) color.NRGBA {
	c.A = opacity
	return c
}
