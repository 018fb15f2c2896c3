package plots

import (
	"image/color"
	"sort"
	"strings"
	"unicode"

	stdfont "golang.org/x/image/font"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// lettering is a way of writing.
type lettering struct {
	size  vg.Length
	bold  bool
	color color.Color
}

var (
	plain   = lettering{size: 13, color: ink}
	bold    = lettering{size: 13, color: ink, bold: true}
	faint   = lettering{size: 13, color: greyInk}
	heading = lettering{size: 15, color: ink, bold: true}
)

// in is the same lettering in another colour.
func (l lettering) in(c color.Color) lettering {
	l.color = c
	return l
}

func (l lettering) font() font.Font {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: l.size}
	if l.bold {
		f.Weight = stdfont.WeightBold
	}
	return f
}

func (l lettering) face() font.Face { return font.DefaultCache.Lookup(l.font(), l.size) }

// style is the lettering as axes ask for it.
func (l lettering) style(x text.XAlignment, y text.YAlignment) text.Style {
	return text.Style{Color: l.color, Font: l.font(), XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler}
}

// width is that of a line; a letter that the typeface lacks, which a browser
// takes from another, is taken for a square.
func (l lettering) width(s string) vg.Length {
	face := l.face()
	letters, width := lacking(face, s)
	return face.Width(s) + vg.Length(letters)*(l.size-width)
}

// height is that of so many lines.
func (l lettering) height(lines int) vg.Length { return vg.Length(lines) * l.size * 1.25 }

// line writes one line with its left end at x and its upper edge at top.
func (l lettering) line(c draw.Canvas, x, top vg.Length, s string) {
	face := l.face()
	c.SetColor(l.color)
	// the letters stand in the middle of the line's height
	above := (l.height(1) - face.Extents().Ascent - face.Extents().Descent) / 2
	c.FillString(face, vg.Point{X: x, Y: top - above - face.Extents().Ascent}, s)
}

// lines writes lines one below the other.
func (l lettering) lines(c draw.Canvas, x, top vg.Length, lines []string) {
	for i, s := range lines {
		l.line(c, x, top-l.height(i), s)
	}
}

// maxLines is more lines than any text of ours takes.
const maxLines = 1000

const ellipsis = "…"

// wrap breaks text at blanks, and words that are too long anywhere, into lines
// of at most a width. Of what does not go into so many lines the middle is left out.
func (l lettering) wrap(s string, width vg.Length, maxCount int) []string {
	lines := l.broken(s, width)
	if len(lines) > maxCount {
		s = shortened(s, func(s string) bool { return len(l.broken(s, width)) <= maxCount })
		lines = l.broken(s, width)
	}
	return lines
}

// broken is text in as many lines of at most a width as it takes.
func (l lettering) broken(s string, width vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && l.width(line+" "+word) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = word
		for letters := []rune(line); len(letters) > 1 && l.width(line) > width; letters = []rune(line) {
			n := l.letters(letters, width)
			lines, line = append(lines, string(letters[:n])), string(letters[n:])
		}
	}
	return append(lines, line)
}

// letters is how many letters of a word a width holds, one at least.
func (l lettering) letters(word []rune, width vg.Length) int {
	n := 1
	for n < len(word) && l.width(string(word[:n+1])) <= width {
		n++
	}
	return n
}

// cut is text on one line, its middle left out where it is too long for a width.
func (l lettering) cut(s string, width vg.Length) string {
	return shortened(s, func(s string) bool { return l.width(s) <= width })
}

// shortened is text of which as little is left out as makes it fit; at worst nothing is left.
func shortened(s string, fits func(string) bool) string {
	if fits(s) {
		return s
	}
	letters := []rune(s)
	tooMany := sort.Search(len(letters), func(n int) bool { return !fits(ends(letters, n)) })
	return ends(letters, max(tooMany-1, 0))
}

// ends are the first and the last of letters, so many in all: names of a kind often
// begin alike, and differ at their ends.
func ends(letters []rune, n int) string {
	last := 2 * n / 5
	first, rest := string(letters[:n-last]), string(letters[len(letters)-last:])
	return strings.TrimRight(first, " ") + ellipsis + strings.TrimLeft(rest, " ")
}

// maxName is how many letters of a name are shown at most.
const maxName = 80

// show is a name as it is drawn: what cannot be drawn made visible, and no
// longer than goes into a figure.
func show(name string) string {
	if letters := []rune(name); len(letters) > maxName {
		name = ends(letters, maxName)
	}
	return visible(name)
}

// visible is text with a sign in place of control characters and marks that turn
// the direction of text.
func visible(text string) string {
	return strings.Map(func(r rune) rune {
		if r != ' ' && !unicode.IsGraphic(r) || unicode.Is(unicode.Bidi_Control, r) {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

// spoken is sentences in a row, on one line.
func spoken(sentences ...string) string {
	return visible(strings.Join(strings.Fields(strings.Join(sentences, " ")), " "))
}
