package answer

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/crop"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// threeSteps is a study of three steps a head.
func threeSteps() study.Study {
	st := oneStep(study.Step{})
	for _, name := range []string{"sow", "cut"} {
		st.Steps = append(st.Steps, study.Step{Name: name})
		st.Workflows[0].Tasks = append(st.Workflows[0].Tasks, task(name, crop.Heads, 1))
	}
	return st
}

// What is lent to steps, and to which in part only, is said once; of a step, only that it is.
func TestNotesOfWhatIsLent(t *testing.T) {
	const once = "timed once, so how much that varies is lent"
	many := []study.Reading{aReading("cut", 10, 100), aReading("cut", 10, 130), aReading("cut", 10, 90), aReading("cut", 10, 120), aReading("cut", 10, 110)}
	two := []study.Reading{aReading("pack", 10, 100), aReading("pack", 10, 120)}
	one := []study.Reading{aReading("sow", 10, 50)}
	for _, c := range []struct {
		name     string
		readings [][]study.Reading
		want     string
		pack     string // of the step
	}{
		{"wholly", [][]study.Reading{many, one}, "by about 19 % (in part an assumption): sow", ""},
		{"in part", [][]study.Reading{many, two}, "so they are in part taken to vary as the other steps and handwork do, by about 19 % (in part an assumption): pack", "few readings show poorly how much that varies: 67 % of it is lent"},
		{"both", [][]study.Reading{many, two, one}, "by about 19 % (in part an assumption): sow; in part so: pack", "few readings show poorly how much that varies: 67 % of it is lent"},
		{"once each", [][]study.Reading{one, two[:1], many[:1]}, "every step was timed once: each is taken", once},
		{"once each of some", [][]study.Reading{two[:1]}, "every step that was timed was timed once: each is taken", once},
	} {
		var readings []study.Reading
		for _, more := range c.readings {
			readings = append(readings, more...)
		}
		m := Fit(threeSteps(), readings, Options{})
		require.NotEmpty(t, m.commonNotes(), c.name)
		assert.Contains(t, m.commonNotes()[0], c.want, c.name)
		notes := m.stepNotes(m.Steps[m.Index["pack"]])
		if c.pack != "" {
			assert.Contains(t, notes, c.pack, c.name)
		}
		for _, note := range notes {
			assert.NotContains(t, note, "as the other steps", c.name)
		}
	}
}

// Where no grows can be told apart it is said why.
func TestNotesOfGrows(t *testing.T) {
	of := func(grow string, seconds float64) study.Reading {
		r := aReading("cut", 10, seconds)
		r.Grow = grow
		return r
	}
	for want, readings := range map[string][]study.Reading{
		"": nil,
		`all readings are of one grow, "g": ranges are of that grow only, since how much grows differ is not known`:                   {of("g", 90), of("g", 100)},
		"no reading names its grow: how much grows differ is not known, and ranges leave it out; a column grow in the log would tell": {of("", 90), of("", 100)},
		`readings name one grow, "g", or none: how much grows differ is not known, and ranges leave it out`:                           {of("g", 90), of("", 100)},
	} {
		for _, grouping := range []Grouping{NoGrouping, AutoGrouping} {
			notes := Fit(threeSteps(), readings, Options{Grouping: grouping}).effectNotes()
			if want == "" || grouping == NoGrouping {
				assert.Empty(t, notes)
			} else {
				assert.Equal(t, []string{want}, notes)
			}
		}
	}
	assert.NotContains(t, strings.Join(Fit(threeSteps(), []study.Reading{of("g", 90), of("h", 95)}, Options{}).effectNotes(), ""), "one grow")
}

// Where grows differ by more than steps leave in doubt, another grow is worth timing.
func TestMostlyGrows(t *testing.T) {
	timed := func(factors ...float64) *Models {
		var readings []study.Reading
		for g, factor := range factors {
			for _, step := range []string{"sow", "cut", "pack"} {
				for i, count := range []float64{12, 24, 48} {
					r := aReading(step, count, factor*(30+4*count+float64((i+g)%2)))
					r.Grow = string(rune('a' + g))
					readings = append(readings, r)
				}
			}
		}
		return Fit(threeSteps(), readings, Options{Grouping: AutoGrouping})
	}
	for _, c := range []struct {
		factors []float64
		want    bool
	}{{[]float64{0.7, 1, 1.35}, true}, {[]float64{1, 1, 1}, false}, {[]float64{1}, false}} {
		m := timed(c.factors...)
		comparison, err := m.Compare(nil, 24)
		require.NoError(t, err)
		assert.Equal(t, c.want, comparison.Workflows[0].MostlyGrows, c.factors)
		in, err := m.Improve("", 24, nil)
		require.NoError(t, err)
		assert.Equal(t, c.want, in.MostlyGrows, c.factors)
	}
}

// Every answer says of which of its steps the times are guesses.
func TestNotesOfJudgedSteps(t *testing.T) {
	s := threeSteps()
	guess := &study.Estimate{Low: 60, Likely: 90, High: 120, OfVisit: true}
	for i := range s.Steps {
		s.Steps[i].Estimate = guess
	}
	s.Workflows = append(s.Workflows, study.Workflow{Name: "other", SeedsPerCell: 1, Tasks: []study.Task{task("pack", crop.Heads, 1)}})
	timed := []study.Reading{aReading("pack", 10, 100)}
	judged := func(readings []study.Reading, ways ...study.Workflow) string {
		return strings.Join(Fit(s, readings, Options{}).judgedNotes(ways), "; ")
	}
	assert.Equal(t, "all times are judged: guesses, until a step is timed", judged(nil, s.Workflows...))
	assert.Equal(t, "judged, not timed: sow, cut", judged(timed, s.Workflows...))
	assert.Empty(t, judged(timed, s.Workflows[1]))
	assert.Equal(t, "all times are judged: guesses, until a step is timed", judged(nil, s.Workflows[1]))
	s.Chores = []study.Chore{{Step: "cut", EveryDays: 7, Count: 1}}
	assert.Equal(t, "judged, not timed: cut", judged(timed, s.Workflows[1]))
}

// Of some ways it is said of their steps and the chores alone.
func TestNotesOfOtherWays(t *testing.T) {
	s := threeSteps()
	way := func(name string, steps ...string) study.Workflow {
		w := study.Workflow{Name: name, SeedsPerCell: 1}
		for _, step := range steps {
			w.Tasks = append(w.Tasks, task(step, crop.Heads, 1))
		}
		return w
	}
	s.Workflows = []study.Workflow{way("tray", "sow", "cut"), way("in place", "sow", "pack")}
	once := []study.Reading{aReading("cut", 10, 100), aReading("pack", 10, 100), aReading("sow", 10, 50)}
	lent := func(s study.Study, ways ...study.Workflow) string {
		notes := Fit(s, once, Options{}).notes(ways...)
		at := slices.IndexFunc(notes, func(note string) bool { return strings.Contains(note, "timed once") })
		require.GreaterOrEqual(t, at, 0)
		_, steps, _ := strings.Cut(notes[at], "that: ")
		return steps
	}
	assert.Equal(t, "pack, sow, cut", lent(s))
	assert.Equal(t, "sow, cut", lent(s, s.Workflows[0]))
	assert.Equal(t, "pack, sow, cut", lent(s, s.Workflows...))
	s.Chores = []study.Chore{{Step: "pack", EveryDays: 7, Count: 1}}
	assert.Equal(t, "pack, sow, cut", lent(s, s.Workflows[0]))
}

// A step is to be timed again at the end of its counts that tells most of what is asked.
func TestTellingCount(t *testing.T) {
	var readings []study.Reading
	for i, count := range []float64{12, 24, 48, 12, 24, 48} {
		readings = append(readings, aReading("cut", count, 60+4*count+float64(i%2)))
	}
	m := Fit(threeSteps(), readings, Options{})
	s := m.Steps[m.Index["cut"]]
	for want, load := range map[string]stepfit.Load{
		"the smallest count you do, 12 or fewer":                                          {Setups: 3, Count: 6},
		"the largest count you do, 48 or more":                                            {Setups: 1, Count: 100},
		"the smallest count you do, 12 or fewer, or the largest count you do, 48 or more": {},
	} {
		assert.Equal(t, want, s.tellingCount(load))
		assert.Equal(t, "time it again at "+want, m.howToTime(s, load))
	}
	after := func(count float64) float64 {
		more := Fit(threeSteps(), append(readings, aReading("cut", count, 60+4*count)), Options{})
		return more.Steps[more.Index["cut"]].Model.Leverage(stepfit.Load{Setups: 1, Count: 100})
	}
	assert.Less(t, after(48), after(12), "as with the reading itself")
}

// Seeds that are counted as coming up are those of the ways that say nothing of it.
func TestAllComeUp(t *testing.T) {
	leaves, own, bought := study.Workflow{Name: "a"}, study.Workflow{Name: "b", Germination: &crop.Germination{Share: 0.8}}, study.Workflow{Name: "c", Bought: true}
	assert.Empty(t, allComeUp([]study.Workflow{own, bought}))
	assert.Equal(t, []string{"every seed is counted as coming up: the study gives no germination below 1"}, allComeUp([]study.Workflow{leaves, bought}))
	assert.Equal(t, []string{`every seed of "a" is counted as coming up: neither [crop] nor the way gives a germination below 1`}, allComeUp([]study.Workflow{own, leaves, bought}))
}
