package timing

import (
	"math"

	"headhours/timing/stepfit"
)

// Fits is the time model of each step.
type Fits struct {
	Confidence float64   `json:"confidence"`
	Steps      []StepFit `json:"steps"`
	Notes      []string  `json:"notes"`
}

// StepFit is the time model of one step in basic person-seconds, without
// allowance. What the form lacks, and what is not known, is unknown.
type StepFit struct {
	Step          string     `json:"step"`
	Per           *string    `json:"per"` // nil where the study does not say
	Readings      int        `json:"readings"`
	Voided        int        `json:"voided"`
	CountMin      Maybe      `json:"count_min"`
	CountMax      Maybe      `json:"count_max"`
	Form          *string    `json:"form"`
	Spread        *int       `json:"spread"`
	Setup         Maybe      `json:"setup_s"`
	SetupSE       Maybe      `json:"setup_se_s"`
	SetupLow      Maybe      `json:"setup_low_s"`
	SetupHigh     Maybe      `json:"setup_high_s"`
	Unit          Maybe      `json:"unit_s"`
	UnitSE        Maybe      `json:"unit_se_s"`
	UnitLow       Maybe      `json:"unit_low_s"`
	UnitHigh      Maybe      `json:"unit_high_s"`
	SetupUnitCov  Maybe      `json:"setup_unit_cov_s2"`
	ResidualSD    Maybe      `json:"residual_sd_s"`
	BetweenSD     Maybe      `json:"between_sd_s"` // of grows or workers, beyond the scatter within them
	Grouping      *Grouping  `json:"grouping"`     // nil without readings
	DF            Maybe      `json:"df"`
	R2            Maybe      `json:"r2"`
	Borrowed      bool       `json:"borrowed"`
	ReadingsFor10 *int       `json:"readings_for_10_percent"`
	StandsOut     []StandOut `json:"stands_out"`
	Notes         []string   `json:"notes"`
	// Bracket is the same readings taken as all setup, where alike counts cannot
	// tell setup and unit time apart.
	Bracket *stepfit.Fit `json:"-"`
}

// StandOut is a reading that its step's other readings make unlikely, with the
// answer without it. Studentised is unknown where the others agree exactly.
type StandOut struct {
	File        string  `json:"file"`
	Line        int     `json:"line"`
	Count       float64 `json:"count"`
	Seconds     float64 `json:"time_s"` // basic person-seconds
	Studentised Maybe   `json:"studentised"`
	P           float64 `json:"p"`
	Setup       Maybe   `json:"setup_s"`
	Unit        Maybe   `json:"unit_s"`
}

// Fits gives the models of the steps that the named workflows use, in the
// study's order; no names mean all steps. The error is an UnknownName,
// ErrNoWorkflow or that of reading the readings again.
func (m *Models) Fits(names []string) (Fits, error) {
	used, err := m.used(names)
	if err != nil {
		return Fits{}, err
	}
	outliers, err := m.standOuts()
	if err != nil {
		return Fits{}, err
	}
	fits := Fits{Confidence: m.Confidence, Steps: []StepFit{}, Notes: []string{}}
	if note := m.scatterNote(); note != "" {
		fits.Notes = append(fits.Notes, note)
	}
	for i, s := range m.Steps {
		if used[i] {
			fit := s.answer(m.Confidence)
			fit.StandsOut = append(fit.StandsOut, outliers[i]...)
			fit.Notes = append(fit.Notes, m.stepNotes(s)...)
			fits.Steps = append(fits.Steps, fit)
		}
	}
	return fits, nil
}

// used says of each step whether one of the named workflows has a task of it.
func (m *Models) used(names []string) ([]bool, error) {
	used := make([]bool, len(m.Steps))
	if len(names) == 0 {
		for i := range used {
			used[i] = true
		}
		return used, nil
	}
	workflows, err := m.Study.choose(names)
	for _, w := range workflows {
		for _, task := range w.Tasks {
			used[m.index[task.Step]] = true
		}
	}
	return used, err
}

func (s StepModel) answer(confidence float64) StepFit {
	fit := StepFit{
		Step: s.Step.Name, Readings: s.Readings, Voided: s.Voided,
		StandsOut: []StandOut{}, Notes: []string{},
	}
	if s.Step.Per != "" {
		fit.Per = &s.Step.Per
	}
	if s.Gap() {
		return fit
	}
	f := s.Model.Fit
	form := string(f.Form)
	fit.Form, fit.Bracket = &form, s.Model.Bracket
	if f.Form.HasSetup() {
		fit.Setup, fit.SetupSE, fit.SetupLow, fit.SetupHigh = estimate(f, 1, 0, confidence)
	}
	if f.Form.HasUnit() {
		fit.Unit, fit.UnitSE, fit.UnitLow, fit.UnitHigh = estimate(f, 0, 1, confidence)
	}
	fit.Borrowed = f.Basis == stepfit.Pooled || f.Basis == stepfit.Guess
	if s.Judged() {
		return fit
	}
	fit.CountMin, fit.CountMax = Known(s.sums.CountMin), Known(s.sums.CountMax)
	fit.Spread, fit.DF, fit.Grouping = &f.Spread, Known(f.MeanDF()), &s.Grouping
	if f.Basis == stepfit.NoSpread {
		return fit
	}
	fit.ResidualSD = Known(f.SD)
	if f.BetweenSD > 0 {
		fit.BetweenSD = Known(f.BetweenSD)
	}
	if f.Form == stepfit.SetupUnit {
		fit.SetupUnitCov = Known(f.CovarianceOf(1, 0, 0, 1))
	}
	if r2, ok := f.R2(); ok {
		fit.R2 = Known(r2)
	}
	if n, ok := f.ReadingsFor(0.10, confidence); ok {
		fit.ReadingsFor10 = &n
	}
	return fit
}

// estimate is the fitted time of a load with its standard error and limits.
func estimate(f stepfit.Fit, setups, count, confidence float64) (value, se, low, high Maybe) {
	value = Known(f.At(setups, count))
	if f.Basis == stepfit.NoSpread {
		return value, Maybe{}, Maybe{}, Maybe{}
	}
	variance, df := f.Mean(setups, count)
	se = Known(math.Sqrt(variance))
	half := stepfit.Quantile(confidence, df) * se.Value
	return value, se, value.Plus(-half), value.Plus(half)
}

// standOuts names the readings that stand out, by step. The error is that of reading
// them again.
func (m *Models) standOuts() ([][]StandOut, error) {
	found := make([][]StandOut, len(m.Steps))
	untold := map[int]stepfit.Screen{} // steps whose readings are all to be looked at again
	for i := range m.Steps {
		s := &m.Steps[i]
		if s.Readings == 0 {
			continue
		}
		screen, ok := s.Model.Screen()
		if !ok {
			continue
		}
		some, told := s.candidates(screen)
		if !told {
			untold[i] = screen
		}
		for _, t := range some {
			if out, ok := screen.Check(t.reading()); ok {
				found[i] = append(found[i], standOut(t, out, s.Model.Form))
			}
		}
	}
	if len(untold) == 0 {
		return found, nil
	}
	return found, m.each(func(step int, b *Batch, r *Brief) {
		screen, ok := untold[step]
		if !ok {
			return
		}
		s := &m.Steps[step]
		t := b.timed(&s.Step, r)
		if out, ok := screen.Check(t.reading()); ok {
			found[step] = append(found[step], standOut(t, out, s.Model.Form))
		}
	})
}

func standOut(t Timed, out stepfit.Outlier, form stepfit.Form) StandOut {
	s := StandOut{
		File: t.Place.File, Line: t.Place.Line, Count: t.Count, Seconds: t.Seconds,
		Studentised: Known(out.Studentised), P: out.P,
	}
	if form.HasSetup() {
		s.Setup = Known(out.SetupSec)
	}
	if form.HasUnit() {
		s.Unit = Known(out.UnitSec)
	}
	return s
}
