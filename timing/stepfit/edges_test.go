package stepfit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// on is readings of one setup each, as pairs of a count and seconds.
func on(pairs ...[2]float64) (readings []Reading) {
	for _, p := range pairs {
		readings = append(readings, Reading{Load{1, p[0]}, p[1]})
	}
	return readings
}

func TestNoReadings(t *testing.T) {
	var s Sums
	for _, form := range []Form{Unit, Setup, SetupUnit} {
		assert.False(t, s.canFit(form))
	}
	_, _, ok := s.CountPerSetup()
	assert.False(t, ok)
	assert.Equal(t, Load{}, s.Mean())
	load, seconds := s.Totals()
	assert.Equal(t, []any{Load{}, 0.0}, []any{load, seconds})
	some := sumsFrom(on([2]float64{10, 50}))
	both := some
	both.Merge(s)
	assert.Equal(t, some, both)
	s.Merge(some)
	assert.Equal(t, some, s)
}

// One reading says nothing of its scatter, nor of what is setup and what is unit.
func TestOneReading(t *testing.T) {
	m := sumsFrom(on([2]float64{20, 100})).Choose(Options{})
	assert.Equal(t, []any{Unit, 5.0, 0.0, 0.0, 0.0}, []any{m.Form, m.UnitSec, m.SetupSec, m.DF, m.SD})
	require.NotNil(t, m.Bracket)
	assert.Equal(t, []any{Setup, 100.0}, []any{m.Bracket.Form, m.Bracket.SetupSec})
	_, ok := m.R2()
	assert.False(t, ok)
	_, ok = m.CV()
	assert.False(t, ok)
	_, ok = m.Screen()
	assert.False(t, ok)
}

// Readings that agree to the last digit scatter by nothing, and none of them stands out.
func TestNoScatter(t *testing.T) {
	m := sumsFrom(on([2]float64{20, 100}, [2]float64{20, 100}, [2]float64{20, 100})).Choose(Options{})
	assert.Equal(t, []any{2.0, 0.0, 0.0}, []any{m.DF, m.SD, m.RSS})
	cv, ok := m.CV()
	assert.Equal(t, []any{0.0, true}, []any{cv, ok})
	_, ok = m.Screen()
	assert.False(t, ok)
	n, ok := m.ReadingsFor(0.1, 0.95, func(own float64) float64 { return own })
	assert.Equal(t, []any{2, true}, []any{n, ok})
	exact := sumsFrom(on([2]float64{10, 70}, [2]float64{20, 120}, [2]float64{40, 220})).Choose(Options{})
	assert.InDelta(t, 20, exact.SetupSec, 1e-11)
	assert.Zero(t, exact.RSS)
	r2, ok := exact.R2()
	assert.Equal(t, []any{1.0, true}, []any{r2, ok})
}

// What auto makes of readings, at both sides of each of its bounds.
func TestChooseAtItsBounds(t *testing.T) {
	lap := func(r Reading) Reading { r.Setups = 0; return r }
	for _, c := range []struct {
		name      string
		readings  []Reading
		form      Form
		bracketed bool
		left      bool // setup+unit was tried and left
	}{
		{"two alike", on([2]float64{40, 100}, [2]float64{59, 150}), Unit, true, false},
		{"one and a half times", on([2]float64{40, 100}, [2]float64{60, 130}), SetupUnit, false, false},
		{"that but for rounding", on([2]float64{40, 100}, [2]float64{60 * (1 - 1e-10), 130}), SetupUnit, false, false},
		{"a little less", on([2]float64{40, 100}, [2]float64{60 * (1 - 1e-8), 130}), Unit, true, false},
		{"laps alone", []Reading{lap(Reading{Load{1, 10}, 50}), lap(Reading{Load{1, 10}, 60})}, Unit, false, false},
		{"a lap beside a visit", []Reading{{Load{1, 10}, 70}, {Load{0, 10}, 50}}, SetupUnit, false, false},
		{"getting ready alone", []Reading{{Load{1, 0}, 20}, {Load{2, 0}, 44}}, Setup, false, false},
		{"getting ready beside a visit", []Reading{{Load{1, 0}, 20}, {Load{1, 10}, 70}}, SetupUnit, false, false},
		{"more setups, as many counts each", []Reading{{Load{1, 10}, 70}, {Load{3, 30}, 200}}, Unit, true, false},
		{"as many counts, more setups", []Reading{{Load{1, 30}, 70}, {Load{3, 30}, 110}}, SetupUnit, false, false},
		{"setup below nothing", on([2]float64{10, 40}, [2]float64{20, 90}), Unit, false, true},
		{"setup of nothing but rounding", on([2]float64{10, 50}, [2]float64{20, 100 + 1e-8}), SetupUnit, false, false},
		{"unit below nothing", on([2]float64{10, 90}, [2]float64{20, 80}), Setup, false, true},
		{"unit of nothing but rounding", on([2]float64{10, 90}, [2]float64{20, 90 - 1e-8}), SetupUnit, false, false},
	} {
		m := sumsFrom(c.readings).Choose(Options{})
		assert.Equal(t, c.form, m.Form, c.name)
		assert.Equal(t, c.bracketed, m.Bracket != nil, c.name)
		assert.Equal(t, c.left, m.Full != nil, c.name)
		assert.Equal(t, c.left, m.LeftSetup || m.LeftUnit, c.name)
		assert.Equal(t, c.left && c.form == Unit, m.LeftSetup, c.name)
		if c.left {
			assert.Equal(t, SetupUnit, m.Doubt().Form, c.name)
		} else {
			assert.Equal(t, m.Fit, m.Doubt(), c.name)
		}
	}
}

// A form that is asked for is kept, with its sign, where the readings can tell it; else it
// is refused and the readings decide.
func TestFormsAskedFor(t *testing.T) {
	falling := on([2]float64{10, 40}, [2]float64{20, 90}, [2]float64{40, 190})
	for _, c := range []struct {
		name     string
		readings []Reading
		ask      Form
		form     Form
		refused  Form
	}{
		{"kept below nothing", falling, SetupUnit, SetupUnit, ""},
		{"kept where unlike", falling, Setup, Setup, ""},
		{"kept where alike", on([2]float64{40, 100}, [2]float64{41, 130}), SetupUnit, SetupUnit, ""},
		{"one count", on([2]float64{40, 100}, [2]float64{40, 130}), SetupUnit, Unit, SetupUnit},
		{"one count per setup", []Reading{{Load{1, 10}, 70}, {Load{3, 30}, 200}}, SetupUnit, Unit, SetupUnit},
		{"no setup", []Reading{{Load{0, 10}, 70}, {Load{0, 30}, 200}}, Setup, Unit, Setup},
		{"no setup for both", []Reading{{Load{0, 10}, 70}, {Load{0, 30}, 200}}, SetupUnit, Unit, SetupUnit},
		{"no count", []Reading{{Load{1, 0}, 70}}, Unit, Setup, Unit},
		{"nothing asked", falling, auto, Unit, ""},
	} {
		m := sumsFrom(c.readings).Choose(Options{Form: c.ask})
		assert.Equal(t, c.form, m.Form, c.name)
		assert.Equal(t, c.refused, m.Refused, c.name)
		asked := c.ask != auto && c.refused == ""
		assert.Equal(t, asked, m.Asked, c.name)
		if asked {
			assert.Nil(t, m.Bracket, c.name)
			assert.Nil(t, m.Full, c.name)
		}
	}
	m := sumsFrom(falling).Choose(Options{Form: SetupUnit})
	assert.Less(t, m.SetupSec, -5.0)
}

// spreading is n readings whose scatter is a share of their time, from counts least to most.
func spreading(n int, least, most float64) (readings []Reading) {
	for i := range n {
		count := least + (most-least)*float64(i)/float64(n-1)
		off := 0.3
		if i%2 == 0 {
			off = -0.3
		}
		readings = append(readings, Reading{Load{1, count}, 5 * count * (1 + off)})
	}
	return readings
}

// Scatter grows with the count only where eight readings or more say so, the largest of
// twice the smallest count at least, by a likelihood of e² to one.
func TestSpreadAtItsBounds(t *testing.T) {
	two, one := 2, 1
	for _, c := range []struct {
		name     string
		readings []Reading
		ask      *int
		want     int
	}{
		{"clear", spreading(8, 2, 60), nil, 2},
		{"seven", spreading(7, 2, 60), nil, 0},
		{"seven, asked for", spreading(7, 2, 60), &two, 2},
		{"one asked for", spreading(8, 2, 60), &one, 1},
		{"a count of nothing", append(spreading(8, 2, 60), Reading{Load{1, 0}, 9}), nil, 0},
		{"a count of nothing, asked for", append(spreading(8, 2, 60), Reading{Load{1, 0}, 9}), &two, 0},
		{"less than twice", spreading(400, 30.1, 60), nil, 0},
		{"twice", spreading(400, 30, 60), nil, 2},
		{"not by e²", spreading(8, 20, 60), nil, 0},
	} {
		s := sumsFrom(c.readings)
		assert.Equal(t, c.want, s.Choose(Options{Spread: c.ask}).Spread, c.name)
	}
	line := on()
	for i := range 10 {
		line = append(line, Reading{Load{1, float64(2 + 5*i)}, 30 + 4*float64(2+5*i)})
	}
	assert.Equal(t, 0, sumsFrom(line).Choose(Options{}).Spread, "no scatter at all")
}

// The spread that was chosen on the first form is kept where that is left.
func TestSpreadIsKeptThroughAFall(t *testing.T) {
	readings := spreading(12, 2, 60)
	for i := range readings {
		readings[i].Seconds -= 4
		readings[i].Seconds = max(readings[i].Seconds, 1)
	}
	m := sumsFrom(readings).Choose(Options{})
	require.NotNil(t, m.Full)
	assert.Equal(t, m.Full.Spread, m.Spread)
	assert.Equal(t, sumsFrom(readings).Choose(Options{Form: SetupUnit}).Spread, m.Spread)
	assert.Positive(t, m.Spread)
}

// The likelihood of the best spread is that of the best, and of two alike the smaller.
func TestSpreadIsTheMostLikely(t *testing.T) {
	for seed := range 40 {
		readings := someReadings(8+seed, false)
		for i := range readings {
			readings[i].Seconds *= 1 + math.Mod(float64(i*seed), 7)/20
		}
		s := sumsFrom(readings)
		want := 0
		for q := range Spreads {
			if gain := s.fitOf(SetupUnit, q).LogLikelihood - s.fitOf(SetupUnit, 0).LogLikelihood; gain >= 2 && gain > s.fitOf(SetupUnit, want).LogLikelihood-s.fitOf(SetupUnit, 0).LogLikelihood {
				want = q
			}
		}
		assert.Equal(t, want, s.Choose(Options{Form: SetupUnit}).Spread, seed)
	}
}
