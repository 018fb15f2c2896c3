package stepfit

import "math"

// Model is the fit that was chosen for a step, and how it came about.
type Model struct {
	Fit
	// Full is the form setup+unit where it was tried and left for Fit's: what is
	// doubtful of the times is told by it. Nil where Fit was tried first.
	Full *Fit
	// Bracket is the other extreme where alike counts cannot tell setup and
	// unit time apart: the same readings taken as all setup, while Fit takes
	// them as all unit. Nil where there is no doubt.
	Bracket *Fit
	// LeftSetup and LeftUnit say that setup+unit was tried and gave a setup, or
	// a unit, time below zero.
	LeftSetup, LeftUnit bool
	// Asked says that the form was asked for and is kept, whatever its times.
	Asked bool
	// Refused is a form that was asked for and cannot be fitted to these
	// readings; "" where none was.
	Refused Form
}

// Doubt is the fit that tells how sure the times are: Full where there is one.
func (m Model) Doubt() Fit {
	if m.Full != nil {
		return *m.Full
	}
	return m.Fit
}

// Options say what is asked of a model. The zero Options let the readings
// decide.
type Options struct {
	Form   Form // "" and Auto let the readings decide
	Spread *int // 0, 1 or 2; nil lets the readings decide
}

// alikeRatio is how much larger the largest count per setup must be than the
// smallest before setup and unit time can be told apart.
const alikeRatio = 1.5

// sameRatio spares what rounding alone does to counts and times.
const sameRatio = 1e-9

// canFit says whether the readings can tell a form's times: its X'WX is not
// singular.
func (s Sums) canFit(form Form) bool {
	hasSetups, hasCounts := s.visits > 0, s.CountMax > 0
	switch form {
	case Unit:
		return hasCounts
	case Setup:
		return hasSetups
	default:
		return hasSetups && hasCounts && (s.laps > 0 || s.ratioMax > s.ratioMin*(1+sameRatio))
	}
}

// Choose is the model of a step's readings, taken as independent. There must be at
// least one.
func (s Sums) Choose(o Options) Model {
	if o.Form == "" {
		o.Form = auto
	}
	if o.Form != auto {
		if s.canFit(o.Form) {
			if q := s.chooseSpread(o.Form, o.Spread); o.Form != SetupUnit || s.tellsApart(q) {
				return Model{Fit: s.fitOf(o.Form, q), Asked: true}
			}
		}
		refused := o.Form
		o.Form = auto
		m := s.Choose(o)
		m.Refused = refused
		return m
	}
	switch {
	case s.visits == 0:
		return Model{Fit: s.fitOf(Unit, s.chooseSpread(Unit, o.Spread))}
	case s.CountMax == 0:
		return Model{Fit: s.fitOf(Setup, s.chooseSpread(Setup, o.Spread))}
	case s.laps == 0 && s.ratioMax < alikeRatio*s.ratioMin*(1-sameRatio):
		return s.bracket(o.Spread)
	}
	q := s.chooseSpread(SetupUnit, o.Spread)
	if !s.tellsApart(q) {
		return s.bracket(o.Spread)
	}
	both := s.fitOf(SetupUnit, q)
	switch s.belowZero(both) {
	case Setup:
		return Model{Fit: s.fitOf(Unit, q), Full: &both, LeftSetup: true}
	case Unit:
		return Model{Fit: s.fitOf(Setup, q), Full: &both, LeftUnit: true}
	}
	return Model{Fit: both}
}

// bracket is the model of readings that cannot tell setup and unit time apart.
func (s Sums) bracket(spread *int) Model {
	q := s.chooseSpread(Unit, spread)
	other := s.fitOf(Setup, q)
	return Model{Fit: s.fitOf(Unit, q), Bracket: &other}
}

// tellsApart says whether setups and counts, as weighted for a spread, differ by more
// than rounding: one reading may dwarf all others.
func (s Sums) tellsApart(spread int) bool {
	f := s.centred[spread].factor()
	counts := f.counts()
	return f.mm != 0 && math.Abs(f.nn) > minApart*math.Sqrt(counts.dot(counts))
}

// minApart is the share of the counts below which what setups leave of them is
// rounding.
const minApart = 1e-14

// belowZero is the one of a fit's two times that is below zero by more than
// rounding; "" where neither is.
func (s Sums) belowZero(f Fit) Form {
	bound := -sameRatio * s.secondMax
	switch {
	case f.SetupSec < bound:
		return Setup
	case f.UnitSec*s.CountMax < bound:
		return Unit
	}
	return ""
}

// What the readings must show before their scatter is taken to grow with the
// count.
const (
	spreadReadings = 8
	spreadCounts   = 2 // largest over smallest
	spreadGain     = 2 // log-likelihood over that at 0
)

// chooseSpread is the q that is asked for, or that the readings call for.
func (s Sums) chooseSpread(form Form, wanted *int) int {
	if s.zeroCounts > 0 {
		return 0
	}
	if wanted != nil {
		return *wanted
	}
	if s.Readings < spreadReadings || s.CountMax < spreadCounts*s.CountMin {
		return 0
	}
	constant := s.fitOf(form, 0)
	if constant.RSS == 0 {
		return 0
	}
	best, likelihood := 0, constant.LogLikelihood+spreadGain
	for q := 1; q < Spreads; q++ {
		if l := s.fitOf(form, q).LogLikelihood; l >= likelihood && (best == 0 || l > likelihood) {
			best, likelihood = q, l
		}
	}
	return best
}
