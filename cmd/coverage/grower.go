package main

import (
	"fmt"
	"math"
	"math/rand/v2"

	"headhours/timing/crop"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// heads is the number of heads that the invented growers plan for.
const heads = 48

// job is a step of the invented grower's work with its true times: a reading of
// one setup and n counts takes setup + unit·n seconds on average.
type job struct {
	name        string
	setup, unit float64 // seconds
	perHead     float64 // counts in one visit for each head; 0: one count a visit
	inTray      []int   // days of its visits when a tray is sown
	inRaft      []int   // when seeds go straight into the raft
	onlySetup   bool    // the grower knows that it is setup alone
}

// jobs are two ways of working with a break-even between them: the tray has more
// to get ready, the raft more to do for each head.
var jobs = []job{
	{name: "fill trays", setup: 300, unit: 1, perHead: 1, inTray: []int{0}},
	{name: "set pots", setup: 60, unit: 11, perHead: 1, inRaft: []int{0}},
	{name: "sow", setup: 60, unit: 4, perHead: 1, inTray: []int{0}, inRaft: []int{0}},
	{name: "mist trays", setup: 60, unit: 0.6, perHead: 1, inTray: []int{4, 7, 10}},
	{name: "mist rafts", setup: 40, unit: 2.4, perHead: 1, inRaft: []int{4, 7, 10}},
	{name: "thin", setup: 0, unit: 8, perHead: 0.5, inTray: []int{8}},
	{name: "clear empties", setup: 30, unit: 4, perHead: 1, inRaft: []int{10}},
	{name: "carry trays", setup: 200, unit: 0, inTray: []int{13}, onlySetup: true},
	{name: "transplant", setup: 150, unit: 6, perHead: 1, inTray: []int{13}},
	{name: "top up", setup: 45, unit: 2.5, perHead: 0.8, inTray: []int{19, 26}, inRaft: []int{19, 26}},
	{name: "harvest", setup: 240, unit: 22, perHead: 1, inTray: []int{34}, inRaft: []int{34}},
}

// planned is the count of one visit for the planned heads.
func (j job) planned() float64 {
	if j.perHead == 0 {
		return 1
	}
	return heads * j.perHead
}

// mean is the true time of one setup with n counts, in seconds.
func (j job) mean(n float64) float64 { return j.setup + j.unit*n }

// studyOf is the invented grower's study, with the form and spread of every step
// that the grower knows; form "" and a nil spread leave them to the readings.
func studyOf(form stepfit.Form, spread *int) study.Study {
	s := study.Study{
		Confidence: study.DefaultConfidence, Heads: heads,
		Germination: crop.Germination{Share: 1},
		Workflows:   []study.Workflow{{Name: "tray", SeedsPerCell: 1}, {Name: "raft", SeedsPerCell: 1}},
	}
	for _, j := range jobs {
		step := study.Step{Name: j.name, Form: string(form), Spread: spread}
		if j.onlySetup {
			step.Form = string(stepfit.Setup)
		}
		s.Steps = append(s.Steps, step)
		task := study.Task{Step: j.name, Count: crop.Cells, Each: j.perHead, SharedBy: 1}
		if j.perHead == 0 {
			task.Count, task.Each = crop.Once, 1
		}
		for w, days := range [][]int{j.inTray, j.inRaft} {
			if task.Days = days; days != nil {
				s.Workflows[w].Tasks = append(s.Workflows[w].Tasks, task)
			}
		}
	}
	return s
}

// grower draws the readings of one invented grower, and the grow that follows.
type grower struct {
	scenario
	random *rand.Rand
	cv     []float64 // of each job at its planned count
}

func (s scenario) grower(random *rand.Rand) grower {
	g := grower{s, random, make([]float64, len(jobs))}
	for i := range jobs {
		g.cv[i] = s.cv(i, random)
	}
	return g
}

// time draws the time of one setup of a job with n counts, a time above 0: its true
// mean, scatter about it whose variance grows with n^q, and a factor that multiplies
// both, of its grow and its worker.
func (g grower) time(i int, n, factor float64) float64 {
	j := jobs[i]
	planned := j.planned()
	mean := factor * j.mean(n)
	sd := factor * g.cv[i] * j.mean(planned) * math.Pow(n/planned, float64(g.growing)/2)
	if g.skewed {
		// lognormal with this mean and standard deviation
		v := math.Log1p(sd * sd / (mean * mean))
		return mean * math.Exp(math.Sqrt(v)*g.random.NormFloat64()-v/2)
	}
	for {
		if t := mean + sd*g.random.NormFloat64(); t > 0 { // nearly always
			return t
		}
	}
}

// worker draws who works, and how much longer that one takes than the plain worker.
func (g grower) worker() (name string, factor float64) {
	if g.slowShare > 0 && g.random.Float64() < g.slowShare {
		return "w2", slowBy
	}
	return "w1", 1
}

// growFactors draws how much longer each job takes in each of n grows.
func (g grower) growFactors(n int) [][]float64 {
	factors := make([][]float64, len(jobs))
	for i := range factors {
		if i > 0 && g.together {
			factors[i] = factors[0]
			continue
		}
		for range n {
			factors[i] = append(factors[i], 1+g.growCV*g.random.NormFloat64())
		}
	}
	return factors
}

// readings draws the grower's task log: each step so often, in each grow in turn.
func (g grower) readings() []study.Reading {
	readings, _ := g.log()
	return readings
}

// log is readings, with how much longer each job took in each grow.
func (g grower) log() (readings []study.Reading, factors [][]float64) {
	grows := max(1, g.grows)
	factors = g.growFactors(grows)
	for i, j := range jobs {
		n := g.times(g.random)
		for k := range n {
			count := j.planned()
			if j.perHead > 0 {
				count = math.Max(1, math.Round(count*g.counts(k, n)))
			}
			if k > 0 && g.missing > 0 && g.random.Float64() < g.missing {
				continue
			}
			grow := k % grows
			worker, slow := g.worker()
			readings = append(readings, study.Reading{
				Step: j.name, Count: count, Seconds: g.time(i, count, factors[i][grow]*slow),
				Grow: fmt.Sprintf("g%d", grow+1), Worker: worker, People: 1, Rating: 100,
			})
		}
	}
	return readings, factors
}

// nextGrow draws the hours of one more grow of each way of working.
func (g grower) nextGrow() (hours [2]float64) {
	for w := range hours {
		grow := g.growFactors(1)
		for i, j := range jobs {
			for range [2][]int{j.inTray, j.inRaft}[w] {
				_, slow := g.worker()
				hours[w] += g.time(i, j.planned(), grow[i][0]*slow) / 3600
			}
		}
	}
	return hours
}

// exact are readings without any scatter, which fix every setup and unit time:
// the answers from them are the truth.
func exact(factor float64) []study.Reading {
	var readings []study.Reading
	for _, j := range jobs {
		add := func(n, seconds float64) {
			readings = append(readings, study.Reading{Step: j.name, Count: n, Seconds: seconds, People: 1, Rating: 100})
		}
		for _, n := range []float64{1, 2, 4} {
			add(n*j.planned(), factor*j.mean(n*j.planned()))
		}
	}
	return readings
}
