package timing

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/stepfit"
)

// Without grouping the names of grows and workers change nothing.
func TestNoGroupingIsAsIfNoneWereNamed(t *testing.T) {
	forInvented(t, func(t *testing.T, study Study, readings []Reading) {
		c, err := Fit(study, readings, Options{Grouping: NoGrouping}).Compare(nil, study.Heads)
		require.NoError(t, err)
		for i := range readings {
			readings[i].Grow, readings[i].Worker, readings[i].Date = "", "", time.Time{}
		}
		plain := compared(t, study, readings)
		for i, h := range c.Workflows {
			g := plain.Workflows[i]
			assert.InDelta(t, g.Hours, h.Hours, 1e-9*(1+g.Hours))
			same(t, g.Low, h.Low, "low")
			same(t, g.NextHigh, h.NextHigh, "next high")
			same(t, g.DF, h.DF, "df")
		}
		same(t, plain.Pairs[0].P, c.Pairs[0].P, "p")
	})
}

// The invented studies do try what they are for: many steps are grouped, either way.
func TestInventedAreGrouped(t *testing.T) {
	found := map[Grouping]int{}
	for seed := range uint64(300) {
		for _, s := range fitted(invented(seed)).Steps {
			found[s.Grouping]++
		}
	}
	assert.Greater(t, found[ByGrow], 50)
	assert.Greater(t, found[ByWorker], 50)
	assert.Greater(t, found[NoGrouping], 500)
}

func fitted(study Study, readings []Reading) *Models { return Fit(study, readings, Options{}) }

// packed are readings of one step: a time for each of the named grow and worker,
// with counts that differ within them.
func packed(times map[string][]float64) []Reading {
	var readings []Reading
	for _, who := range []string{"g1 w1", "g1 w2", "g2 w1", "g2 w2", "g3 w1", "g3 w2", " w1", "g1 "} {
		grow, worker, _ := strings.Cut(who, " ")
		for i, seconds := range times[who] {
			count := float64(20 + 10*i)
			r := aReading("pack", count, seconds+5*count)
			r.Grow, r.Worker = grow, worker
			readings = append(readings, r)
		}
	}
	return readings
}

// unlikeBoth are times of three grows and two workers that differ by so much.
func unlikeBoth(byGrow, byWorker float64) map[string][]float64 {
	times := map[string][]float64{}
	for g := range 3 {
		for w := range 2 {
			time := 100 + byGrow*float64(g) + byWorker*float64(w)
			times[fmt.Sprintf("g%d w%d", g+1, w+1)] = []float64{time + 1, time - 1}
		}
	}
	return times
}

func TestGroupingIsChosen(t *testing.T) {
	grows := map[string][]float64{"g1 w1": {100, 104}, "g1 w2": {102, 98}, "g2 w1": {140, 143}, "g2 w2": {138, 141}, "g3 w1": {80, 84}, "g3 w2": {83, 79}}
	workers := map[string][]float64{"g1 w1": {100, 104}, "g2 w1": {102, 98}, "g1 w2": {140, 143}, "g2 w2": {138, 141}, "g3 w1": {103, 101}, "g3 w2": {139, 145}}
	noise := map[string][]float64{"g1 w1": {100, 120}, "g1 w2": {121, 99}, "g2 w1": {98, 122}, "g2 w2": {119, 102}}
	between := "readings of one grow resemble each other: grows differ by about 30 s (standard deviation) beyond the scatter within them"
	for name, c := range map[string]struct {
		times map[string][]float64
		asked Grouping
		want  Grouping
		notes []string
	}{
		"grows differ":               {grows, "", ByGrow, []string{between}},
		"auto by its name":           {grows, AutoGrouping, ByGrow, []string{between}},
		"workers differ":             {workers, "", ByWorker, []string{"workers differ by about 28 s", "one model does not serve all its readings"}},
		"both differ, grows more":    {unlikeBoth(15, 20), "", ByGrow, []string{"grows differ"}},
		"both differ, workers more":  {unlikeBoth(20, 30), "", ByWorker, []string{"workers differ"}},
		"none":                       {grows, NoGrouping, NoGrouping, nil},
		"the other one asked for":    {grows, ByWorker, NoGrouping, []string{"workers do not differ beyond chance"}},
		"noise":                      {noise, "", NoGrouping, []string{"grows do not differ beyond chance", "workers do not differ beyond chance"}},
		"one grow":                   {map[string][]float64{"g1 w1": {100, 120, 110}}, "", NoGrouping, []string{"all readings are of one grow: how much grows differ is not known"}},
		"one worker asked for":       {map[string][]float64{"g1 w1": {100, 120, 110}}, ByWorker, NoGrouping, []string{"all readings are by one worker: how much workers differ is not known"}},
		"one reading without a grow": {map[string][]float64{"g1 w1": {100, 120, 110}, "g2 w1": {140, 150, 163}, " w1": {100}}, "", NoGrouping, []string{"1 of 7 readings name no grow: grows are not told apart"}},
		"too few":                    {map[string][]float64{"g1 w1": {100, 120}, "g2 w1": {143}}, "", NoGrouping, []string{"too few readings to tell grows from scatter"}},
		"grows asked for, not named": {map[string][]float64{" w1": {100, 120, 111}}, ByGrow, NoGrouping, []string{"no reading names a grow: grows are not told apart"}},
		"nothing named":              {map[string][]float64{" w1": {100, 120, 111}}, "", NoGrouping, nil},
	} {
		t.Run(name, func(t *testing.T) {
			readings := packed(c.times)
			m := Fit(StudyOf(readings), readings, Options{Grouping: c.asked})
			fits, err := m.Fits(nil)
			require.NoError(t, err)
			fit := fits.Steps[0]
			require.NotNil(t, fit.Grouping)
			assert.Equal(t, c.want, *fit.Grouping)
			assert.Equal(t, c.want != NoGrouping, fit.BetweenSD.Known)
			require.Len(t, fit.Notes, len(c.notes), fit.Notes)
			for i, note := range c.notes {
				assert.Contains(t, fit.Notes[i], note)
			}
			named := strings.Contains(fmt.Sprint(m.notes()), "ranges allow for how much")
			assert.Equal(t, c.want != NoGrouping, named)
		})
	}
}

// A grouping that is asked for is kept where its estimate is above zero at all.
func TestGroupingAskedForNeedsNoTest(t *testing.T) {
	times := map[string][]float64{"g1 w1": {100, 104, 96}, "g2 w1": {108, 101, 110}, "g3 w1": {103, 99, 104}}
	readings := packed(times)
	auto := Fit(StudyOf(readings), readings, Options{}).Steps[0]
	asked := Fit(StudyOf(readings), readings, Options{Grouping: ByGrow}).Steps[0]
	assert.Equal(t, NoGrouping, auto.Grouping)
	assert.Equal(t, ByGrow, asked.Grouping)
}

func TestGroupingInJSON(t *testing.T) {
	readings := packed(map[string][]float64{"g1 w1": {100, 104}, "g2 w1": {140, 143}, "g3 w1": {80, 84}})
	readings = append(readings, aReading("sow", 10, 50), aReading("sow", 30, 90))
	study := StudyOf(readings)
	study.Steps = append(study.Steps, Step{Name: "gap"})
	fits, err := Fit(study, readings, Options{}).Fits(nil)
	require.NoError(t, err)
	text, err := json.Marshal(fits)
	require.NoError(t, err)
	var read struct {
		Steps []struct {
			BetweenSD *float64 `json:"between_sd_s"`
			Grouping  *string  `json:"grouping"`
		}
	}
	require.NoError(t, json.Unmarshal(text, &read))
	assert.Equal(t, "grow", *read.Steps[0].Grouping)
	assert.InDelta(t, 30, *read.Steps[0].BetweenSD, 3)
	assert.Equal(t, "none", *read.Steps[1].Grouping)
	assert.Nil(t, read.Steps[1].BetweenSD)
	assert.Nil(t, read.Steps[2].Grouping)
}

// A step timed in each of five grows the same number of times, and a workflow of
// three visits of it: the total and the next grow by the analysis of variance.
func TestTotalsOfABalancedStep(t *testing.T) {
	const grows, each, visits = 5, 4, 3
	r := rand.New(rand.NewPCG(1, 2))
	var readings []Reading
	var means []float64
	var within, grand float64
	for g := range grows {
		var times []float64
		mean := 0.0
		effect := 40 * r.NormFloat64()
		for range each {
			times = append(times, 300+effect+10*r.NormFloat64())
			mean += times[len(times)-1] / each
		}
		for _, x := range times {
			reading := aReading("carry", 1, x)
			reading.Grow = fmt.Sprint("g", g)
			readings = append(readings, reading)
			within += (x - mean) * (x - mean) / (grows * (each - 1))
		}
		means, grand = append(means, mean), grand+mean/grows
	}
	between := 0.0
	for _, mean := range means {
		between += each * (mean - grand) * (mean - grand) / (grows - 1)
	}
	study := Study{
		Confidence: 0.95, Germination: crop.Germination{Share: 1},
		Steps:     []Step{{Name: "carry", Form: "setup"}},
		Workflows: []Workflow{{Name: "way", SeedsPerCell: 1, Tasks: []Task{{Step: "carry", Days: []int{1, 2, 3}, Count: crop.Once, Each: 1, SharedBy: 1}}}},
	}
	c := compared(t, Study{Heads: 10, Confidence: study.Confidence, Germination: study.Germination, Steps: study.Steps, Workflows: study.Workflows}, readings)
	h := c.Workflows[0]
	assert.InEpsilon(t, visits*grand/3600, h.Hours, 1e-9)
	half := stepfit.Quantile(0.95, grows-1) * visits * math.Sqrt(between/(grows*each))
	assert.InEpsilon(t, h.Hours+half/3600, h.High.Value, 1e-8)
	assert.InEpsilon(t, grows-1, h.DF.Value, 1e-7)
	// of the next grow: one effect for its three visits, a scatter for each
	ofBetween := visits * visits * between * (1./(grows*each) + 1./each)
	ofWithin := within * (visits - visits*visits/float64(each))
	variance := ofBetween + ofWithin
	df := variance * variance / (ofBetween*ofBetween/(grows-1) + ofWithin*ofWithin/(grows*(each-1)))
	half = stepfit.Quantile(0.95, df) * math.Sqrt(variance)
	assert.InEpsilon(t, h.Hours+half/3600, h.NextHigh.Value, 1e-7)
}

// Timed at alike counts, both extremes have an effect of their own.
func TestBracketHasEffects(t *testing.T) {
	var readings []Reading
	for i, seconds := range []float64{200, 207, 196, 260, 267, 255, 150, 158, 147} {
		r := aReading("carry", float64(20+i%2), seconds)
		r.Grow = fmt.Sprint("g", i/3)
		readings = append(readings, r)
	}
	m := Fit(StudyOf(readings), readings, Options{}).Steps[0].Model
	require.NotNil(t, m.Bracket)
	assert.InDelta(t, 55, m.BetweenSD, 5)
	assert.InDelta(t, 55, m.Bracket.BetweenSD, 5)
	assert.NotEqual(t, m.BetweenSD, m.Bracket.BetweenSD)
}

// More kinds of readings than are kept apart: the model is as without grouping.
func TestKindsAreBounded(t *testing.T) {
	var readings []Reading
	for i := range mostKinds + 50 {
		r := aReading("sow", float64(5+i%20), float64(30+i%7))
		r.Grow = fmt.Sprint("g", i)
		readings = append(readings, r)
	}
	m := Fit(StudyOf(readings), readings, Options{})
	assert.Len(t, m.Steps[0].kinds.list, 1, "of one workflow")
	assert.Equal(t, len(readings), m.Steps[0].sums.Readings)
	assert.Contains(t, m.Steps[0].groupingNotes(), "too many grows to tell them apart")
}
