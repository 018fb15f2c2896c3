package plots

import (
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/report/look"
	"headhours/timing/study"
)

// bar is one way of working as parts end to end, with the interval of their sum.
type bar struct {
	name      string
	parts     []barPart // as many in every bar of a figure
	low, high study.Maybe
	words     string      // of the sum
	mark      study.Maybe // a line across the bar, such as a price
}

func (b bar) hasInterval() bool { return b.low.Known && b.low.Value < b.high.Value }

// barPart is a stretch of a bar; where it is 0 there is none.
type barPart struct {
	name   string
	amount float64
	fill   color.NRGBA
	letter string // that stands for it where there is no room for its name
}

// maxBars is how many ways of working are drawn; a figure of more is too tall
// for the programs that show it.
const maxBars = 40

// Sizes of bars in points.
const (
	barHeight     = 26
	whiskerHeight = 10
	barGap        = 12
	leftRoom      = 4 // beside the bars, for half a tick's label
	rightRoom     = 16
)

// bars draws bars one below the other over a common axis. What is below zero
// stands left of it; further entries of the key come last.
func bars(title, axis, interval string, all []bar, more ...keyEntry) []block {
	bars := all[:min(len(all), maxBars)]
	blocks := []block{paragraph(heading, title), space(4)}
	if len(bars) > 0 {
		blocks = append(blocks, key(append(barsKey(bars), more...)), space(8), barsChart(axis, bars), space(4))
	}
	for _, b := range bars {
		if b.hasInterval() {
			blocks = append(blocks, paragraph(faint, "Below a bar: the "+interval+" of its total."))
			break
		}
	}
	if left := len(all) - len(bars); left > 0 {
		blocks = append(blocks, paragraph(faint, notDrawn(left, "more way", "")))
	}
	return blocks
}

// barsKey explains the parts that some bar has.
func barsKey(all []bar) []keyEntry {
	var entries []keyEntry
	for i, p := range all[0].parts {
		for _, b := range all {
			if b.parts[i].amount != 0 {
				sign := areaSign(p.fill)
				if p.letter != "" {
					sign = letteredSign(stepHue{fill: p.fill, letter: p.letter})
				}
				entries = append(entries, keyEntry{sign, p.name})
				break
			}
		}
	}
	return entries
}

// barRow is a bar with its lines of text broken.
type barRow struct {
	bar
	name, words []string
	behind      string // the words, where they stand behind the name
}

func (r barRow) height() vg.Length {
	return bold.height(len(r.name)) + barHeight + whiskerHeight + plain.height(len(r.words)) + barGap
}

// rowsOf puts the words of bars behind their names where that goes on one line in all.
func rowsOf(all []bar) barRows {
	rows, behind := make(barRows, len(all)), true
	for i, b := range all {
		r := barRow{bar: b, name: bold.wrap(b.name, inner, 2), words: plain.wrap(b.words, inner, 4)}
		behind = behind && len(r.name) == 1 && len(r.words) == 1 && bold.width(r.name[0])+plain.width(r.words[0])+12 <= inner
		rows[i] = r
	}
	for i, r := range rows {
		if behind {
			rows[i].words, rows[i].behind = nil, r.words[0]
		}
	}
	return rows
}

// barsChart is the bars with their axis.
func barsChart(axis string, all []bar) block {
	rows := rowsOf(all)
	var height vg.Length
	for _, r := range rows {
		height += r.height()
	}
	p := chart(axis, "")
	p.HideY()
	p.X.Min, p.X.Max = rows.span()
	p.X.Tick.Marker = across(inner, p.X.Max, 0)
	p.Add(rows)
	axisHeight := 2*faint.height(1) + 8
	return block{height + axisHeight, func(c draw.Canvas) {
		between(p, c, c.Min.X+leftRoom, c.Max.X-rightRoom)
	}}
}

type barRows []barRow

// span is the range of the axis: all bars and intervals, and zero.
func (rows barRows) span() (low, high float64) {
	for _, r := range rows {
		var left, right float64
		for _, p := range r.parts {
			left, right = left+min(p.amount, 0), right+max(p.amount, 0)
		}
		low, high = min(low, left), max(high, right)
		if r.low.Known {
			low, high = min(low, r.low.Value), max(high, r.high.Value)
		}
		if r.mark.Known {
			high = max(high, 1.02*r.mark.Value)
		}
	}
	if low == high {
		high = low + 1
	}
	return low, high
}

// Plot draws the bars from the top of a plot's data area down.
func (rows barRows) Plot(c draw.Canvas, p *plot.Plot) {
	toX, _ := p.Transforms(&c)
	top := c.Max.Y
	for _, r := range rows {
		bold.lines(c, margin, top, r.name)
		plain.line(c, margin+inner-plain.width(r.behind), top, r.behind)
		y := top - bold.height(len(r.name))
		grid(c, p, y, y-barHeight-whiskerHeight)
		r.draw(c, toX, y-2)
		if r.hasInterval() {
			whiskerLine(c, toX(r.low.Value), toX(r.high.Value), y-barHeight-whiskerHeight/2)
		}
		if r.mark.Known {
			c.StrokeLine2(markStyle, toX(r.mark.Value), y-barHeight-whiskerHeight+2, toX(r.mark.Value), y+1)
		}
		plain.lines(c, margin, y-barHeight-whiskerHeight, r.words)
		top -= r.height()
	}
}

// draw draws the parts end to end, each with its name and amount where they go
// in.
func (r barRow) draw(c draw.Canvas, toX func(float64) vg.Length, top vg.Length) {
	var below, above float64
	bottom := top - barHeight + 4
	for _, p := range r.parts {
		from := above
		if p.amount < 0 {
			below += p.amount
			from = below
		}
		above += max(p.amount, 0)
		left, right := toX(from), toX(from+math.Abs(p.amount))
		if p.amount == 0 {
			continue
		}
		shape := box(left, bottom, right, top)
		c.SetColor(p.fill)
		c.Fill(shape)
		c.SetLineStyle(draw.LineStyle{Color: color.White, Width: 1})
		c.Stroke(shape)
		p.label(c, left, right, (top+bottom)/2)
	}
	if below < above {
		c.SetLineStyle(outlineStyle)
		c.Stroke(box(toX(below), bottom, toX(above), top))
	}
}

// label writes as much as there is room for: name and amount, the name, or its letter.
func (p barPart) label(c draw.Canvas, left, right, middle vg.Length) {
	l := plain.in(look.Onto(p.fill))
	for _, text := range []string{p.name + " " + cents(p.amount), p.name, p.letter} {
		if width := l.width(text); text != "" && width+6 <= right-left {
			l.line(c, (left+right-width)/2, middle+l.height(1)/2, text)
			return
		}
	}
}

// markStyle is the line of a mark across a bar.
var markStyle = draw.LineStyle{Color: ink, Width: 1.8, Dashes: []vg.Length{4, 2}}

// barsAlt is bars in words: the total of each and its parts.
func barsAlt(what string, all []bar) string {
	sentences := []string{what + ", a bar for each way."}
	for _, b := range all {
		var parts []string
		for _, p := range b.parts {
			if p.amount != 0 {
				parts = append(parts, p.name+" "+cents(p.amount))
			}
		}
		text := `"` + b.name + `": ` + b.words
		if len(parts) > 0 {
			text += ". Its parts: " + strings.Join(parts, ", ")
		}
		sentences = append(sentences, text+".")
	}
	return spoken(sentences...)
}
