package answer

import (
	"headhours/timing/condense"
	"headhours/timing/stepfit"
)

// StepModel is the time model of one step.
type StepModel struct {
	condense.StepReadings
	Model *stepfit.Model // nil for a gap: neither reading nor estimate
	// doubt is the fit that tells how sure the step's times are, with the scatter that
	// answers take; bracket that of the other extreme, where there is one.
	doubt, bracket doubtFit
}

// isGap says that the step was neither timed nor judged.
func (s StepModel) isGap() bool { return s.Model == nil }

// isJudged says that the step's time is the grower's estimate alone.
func (s StepModel) isJudged() bool { return s.Model != nil && s.Readings == 0 }

// alwaysOne says that alike counts leave a step in doubt and that all were 1, as
// of work that is counted by the visit.
func (s StepModel) alwaysOne() bool {
	return s.Model.Bracket != nil && s.Sums.CountMin == 1 && s.Sums.CountMax == 1
}
