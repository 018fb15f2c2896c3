package phone

import (
	"strings"

	"rsc.io/qr"
)

// quiet is the width of the light border that a code needs, in modules (ISO/IEC
// 18004: four).
const quiet = 4

// Black on white, whatever the colours of the terminal.
const (
	blackOnWhite = "\x1b[38;5;16;48;5;231m"
	asBefore     = "\x1b[0m"
)

// qrText is a QR code of a text in half blocks, two rows of modules a line. With
// colour it is black on white. Without, the light modules are drawn, since most
// terminals are dark.
func qrText(text string, colour bool) (string, error) {
	c, err := qr.Encode(text, qr.M)
	if err != nil {
		return "", err
	}
	inked := func(x, y int) bool {
		return c.Black(x, y) == colour // light beyond its border
	}
	var b strings.Builder
	for y := -quiet; y < c.Size+quiet; y += 2 {
		if colour {
			b.WriteString(blackOnWhite)
		}
		for x := -quiet; x < c.Size+quiet; x++ {
			b.WriteString(half(inked(x, y), inked(x, y+1)))
		}
		if colour {
			b.WriteString(asBefore)
		}
		b.WriteByte('\n')
	}
	return b.String(), nil
}

func half(top, bottom bool) string {
	switch {
	case top && bottom:
		return "█"
	case top:
		return "▀"
	case bottom:
		return "▄"
	}
	return " "
}
