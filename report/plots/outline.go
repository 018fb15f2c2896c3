package plots

import (
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// outlined is a canvas that draws letters as shapes, and a box for each that the
// typeface lacks. The PDF canvas below it has no bold and no letters but those
// of Western Europe; both it and the one for pictures would leave out in silence
// what they lack.
//
// Note: the price is that text of a PDF cannot be searched; that of an SVG can.
type outlined struct{ vg.Canvas }

// FillString draws text as the outlines of its letters.
func (c outlined) FillString(face font.Face, at vg.Point, text string) {
	var buffer sfnt.Buffer
	em := fixed.I(int(face.Face.UnitsPerEm()))
	scale := face.Font.Size / vg.Length(em)
	var previous sfnt.GlyphIndex
	for _, r := range text {
		glyph, err := face.Face.GlyphIndex(&buffer, r)
		if err != nil || glyph == 0 {
			c.missing(face.Font.Size, at)
			at.X += face.Font.Size
			previous = 0
			continue
		}
		if kern, err := face.Face.Kern(&buffer, previous, glyph, em, 0); err == nil && previous != 0 {
			at.X += scale * vg.Length(kern)
		}
		if segments, err := face.Face.LoadGlyph(&buffer, glyph, em, nil); err == nil && len(segments) > 0 {
			c.Fill(outline(segments, at, scale))
		}
		if advance, err := face.Face.GlyphAdvance(&buffer, glyph, em, 0); err == nil {
			at.X += scale * vg.Length(advance)
		}
		previous = glyph
	}
}

// missing draws the box of a letter that the typeface lacks, a square as wide as
// the widest of other scripts.
func (c outlined) missing(size vg.Length, at vg.Point) {
	c.SetLineWidth(0.8)
	c.SetLineDash(nil, 0)
	c.Stroke(box(at.X+0.15*size, at.Y, at.X+0.85*size, at.Y+0.7*size))
}

// lacking is how many letters of a text a typeface lacks, and how wide it takes
// each for.
func lacking(face font.Face, text string) (letters int, width vg.Length) {
	var buffer sfnt.Buffer
	for _, r := range text {
		if glyph, err := face.Face.GlyphIndex(&buffer, r); err != nil || glyph == 0 {
			letters++
			width = face.Width(string(r))
		}
	}
	return letters, width
}

// outline turns the segments of a glyph, whose y grows downwards, into a path.
func outline(segments sfnt.Segments, at vg.Point, scale vg.Length) vg.Path {
	var path vg.Path
	point := func(p fixed.Point26_6) vg.Point {
		return vg.Point{X: at.X + scale*vg.Length(p.X), Y: at.Y - scale*vg.Length(p.Y)}
	}
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if path != nil {
				path.Close()
			}
			path.Move(point(s.Args[0]))
		case sfnt.SegmentOpLineTo:
			path.Line(point(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			path.QuadTo(point(s.Args[0]), point(s.Args[1]))
		case sfnt.SegmentOpCubeTo:
			path.CubeTo(point(s.Args[0]), point(s.Args[1]), point(s.Args[2]))
		}
	}
	path.Close()
	return path
}
