package answer

import (
	"maps"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Curve is what a figure of a step's model shows: its readings and the times
// that the model gives between them. A judged step and a gap have neither.
type Curve struct {
	StepFit
	Confidence float64      // of the limits
	Points     []CurvePoint // readings that count, in the order of the logs; of very many every so manieth
	Lines      []CurveLine
}

// CurvePoint is one reading on the model's scales.
type CurvePoint struct {
	condense.Timed
	StandsOut bool
}

// CurveLine is the fitted time of a reading of so many setups, at rising counts.
// A model with a setup time has a line for each number of setups that its
// readings held, fewest first; one without has a single line. Where alike counts
// cannot tell setup and unit time apart, the line that is all unit comes first,
// then the one that is all setup, as their forms say.
type CurveLine struct {
	Form   stepfit.Form
	Setups float64
	At     []CurveTime
}

// CurveTime is the mean time at a count in basic person-seconds, with the limits
// of its interval; they are unknown where the step's scatter is.
type CurveTime struct {
	Count, Seconds float64
	Low, High      study.Maybe
}

// curveCounts is how many counts a line of a curve is worked out at.
const curveCounts = 41

// Curves gives the curves of the steps that the named workflows use, in the
// study's order; no names mean all steps. The errors are those of Fits.
func (m *Models) Curves(names []string) ([]Curve, error) {
	fits, err := m.Fits(names)
	if err != nil {
		return nil, err
	}
	points, err := m.curvePoints()
	if err != nil {
		return nil, err
	}
	curves := make([]Curve, len(fits.Steps))
	for i, fit := range fits.Steps {
		curves[i] = Curve{StepFit: fit, Confidence: m.Confidence, Points: points[m.Index[fit.Step]]}
		if len(curves[i].Points) > 0 {
			curves[i].Lines = m.curveLines(m.Index[fit.Step], curves[i])
		}
	}
	return curves, nil
}

// maxPoints bounds the points of a curve, but for those that stand out.
const maxPoints = 2000

// curvePoints are the readings that count, by step: of more than maxPoints every so
// manieth, and those that stand out.
func (m *Models) curvePoints() ([][]CurvePoint, error) {
	points := make([][]CurvePoint, len(m.Steps))
	seen := make([]int, len(m.Steps))
	visit := func(step int, t condense.Timed) {
		s := &m.Steps[step]
		p := CurvePoint{Timed: t}
		if screen, ok := s.Model.Screen(); ok {
			_, p.StandsOut = screen.Check(t.Reading)
		}
		every := 1 + (s.Readings-1)/maxPoints
		if p.StandsOut || seen[step]%every == 0 {
			points[step] = append(points[step], p)
		}
		seen[step]++
	}
	if slices.ContainsFunc(m.Steps, func(s StepModel) bool { return s.Readings > len(s.Kept.First) }) {
		return points, m.Each(func(step int, b *condense.Batch, row int) {
			r := b.Rows.At(row)
			visit(step, b.Timed(&m.Steps[step].Step, r))
		})
	}
	for i := range m.Steps {
		for _, t := range m.Steps[i].Kept.First {
			visit(i, t)
		}
	}
	return points, nil
}

func (m *Models) curveLines(step int, c Curve) []CurveLine {
	model := m.Steps[step].Model
	unit := func() CurveLine { return m.curveLine(step, asModelled, 1, 0, c.CountMax.Value) }
	switch {
	case model.Bracket != nil:
		return append([]CurveLine{unit()}, m.linesBySetups(step, allSetup, c)...)
	case !model.Form.HasSetup():
		return []CurveLine{unit()}
	}
	return m.linesBySetups(step, asModelled, c)
}

func (m *Models) linesBySetups(step int, s setting, c Curve) []CurveLine {
	minCount, maxCount := map[float64]float64{}, map[float64]float64{}
	for _, p := range c.Points {
		if n, ok := minCount[p.Setups]; !ok || p.Count < n {
			minCount[p.Setups] = p.Count
		}
		maxCount[p.Setups] = max(maxCount[p.Setups], p.Count)
	}
	var lines []CurveLine
	for _, setups := range slices.Sorted(maps.Keys(maxCount)) {
		// what a setup takes shows at a count of 0; further setups are asked for
		// by larger counts only
		from := 0.0
		if setups > 1 {
			from = widen * minCount[setups]
		}
		lines = append(lines, m.curveLine(step, s, setups, from, maxCount[setups]))
	}
	return lines
}

// widen is how far below its smallest count a line of several setups begins, so
// that a single reading has a line too.
const widen = 0.75

func (m *Models) curveLine(step int, s setting, setups, from, to float64) CurveLine {
	if to <= from {
		to = from + 1 // of getting ready alone
	}
	point, _ := m.Steps[step].under(s, stepfit.Load{})
	line := CurveLine{Form: point.Form, Setups: setups, At: make([]CurveTime, curveCounts)}
	for i := range line.At {
		count := from + (to-from)*float64(i)/(curveCounts-1)
		value, _, low, high := m.estimate(step, stepfit.Load{Setups: setups, Count: count}, s)
		line.At[i] = CurveTime{Count: count, Seconds: value.Value, Low: low, High: high}
	}
	return line
}
