package answer

import (
	"math"
	"slices"
	"sync"

	"headhours/timing/condense"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Fits is the time model of each step.
type Fits struct {
	Confidence float64   `json:"confidence"`
	Common     Common    `json:"common"`
	Steps      []StepFit `json:"steps"`
	Notes      []string  `json:"notes"`
	// Earlier are steps before changes that were made, by the names "STEP (before DATE)".
	Earlier []StepFit `json:"-"`
}

// StepFit is the time model of one step in basic person-seconds, without
// allowance. What the form lacks, and what is not known, is unknown.
type StepFit struct {
	Step          string      `json:"step"`
	Per           *string     `json:"per"` // nil where the study does not say
	Readings      int         `json:"readings"`
	Voided        int         `json:"voided"`
	CountMin      study.Maybe `json:"count_min"`
	CountMax      study.Maybe `json:"count_max"`
	Form          *string     `json:"form"`
	Spread        *int        `json:"spread"`
	Setup         study.Maybe `json:"setup_s"`
	SetupSE       study.Maybe `json:"setup_se_s"`
	SetupLow      study.Maybe `json:"setup_low_s"`
	SetupHigh     study.Maybe `json:"setup_high_s"`
	Unit          study.Maybe `json:"unit_s"`
	UnitSE        study.Maybe `json:"unit_se_s"`
	UnitLow       study.Maybe `json:"unit_low_s"`
	UnitHigh      study.Maybe `json:"unit_high_s"`
	SetupUnitCov  study.Maybe `json:"setup_unit_cov_s2"`
	ResidualSD    study.Maybe `json:"residual_sd_s"`
	DF            study.Maybe `json:"df"`
	R2            study.Maybe `json:"r2"`
	Borrowed      bool        `json:"borrowed"`
	LentShare     study.Maybe `json:"lent_share"` // of the scatter, from other steps and from handwork at large
	ReadingsFor10 *int        `json:"readings_for_10_percent"`
	StandsOut     []StandOut  `json:"stands_out"`
	Notes         []string    `json:"notes"`
	// Bracket is the same readings taken as all setup, where alike counts cannot
	// tell setup and unit time apart.
	Bracket *stepfit.Fit `json:"-"`
}

// StandOut is a reading that its step's other readings make unlikely, with the
// answer without it. Studentised is unknown where the others agree exactly.
type StandOut struct {
	File        string      `json:"file"`
	Line        int         `json:"line"`
	Count       float64     `json:"count"`
	Seconds     float64     `json:"time_s"` // basic person-seconds
	Studentised study.Maybe `json:"studentised"`
	P           float64     `json:"p"`
	Setup       study.Maybe `json:"setup_s"`
	Unit        study.Maybe `json:"unit_s"`
	Expected    study.Maybe `json:"-"` // seconds, by the others; unknown where they would be none
}

// Fits gives the models of the steps that the named workflows use, in the
// study's order; no names mean all steps. The error is an UnknownName,
// ErrNoWorkflow or that of reading the readings again.
func (m *Models) Fits(names []string) (Fits, error) {
	used, err := m.stepsOf(names)
	if err != nil {
		return Fits{}, err
	}
	outliers, err := m.standOuts()
	if err != nil {
		return Fits{}, err
	}
	fits := Fits{Confidence: m.Confidence, Common: m.common(), Steps: make([]StepFit, 0, len(m.Study.Steps)), Notes: append(append([]string{}, m.remarks...), m.commonNotes()...)}
	practice, err := m.clearPractice()
	if err != nil {
		return Fits{}, err
	}
	fits.Notes = append(fits.Notes, m.madeNotes()...)
	fit := func(i int) StepFit {
		fit := m.fitOf(i)
		curve, clear := practice[i]
		if words := practiceWords(curve, clear, m.Confidence); words != "" {
			fit.Notes = append(fit.Notes, words)
		}
		fit.StandsOut = append(fit.StandsOut, outliers[i]...)
		fit.Notes = append(fit.Notes, m.stepNotes(m.Steps[i])...)
		return fit
	}
	for i := range m.Study.Steps {
		if !used[i] {
			continue
		}
		fits.Steps = append(fits.Steps, fit(i))
		for _, stage := range m.Earlier(i) {
			fits.Earlier = append(fits.Earlier, fit(stage))
		}
	}
	return fits, nil
}

// stepsOf says of each step whether one of the named workflows has a task of it.
func (m *Models) stepsOf(names []string) ([]bool, error) {
	used := make([]bool, len(m.Steps))
	if len(names) == 0 {
		for i := range m.Study.Steps {
			used[i] = true // and no stage before a change
		}
		return used, nil
	}
	workflows, err := m.Study.Choose(names)
	for _, w := range workflows {
		for _, task := range w.Tasks {
			used[m.Index[task.Step]] = true
		}
	}
	return used, err
}

// fitOf is the answer about one step.
func (m *Models) fitOf(step int) StepFit {
	s := &m.Steps[step]
	fit := StepFit{
		Step: s.Step.Name, Readings: s.Readings, Voided: s.Voided,
		StandsOut: []StandOut{}, Notes: []string{},
	}
	if s.Step.Per != "" {
		fit.Per = &s.Step.Per
	}
	if s.isGap() {
		return fit
	}
	f, doubt := s.Model.Fit, s.doubt
	form := string(f.Form)
	fit.Form, fit.Bracket = &form, s.Model.Bracket
	if f.Form.HasSetup() || doubt.Form.HasSetup() {
		fit.Setup, fit.SetupSE, fit.SetupLow, fit.SetupHigh = m.estimate(step, stepfit.Load{Setups: 1}, asModelled)
	}
	if f.Form.HasUnit() || doubt.Form.HasUnit() {
		fit.Unit, fit.UnitSE, fit.UnitLow, fit.UnitHigh = m.estimate(step, stepfit.Load{Count: 1}, asModelled)
	}
	if s.isJudged() {
		return fit
	}
	fit.CountMin, fit.CountMax = study.Known(s.Sums.CountMin), study.Known(s.Sums.CountMax)
	fit.Borrowed, fit.Spread = doubt.share > 0 || doubt.guess, &f.Spread
	if m.options.Scatter != OwnScatter {
		fit.LentShare = study.Known(doubt.share)
	}
	if doubt.unknown {
		fit.DF = study.Known(0)
		return fit
	}
	fit.DF, fit.ResidualSD = study.Known(m.lending.dfOf(doubt)), study.Known(doubt.SD)
	if doubt.Form == stepfit.SetupUnit {
		setup, unit := m.AsItIs(step, stepfit.Load{Setups: 1}), m.AsItIs(step, stepfit.Load{Count: 1})
		fit.SetupUnitCov = study.Known(doubt.CovarianceOf(stepfit.Load{Setups: setup.Setups}, stepfit.Load{Count: unit.Count}) + m.effect.square*m.inCommonOf(step, stepfit.Load{Setups: 1}, stepfit.Load{Count: 1}, asModelled))
	}
	if r2, ok := f.R2(); ok && doubt.own > 0 {
		fit.R2 = study.Known(r2)
	}
	if n, ok := doubt.ReadingsFor(0.10, m.Confidence, m.lending.worth); ok {
		fit.ReadingsFor10 = &n
	}
	return fit
}

// timeOf is a linear form in the times of one step, under a setting, in seconds.
func (m *Models) timeOf(step int, load stepfit.Load, s setting) outcome {
	common := m.inCommonOf(step, load, load, s)
	load = m.AsItIs(step, load)
	point, doubt := m.Steps[step].under(s, load)
	o := outcome{value: point.At(load), full: doubt.At(load)}
	o.mean.lender, o.mean.effect = m.lending, &m.effect
	o.mean.add(doubt, doubt.Variance(load))
	o.mean.common = common
	return o
}

// inCommonOf is what a common effect of variance 1 adds to the covariance of two loads of
// one step.
func (m *Models) inCommonOf(step int, x, y stepfit.Load, s setting) float64 {
	if m.effect.none() {
		return 0
	}
	x, y = m.AsItIs(step, x), m.AsItIs(step, y)
	model, g := m.Steps[step].Model, &m.effect.steps[step]
	setup, unit := 1.0, 1.0
	if model.Bracket != nil {
		if s.asSetup(model, x) {
			unit = 0
		} else {
			setup = 0
		}
	}
	var sum float64
	for i := range g.at {
		d := g.adds(i)
		sum += (setup*x.Setups*d[0] + unit*x.Count*d[1]) * (setup*y.Setups*d[0] + unit*y.Count*d[1])
	}
	return sum
}

// estimate is the fitted time of a load of one step with its standard error and limits,
// under a setting.
func (m *Models) estimate(step int, load stepfit.Load, s setting) (value, se, low, high study.Maybe) {
	o := m.timeOf(step, load, s)
	value = study.Known(o.value)
	if o.mean.unknown {
		return value, study.Maybe{}, study.Maybe{}, study.Maybe{}
	}
	span := Span{Value: o.value}
	span.Low, span.High = o.limits(o.mean, m.Confidence)
	span = span.aTime()
	variance, _ := o.mean.total()
	return value, study.Known(math.Sqrt(variance)), span.Low, span.High
}

// standOuts names the readings that stand out, by step. The error is that of reading
// them again.
func (m *Models) standOuts() ([][]StandOut, error) {
	found := make([][]StandOut, len(m.Steps))
	rescreened := make([]*stepfit.OutlierScreen, len(m.Steps)) // of steps whose readings are all to be looked at again
	var steps sync.WaitGroup
	for i := range m.Steps {
		steps.Go(func() { found[i], rescreened[i] = m.Steps[i].standOuts() })
	}
	steps.Wait()
	if !slices.ContainsFunc(rescreened, func(s *stepfit.OutlierScreen) bool { return s != nil }) {
		return found, nil
	}
	check := func(step int, b *condense.Batch, row int) (t condense.Timed, out stepfit.Outlier, standsOut bool) {
		if screen := rescreened[step]; screen != nil {
			t = b.Timed(&m.Steps[step].Step, b.Rows.At(row))
			out, standsOut = screen.Check(t.Reading)
		}
		return t, out, standsOut
	}
	return found, m.EachThat(func(step int, b *condense.Batch, row int) bool {
		_, _, standsOut := check(step, b, row)
		return standsOut
	}, func(step int, b *condense.Batch, row int) {
		t, out, _ := check(step, b, row)
		found[step] = append(found[step], standOut(t, out, m.Steps[step].Model.Form))
	})
}

// standOuts are those of a step among what was kept of it, or what all of its readings are to
// be looked at with.
func (s *StepModel) standOuts() (found []StandOut, again *stepfit.OutlierScreen) {
	if s.Readings == 0 {
		return nil, nil
	}
	screen, ok := s.Model.Screen()
	if !ok {
		return nil, nil
	}
	outliers, complete := s.candidates(screen)
	if !complete {
		return nil, &screen
	}
	for _, some := range outliers {
		for _, t := range some {
			if out, ok := screen.Check(t.Reading); ok {
				found = append(found, standOut(t, out, s.Model.Form))
			}
		}
	}
	return found, nil
}

func standOut(t condense.Timed, out stepfit.Outlier, form stepfit.Form) StandOut {
	s := StandOut{
		File: t.From.File, Line: t.Line, Count: t.Count, Seconds: t.Seconds,
		Studentised: study.Known(out.Studentised), P: out.P,
	}
	if form.HasSetup() {
		s.Setup = study.Known(out.SetupSec)
	}
	if form.HasUnit() {
		s.Unit = study.Known(out.UnitSec)
	}
	if expected := out.SetupSec*t.Setups + out.UnitSec*t.Count; expected > 0 {
		s.Expected = study.Known(expected)
	}
	return s
}

// Common is how much grows, or workers, differ in all that they do.
type Common struct {
	Of     *Grouping   `json:"of"`
	Groups *int        `json:"groups"`
	SD     study.Maybe `json:"sd"` // as a share of the time
	DF     study.Maybe `json:"df"`
}

// common is how much grows, or workers, differ in all steps; all unknown where that is
// not told.
func (m *Models) common() Common {
	e := m.effect
	if e.none() {
		return Common{}
	}
	return Common{Of: &e.by, Groups: &e.groups, SD: study.Known(math.Sqrt(e.square)), DF: study.Known(e.df)}
}
