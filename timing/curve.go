package timing

import (
	"maps"
	"slices"

	"headhours/timing/stepfit"
)

// Curve is what a figure of a step's model shows: its readings and the times
// that the model gives between them. A judged step and a gap have neither.
type Curve struct {
	StepFit
	Confidence float64      // of the limits
	Points     []CurvePoint // readings that count, in the order of the logs
	Lines      []CurveLine
}

// CurvePoint is one reading on the model's scales.
type CurvePoint struct {
	Place     Place
	Setups    float64
	Count     float64
	Seconds   float64 // basic person-seconds
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
// of its interval; they are unknown where the step's spread is.
type CurveTime struct {
	Count, Seconds float64
	Low, High      Maybe
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
	points := m.curvePoints()
	curves := make([]Curve, len(fits.Steps))
	for i, fit := range fits.Steps {
		curves[i] = Curve{StepFit: fit, Confidence: m.Confidence, Points: points[fit.Step]}
		if len(curves[i].Points) > 0 {
			curves[i].Lines = curves[i].lines(*m.Steps[m.index[fit.Step]].Model, m.Confidence)
		}
	}
	return curves, nil
}

// curvePoints are the readings that count, by step.
func (m *Models) curvePoints() map[string][]CurvePoint {
	points := map[string][]CurvePoint{}
	for _, r := range m.Readings {
		if !r.Counts() {
			continue
		}
		step := m.Steps[m.index[r.Step]]
		p := CurvePoint{Place: r.Place, Setups: step.Step.Setups(r), Count: r.Count, Seconds: r.Basic()}
		if screen, ok := step.Model.Screen(); ok {
			_, p.StandsOut = screen.Check(stepfit.Reading{Setups: p.Setups, Count: p.Count, Seconds: p.Seconds})
		}
		points[r.Step] = append(points[r.Step], p)
	}
	return points
}

func (c Curve) lines(model stepfit.Model, confidence float64) []CurveLine {
	unit := func() CurveLine { return curveLine(model.Fit, 1, 0, c.CountMax.Value, confidence) }
	switch {
	case model.Bracket != nil:
		return append([]CurveLine{unit()}, c.linesBySetups(*model.Bracket, confidence)...)
	case !model.Form.HasSetup():
		return []CurveLine{unit()}
	}
	return c.linesBySetups(model.Fit, confidence)
}

func (c Curve) linesBySetups(fit stepfit.Fit, confidence float64) []CurveLine {
	least, most := map[float64]float64{}, map[float64]float64{}
	for _, p := range c.Points {
		if n, met := least[p.Setups]; !met || p.Count < n {
			least[p.Setups] = p.Count
		}
		most[p.Setups] = max(most[p.Setups], p.Count)
	}
	var lines []CurveLine
	for _, setups := range slices.Sorted(maps.Keys(most)) {
		// what a setup takes shows at a count of 0; further setups are asked for
		// by larger counts only
		from := 0.0
		if setups > 1 {
			from = widen * least[setups]
		}
		lines = append(lines, curveLine(fit, setups, from, most[setups], confidence))
	}
	return lines
}

// widen is how far below its smallest count a line of several setups begins, so
// that a single reading has a line too.
const widen = 0.75

func curveLine(fit stepfit.Fit, setups, from, to, confidence float64) CurveLine {
	if to <= from {
		to = from + 1 // of getting ready alone
	}
	line := CurveLine{Form: fit.Form, Setups: setups, At: make([]CurveTime, curveCounts)}
	for i := range line.At {
		count := from + (to-from)*float64(i)/(curveCounts-1)
		value, _, low, high := estimate(fit, setups, count, confidence)
		line.At[i] = CurveTime{Count: count, Seconds: value.Value, Low: low, High: high}
	}
	return line
}
