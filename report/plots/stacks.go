package plots

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/report/look"
	"headhours/timing/study"
)

// stack is one part of each bar, with a look of its own.
type stack struct {
	amounts []float64
	stepHue
}

// stackedBars are upright bars of stacked parts, one a day or a week.
type stackedBars struct {
	axis, unit string
	names      []string  // of the bars, where they have any
	at         []float64 // where the bars stand
	stacks     []stack
	line       study.Maybe // across all bars
}

// total is the height of a bar.
func (s stackedBars) total(bar int) (sum float64) {
	for _, part := range s.stacks {
		sum += max(part.amounts[bar], 0)
	}
	return sum
}

// highest is the height of the highest bar, or of the line where that is higher.
func (s stackedBars) highest() float64 {
	top := s.line.Value
	for i := range s.at {
		top = max(top, s.total(i))
	}
	return top
}

// inHours puts hours as minutes where they are few, and names the axis.
func (s stackedBars) inHours() stackedBars {
	s.unit = "hours of work"
	if s.highest() >= 3 {
		return s
	}
	s.unit = "minutes of work"
	s.stacks = append([]stack{}, s.stacks...)
	for i, part := range s.stacks {
		minutes := make([]float64, len(part.amounts))
		for j, hours := range part.amounts {
			minutes[j] = 60 * hours
		}
		s.stacks[i].amounts = minutes
	}
	s.line = s.line.Times(60)
	return s
}

// barsHeight is the height of upright bars with their axis, in points.
const barsHeight = 170

func (s stackedBars) asBlock() block {
	top := s.highest()
	if top == 0 {
		top = 1
	}
	p := chart(s.axis, s.unit)
	p.X.Min, p.X.Max = -0.6, 0.6
	if n := len(s.at); n > 0 {
		p.X.Min, p.X.Max = s.at[0]-0.6, s.at[n-1]+0.6
	}
	p.Y.Min, p.Y.Max = 0, 1.06*top
	p.X.Tick.Marker, p.Y.Tick.Marker = even{10, 1}, even{5, 0}
	if len(s.names) > 0 {
		p.X.Tick.Marker = nameTicks(s.names)
	}
	p.Add(s)
	return block{barsHeight, func(c draw.Canvas) { between(p, c, c.Min.X+gutter, c.Max.X-overhang) }}
}

// nameTicks are ticks at 0, 1, 2 … with a name each.
type nameTicks []string

// Ticks are the names.
func (n nameTicks) Ticks(_, _ float64) []plot.Tick {
	ticks := make([]plot.Tick, len(n))
	for i, name := range n {
		ticks[i] = plot.Tick{Value: float64(i), Label: name}
	}
	return ticks
}

// Plot draws the bars onto a plot's data area, and the line over them.
func (s stackedBars) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	half := min((toX(1)-toX(0))*0.4, 16)
	for i, at := range s.at {
		var sum float64
		for _, part := range s.stacks {
			amount := max(part.amounts[i], 0)
			if amount < 1e-9 {
				continue
			}
			bottom, top := toY(sum), toY(sum+amount)
			shape := box(toX(at)-half, bottom, toX(at)+half, top)
			c.SetColor(part.fill)
			c.Fill(shape)
			if half > 1.5 {
				c.SetLineStyle(outlineStyle)
				c.Stroke(shape)
			}
			l := plain.in(look.Onto(part.fill))
			if part.letter != "" && top-bottom >= l.height(1)-2 && 2*half >= l.width(part.letter)+4 {
				l.line(c, toX(at)-l.width(part.letter)/2, (top+bottom+l.height(1))/2, part.letter)
			}
			sum += amount
		}
	}
	if s.line.Known {
		c.StrokeLine2(ownStyle, c.Min.X, toY(s.line.Value), c.Max.X, toY(s.line.Value))
	}
}

// ownStyle is the line of one's own hours.
var ownStyle = draw.LineStyle{Color: ink, Width: 1.4, Dashes: []vg.Length{5, 3}}
