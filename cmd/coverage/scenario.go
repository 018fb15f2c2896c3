package main

import (
	"math"
	"math/rand/v2"

	"headhours/timing/answer"
	"headhours/timing/stepfit"
)

// scenario is how the readings of invented growers come about, and what they tell
// headhours of them.
type scenario struct {
	group, name string // of the table's parts and rows

	times  func(random *rand.Rand) int // readings of a step
	counts func(k, n int) float64      // of reading k of n, as a share of the planned one
	cv     func(job int, random *rand.Rand) float64

	growing   int     // the variance of a reading grows with the count to this power
	skewed    bool    // lognormal times; normal otherwise
	slowShare float64 // of the readings, and of the work to come, are a slow worker's
	grows     int     // that readings come from in turn; 0 is one
	growCV    float64 // how much grows differ, in each step on its own
	together  bool    // or in all steps alike: a grow is slow, or quick, from end to end
	missing   float64 // the share of the readings that were never taken, but for the first of a step

	form   stepfit.Form // that the grower gives for every step; "" is auto
	spread *int         // likewise; nil leaves it to the readings
	rules  []rule       // that the same readings are worked out by
}

// rule is a way of working out the intervals.
type rule struct {
	name    string
	options answer.Options
}

// slowBy is how much longer the slow worker takes.
const slowBy = 1.3

// slowness is how much longer than the plain worker the two take on average.
func (s scenario) slowness() float64 { return 1 + s.slowShare*(slowBy-1) }

func always(n int) func(*rand.Rand) int { return func(*rand.Rand) int { return n } }

func from(a, b int) func(*rand.Rand) int {
	return func(random *rand.Rand) int { return a + random.IntN(b-a+1) }
}

// unlike are counts from half the planned one to half as much again, evenly spaced;
// alike are within a tenth of it.
func unlike(k, n int) float64 { return spaced(0.5, 1.5, k, n) }
func alike(k, n int) float64  { return spaced(0.9, 1.1, k, n) }

func spaced(low, high float64, k, n int) float64 {
	if n == 1 {
		return 1
	}
	return low + (high-low)*float64(k)/float64(n-1)
}

// same gives all steps one coefficient of variation.
func same(cv float64) func(int, *rand.Rand) float64 {
	return func(int, *rand.Rand) float64 { return cv }
}

// Scatters that differ by a factor of 7: harvest, which takes longest, scatters most,
// or least. How large they are does not matter, only how they differ.
var (
	longestMost  = ofEach(.04, .06, .03, .05, .07, .09, .03, .05, .10, .07, .20)
	longestLeast = ofEach(.14, .10, .08, .16, .14, .14, .16, .12, .07, .08, .03)
)

// ofEach gives each job its own, in their order.
func ofEach(cvs ...float64) func(int, *rand.Rand) float64 {
	return func(job int, _ *rand.Rand) float64 { return cvs[job] }
}

// drawn draws a step's anew for every grower, its square from 0.12² × 4 over a
// chi-squared of 4 degrees of freedom: two thirds are from 0.09 to 0.19.
func drawn(_ int, random *rand.Rand) float64 {
	const df = 4
	var chi float64
	for range df {
		z := random.NormFloat64()
		chi += z * z
	}
	return min(0.35, 0.12*math.Sqrt(df/chi))
}

// around15 draws scatters around 15 %: lognormal, with a standard deviation of 0.5 of the
// logarithm.
func around15(_ int, random *rand.Rand) float64 {
	return min(0.6, 0.15*math.Exp(0.5*random.NormFloat64()))
}

// harvestMost has the longest step scatter by 40 %, the others by 5 to 20 %.
var harvestMost = ofEach(.05, .08, .05, .08, .10, .12, .05, .08, .15, .20, .40)

// q is a spread that the grower gives.
func q(n int) *int { return &n }
