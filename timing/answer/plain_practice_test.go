package answer_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"headhours/timing/answer"
	"headhours/timing/study"

	"github.com/stretchr/testify/require"
)

// practised is a case of several steps whose times before a change may have been falling.
func practised(seed uint64) anyCase {
	r := rand.New(rand.NewPCG(seed, 74))
	c := anyCase{heads: 40, study: study.Study{Confidence: 0.95, Germination: invent(0).study.Germination, SowEveryDays: 7,
		Labour: &study.Labour{Wage: 20}}}
	w := study.Workflow{Name: "way", SeedsPerCell: 1}
	for i := range 1 + r.IntN(4) {
		s := study.Step{Name: fmt.Sprint("step ", i)}
		c.study.Steps = append(c.study.Steps, s)
		w.Tasks = append(w.Tasks, study.Task{Step: s.Name, Days: []int{i}, Count: "heads", Each: 1, SharedBy: 1})
		made := study.MadeChange{Since: firstDay.AddDate(0, 0, 40)}
		made.Change = study.Change{Name: fmt.Sprint("made ", i), Step: s.Name, SetupFactor: 1, UnitFactor: 1, Outlay: study.Known(30 * r.Float64())}
		c.study.Made = append(c.study.Made, made)
		slope, sum := []float64{0, -0.6, -0.9, 0.4}[r.IntN(4)], 0.0
		for range 4 + r.IntN(10) {
			count := float64(5 + r.IntN(40))
			sum += count
			x := study.Reading{Step: s.Name, Count: count, People: 1, Rating: 100, Seconds: count * math.Pow(sum, slope) * math.Exp(0.12*r.NormFloat64()), Source: study.Watch}
			if r.IntN(9) > 0 {
				x.Date = firstDay.AddDate(0, 0, r.IntN([]int{2, 30}[r.IntN(2)]))
			}
			c.readings = append(c.readings, x)
		}
		for range r.IntN(4) {
			x := study.Reading{Step: s.Name, Count: 40, People: 1, Rating: 100, Seconds: 8 * math.Exp(0.1*r.NormFloat64()), Date: firstDay.AddDate(0, 0, 40+r.IntN(200)), Source: study.Watch}
			c.readings = append(c.readings, x)
		}
	}
	c.study.Workflows = []study.Workflow{w}
	return c
}

// The slope of the logarithms on those of the cumulative count, by day and then by place in
// the log, tested over all parts after Holm; and whether an outlay is earned by the last
// reading's day.
func TestPracticeBySecondWay(t *testing.T) {
	t.Parallel()
	falling, paid := 0, 0
	for seed := range uint64(60) {
		c := practised(seed)
		p := model(c)
		got, err := c.models().Improve("way", c.heads, nil)
		require.NoError(t, err)
		clear := p.falling()
		visits, _ := p.visits(c.study.Workflows[0], 40, 7)
		want := p.made(loads(visits))
		last := time.Time{}
		for _, r := range c.readings {
			if r.Date.After(last) {
				last = r.Date
			}
		}
		for i, m := range got.Made {
			require.Equal(t, clear[p.parts[m.Step][0]], m.Falling, "%d %s", seed, m.Step)
			if m.Falling {
				falling++
			}
			row := want[i].(tree)
			on, _ := row["payback_on"].(string)
			low, _ := row["low_h"].(float64)
			earned := on != "" && low > 0 && on <= last.Format(time.DateOnly)
			require.Equal(t, earned, m.PaidBack, "%d %s %v", seed, m.Step, row)
			if earned {
				paid++
			}
		}
	}
	require.Greater(t, falling, 5)
	require.Greater(t, paid, 4)
}

// falling says of which parts times were clearly falling.
func (p *plain) falling() map[int]bool {
	type trend struct {
		part     int
		slope, p float64
	}
	var trends []trend
	for i, s := range p.steps {
		var dated []study.Reading
		for _, r := range p.readings {
			if !r.Date.IsZero() && p.partOn(r.Step, r.Date) == i {
				dated = append(dated, r)
			}
		}
		slices.SortStableFunc(dated, func(a, b study.Reading) int { return a.Date.Compare(b.Date) })
		days := map[time.Time]bool{}
		var x, y []float64
		sum := 0.0
		for _, r := range dated {
			days[r.Date] = true
			sum += r.Count
			x, y = append(x, math.Log(sum)), append(y, math.Log(r.Seconds/s.point.at([2]float64{1, r.Count})))
		}
		if len(dated) < 5 || len(days) < 3 {
			continue
		}
		slope, se := line(x, y)
		trends = append(trends, trend{i, slope, chanceBeyond(slope/se, float64(len(x)-2))})
	}
	slices.SortFunc(trends, func(a, b trend) int { return signOf(a.p - b.p) })
	clear := map[int]bool{}
	for k, x := range trends {
		if x.p >= 0.05/float64(len(trends)-k) {
			break
		}
		clear[x.part] = x.slope < 0
	}
	return clear
}

// line is the slope of a straight line by ordinary least squares, and its standard error.
func line(x, y []float64) (slope, se float64) {
	n := float64(len(x))
	var mx, my, xx, xy, rest float64
	for i := range x {
		mx, my = mx+x[i]/n, my+y[i]/n
	}
	for i := range x {
		xx, xy = xx+(x[i]-mx)*(x[i]-mx), xy+(x[i]-mx)*(y[i]-my)
	}
	slope = xy / xx
	for i := range x {
		r := y[i] - my - slope*(x[i]-mx)
		rest += r * r
	}
	return slope, math.Sqrt(rest / (n - 2) / xx)
}

// The lines of a figure are the times that answers take, with their limits: all unit and all
// setup where counts are alike.
func TestCurvesBySecondWay(t *testing.T) {
	forCases(t, 40, func(t *testing.T, p *plain) {
		if len(p.study.Made) > 0 {
			return
		}
		curves, err := p.models().Curves(nil)
		require.NoError(t, err)
		for i, curve := range curves {
			s := p.steps[i]
			require.Len(t, curve.Points, len(s.rows))
			for k, line := range curve.Lines {
				setting := asUnit
				if s.setup != nil && k > 0 {
					setting = asSetup
				}
				for _, at := range line.At {
					c := make(aForm, len(p.steps))
					c[i] = [2]float64{line.Setups, at.Count}
					o := p.value(c, nil, setting)
					low, high := p.around(o, o.variance, o.df)
					limits := aSpan{value: o.point, low: low, high: high}.ofTime()
					if s.doubt.none {
						limits.low, limits.high = math.NaN(), math.NaN()
					}
					sameJSON(t, tree{"seconds": o.point, "low": limits.low, "high": limits.high}, tree{"seconds": at.Seconds, "low": at.Low, "high": at.High}, s.Name)
				}
			}
		}
	})
}

// A grow's factor is all that its readings took over all that the models expect of them.
func TestGrowFactorsBySecondWay(t *testing.T) {
	forCases(t, 60, func(t *testing.T, p *plain) {
		took, expected, first := map[string]float64{}, map[string]float64{}, map[string]time.Time{}
		for _, s := range p.steps {
			bySum := map[string]float64{}
			for _, r := range s.rows {
				bySum[r.grow] += s.point.at([2]float64{r.m, r.n})
			}
			for _, r := range s.rows {
				if r.grow != "" && bySum[r.grow] > 0 {
					took[r.grow], expected[r.grow] = took[r.grow]+r.t, expected[r.grow]+s.point.at([2]float64{r.m, r.n})
				}
			}
		}
		for _, r := range p.readings {
			if r.Void == "" && !r.Date.IsZero() && (first[r.Grow].IsZero() || r.Date.Before(first[r.Grow])) {
				first[r.Grow] = r.Date
			}
		}
		got := p.models().GrowFactors()
		require.Len(t, got, len(took))
		for _, g := range got {
			require.InEpsilon(t, took[g.Grow]/expected[g.Grow], g.All, 1e-9, g.Grow)
			require.True(t, g.Day.Date().Equal(first[g.Grow]), g.Grow)
		}
		require.True(t, slices.IsSortedFunc(got, func(a, b answer.GrowFactor) int {
			if a.Day.Date().IsZero() != b.Day.Date().IsZero() {
				return map[bool]int{true: 1, false: -1}[a.Day.Date().IsZero()]
			}
			return a.Day.Date().Compare(b.Day.Date())
		}))
	})
}
