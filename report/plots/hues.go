package plots

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/report/look"
	"headhours/timing/study"
)

// Hues are the colours of a study's steps and a letter for each, the same ones in every
// figure. Steps beyond the colours there are share a grey, and have their letters; the
// zero Hues has neither.
type Hues map[string]stepHue

// stepHue is how a step is told from others: in colour, and by its letter where there is none.
type stepHue struct {
	fill   color.NRGBA
	letter string
	name   string
}

// HuesOf gives the steps of a study their colours: those that tell ways apart come first.
func HuesOf(s study.Study) Hues {
	hues := Hues{}
	for i, step := range s.StepsToTellApart() {
		at := look.StepAt(i)
		hues[step] = stepHue{fill: at.Fill, letter: at.Letter, name: show(step)}
	}
	return hues
}

// of is the hue of a step.
func (h Hues) of(step string) stepHue {
	if found, ok := h[step]; ok {
		return found
	}
	return stepHue{fill: restFill, name: show(step)}
}

// letteredSign is the sign of an area with its letter in it.
func letteredSign(h stepHue) func(draw.Canvas, vg.Point) {
	return func(c draw.Canvas, center vg.Point) {
		shape := box(center.X-8, center.Y-7, center.X+8, center.Y+7)
		c.SetColor(h.fill)
		c.Fill(shape)
		c.SetLineStyle(outlineStyle)
		c.Stroke(shape)
		if h.letter == "" {
			return
		}
		l := plain.in(look.Onto(h.fill))
		l.line(c, center.X-l.width(h.letter)/2, center.Y+l.height(1)/2, h.letter)
	}
}

// hatch draws slanted lines over a rectangle: what is no more than getting set.
func hatch(c draw.Canvas, left, bottom, right, top vg.Length, fill color.NRGBA) {
	const apart = 5
	style := draw.LineStyle{Color: look.Onto(fill), Width: 0.9}
	height := top - bottom
	for x := left - height; x < right; x += apart {
		from, to := max(x, left), min(x+height, right)
		if from < to {
			c.StrokeLine2(style, from, bottom+from-x, to, bottom+to-x)
		}
	}
}
