package answer

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/study"
)

func TestDoubtful(t *testing.T) {
	st := study.Study{Confidence: 0.95, Steps: []study.Step{
		{Name: "sow"}, {Name: "thin"}, {Name: "mix", Estimate: &study.Estimate{Low: 120, Likely: 300, High: 480, OfVisit: true}},
	}}
	at := func(line int, r study.Reading) study.Reading {
		r.Place = study.Place{File: "a.csv", Line: line}
		return r
	}
	slow, voided := aReading("sow", 20, 130), aReading("sow", 20, 20000)
	slow.Rating, voided.Void = 1, "a visitor"
	old, far, dated := aReading("sow", 20, 131), aReading("sow", 20, 132), aReading("sow", 20, 133)
	old.Date, far.Date, dated.Date = time.Date(1989, 12, 31, 0, 0, 0, 0, time.UTC), time.Date(2100, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2099, 12, 31, 0, 0, 0, 0, time.UTC)
	m := Fit(st, []study.Reading{
		at(10, old), at(11, far), at(12, dated),
		at(1, aReading("sow", 20, 130)), at(2, aReading("sow", 40, 240)), at(3, aReading("sow", 20, 7200)),
		at(4, slow), at(5, voided), at(6, aReading("sow", 30, 190)),
		at(7, aReading("thin", 20, 15720)), at(8, aReading("mix", 48, 5)), at(9, aReading("mix", 2, 310)),
	}, Options{})
	doubts, err := m.Doubtful()
	require.NoError(t, err)
	var texts []string
	for _, p := range doubts {
		texts = append(texts, p.Error())
	}
	assert.Equal(t, []string{
		"a.csv:10: sow is of 1989-12-31: is the year mistyped?",
		"a.csv:11: sow is of 2100-01-01: is the year mistyped?",
		"a.csv:3: sow took 54 times as long as its other readings do: is the time or the count mistyped?",
		"a.csv:4: sow at 1 % of normal pace: 100 is normal",
		"a.csv:7: thin took 4.37 hours: were minutes meant?",
		"a.csv:8: mix was 60 times as quick as its estimate says: is the time or the count mistyped?",
	}, texts)
}

// Of a reading that passes for usual there is no doubt, however near it is to the edge of it.
func TestUsualIsNotDoubtful(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 4))
	edges := []float64{1.0 / manyTimes, manyTimes, 1, 1 / 3.0}
	seen := map[bool]int{}
	for range 200_000 {
		e := expectation{time: math.Exp(6 * r.Float64()), perCount: math.Exp(3 * r.Float64())}
		if r.IntN(9) == 0 {
			e.time, e.perCount = 0, 0 // not known
		}
		count := float64(1 + r.IntN(300))
		how := condense.How{People: float64(1 + r.IntN(2)), Rating: []float64{100, 40, 200, 39.9, 200.1, 125}[r.IntN(6)]}
		seconds := edges[r.IntN(len(edges))] * []float64{e.time, e.perCount * count, longReading}[r.IntN(3)] * 100 / how.Rating / how.People
		seconds = max(0, seconds*(1+float64(r.IntN(5)-2)*1e-16))
		usual := e.isUsual(&how, count, seconds)
		seen[usual]++
		if usual {
			require.Empty(t, e.doubt(&how, count, seconds), "%+v %v %v %+v", e, count, seconds, how)
		}
	}
	require.Greater(t, min(seen[true], seen[false]), 10_000)
}
