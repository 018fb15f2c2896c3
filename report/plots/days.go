package plots

import (
	"fmt"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"headhours/report"
	"headhours/timing"
)

// Days draws the work of each day as a bar, and with a new grow every so many
// days the weekdays of a steady week below. start is the day of the first sowing,
// zero where it is not known.
func Days(c timing.Calendar, start time.Time) Figure {
	title := fmt.Sprintf("Work day by day, one grow of %d heads", c.Heads)
	if c.EveryDays != nil {
		title = fmt.Sprintf("Work day by day, %d heads sown every %d days", c.Heads, *c.EveryDays)
		if *c.EveryDays == 1 {
			title = fmt.Sprintf("Work day by day, %d heads sown every day", c.Heads)
		}
	}
	blocks := []block{paragraph(heading, title), space(4)}
	if len(c.Days) > 0 {
		bars := dayBars{axis: "days after the first sowing"}
		for _, d := range c.Days {
			bars.add(float64(d.Day), d.Hours)
		}
		blocks = append(blocks, bars.block())
	}
	if len(c.Weekdays) > 0 {
		week := dayBars{axis: "days after a sowing day, in a steady week"}
		if !start.IsZero() {
			week.axis = "a steady week, by weekday"
		}
		for i, hours := range c.Weekdays {
			week.add(float64(i), hours)
			if !start.IsZero() {
				week.names = append(week.names, time.Weekday((i + 1) % 7).String()[:3])
			}
		}
		blocks = append(blocks, space(10), week.block())
	}
	if len(c.Gaps) > 0 {
		blocks = append(blocks, paragraph(faint, fmt.Sprintf("At least: without %s, never timed.", list(c.Gaps))))
	}
	doc := report.Calendar(report.Season{Calendar: c, Start: start})
	return Figure{blocks, spoken(append([]string{"Work of each day as a bar."}, doc.Words()...)...)}
}

// dayBars are bars at whole days.
type dayBars struct {
	axis    string
	names   []string // of the days, where they have any
	days    []float64
	hours   []float64
	minutes bool
}

func (d *dayBars) add(day, hours float64) {
	d.days, d.hours = append(d.days, day), append(d.hours, hours)
}

func (d dayBars) longest() (longest float64) {
	for _, h := range d.hours {
		longest = max(longest, h)
	}
	return longest
}

// daysHeight is the height of bars with their axis, in points.
const daysHeight = 170

func (d dayBars) block() block {
	top := d.longest()
	unit := "hours"
	if d.minutes = top < 3; d.minutes {
		unit, top = "minutes", 60*top
	}
	if top == 0 {
		top = 1
	}
	p := chart(d.axis, unit+" of work")
	p.X.Min, p.X.Max = d.days[0]-0.6, d.days[len(d.days)-1]+0.6
	p.Y.Min, p.Y.Max = 0, 1.06*top
	p.X.Tick.Marker, p.Y.Tick.Marker = even{10, 1}, even{5, 0}
	if len(d.names) > 0 {
		p.X.Tick.Marker = named(d.names)
	}
	p.Add(d)
	return block{daysHeight, func(c draw.Canvas) { between(p, c, c.Min.X+gutter, c.Max.X-overhang) }}
}

// named are ticks at 0, 1, 2 … with a name each.
type named []string

// Ticks are the names.
func (n named) Ticks(_, _ float64) []plot.Tick {
	ticks := make([]plot.Tick, len(n))
	for i, name := range n {
		ticks[i] = plot.Tick{Value: float64(i), Label: name}
	}
	return ticks
}

// Plot draws the bars onto a plot's data area; the longest is darker than the
// others.
func (d dayBars) Plot(c draw.Canvas, p *plot.Plot) {
	toX, toY := p.Transforms(&c)
	half := min((toX(1)-toX(0))*0.4, 14)
	scale := 1.0
	if d.minutes {
		scale = 60
	}
	longest := d.longest()
	for i, hours := range d.hours {
		if hours <= 0 {
			continue
		}
		at := toX(d.days[i])
		shape := box(at-half, toY(0), at+half, toY(hours*scale))
		c.SetColor(fills[3])
		if hours == longest {
			c.SetColor(fills[0])
		}
		c.Fill(shape)
		if half > 1.5 {
			c.SetLineStyle(draw.LineStyle{Color: greyInk, Width: vg.Length(0.5)})
			c.Stroke(shape)
		}
	}
}
