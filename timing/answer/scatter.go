package answer

import (
	"math"

	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// Scatter says what is made of the scatter of a step's readings, which two or three
// of them show poorly. The zero Scatter is LentScatter.
type Scatter string

// The scatters. How well each keeps its promise is what the command coverage simulates.
const (
	// LentScatter lends a step with fewer than three degrees of freedom what it lacks,
	// from what all steps and handwork at large show.
	LentScatter Scatter = "lent"
	// OwnScatter takes a step's own readings alone; one whose readings show no
	// scatter borrows the pooled coefficient of variation.
	OwnScatter Scatter = "own"
)

// Scatters lists the scatters.
var Scatters = []Scatter{LentScatter, OwnScatter}

// What is assumed of handwork before any of it is timed: done again, it varies by about a
// fifth. It counts for as much as eight readings beyond the first would. Our own
// assumption, no source.
const (
	assumedCV = 0.20
	assumedDF = 8
)

// enoughDF is the degrees of freedom up to which a step is lent what it lacks.
const enoughDF = 3

// lending is what steps that show too little of their scatter are lent: the square of a
// coefficient of variation at their mean count, with its degrees of freedom; 0 of them
// where there is nothing to lend.
type lending struct {
	scatter    Scatter
	square, df float64
}

// lendingOf is what all steps together can lend.
func lendingOf(scatter Scatter, fits []stepfit.Fit) lending {
	var squares, df float64
	if scatter != OwnScatter {
		squares, df = assumedDF*assumedCV*assumedCV, assumedDF
	}
	for _, f := range fits {
		cv, ok := f.CV()
		if !ok {
			continue
		}
		weight := f.DF
		if scatter != OwnScatter {
			weight = enoughDF * f.DF / (f.DF + enoughDF) // no step tells much of others
		}
		squares += weight * cv * cv
		df += weight
	}
	if df == 0 {
		return lending{scatter: scatter}
	}
	return lending{scatter, squares / df, df}
}

// cv is the coefficient of variation that is lent.
func (l lending) cv() float64 { return math.Sqrt(l.square) }

// doubtFit is a fit as answers use it: its SD is what it was lent where it lacked some.
type doubtFit struct {
	stepfit.Fit
	own   float64 // degrees of freedom of its readings' own
	df    float64 // of its scatter, but for what is wrong with all that is lent; infinite for judgements
	share float64 // of its scatter that is lent
	// guess says that its scatter is the grower's own guess; unknown, that none is known.
	guess, unknown bool
}

// use is a fit with the scatter that answers take.
func (l lending) use(f stepfit.Fit, estimate *study.Estimate) doubtFit {
	u := doubtFit{Fit: f, own: f.DF, df: f.DF}
	if f.Judged() || l.scatter != OwnScatter && f.AtMean() == 0 && f.DF > 0 {
		return u
	}
	if l.scatter != OwnScatter {
		u.df, u.share = l.shareAt(f.DF)
		if u.share > 0 {
			cv, _ := f.CV()
			u.Fit = f.WithCV(math.Sqrt(u.share*l.square + (1-u.share)*cv*cv))
		}
		return u
	}
	switch {
	case f.DF > 0:
	case l.df > 0:
		u.Fit, u.df, u.share = f.WithCV(l.cv()), math.Inf(1), 1
	case estimate != nil && estimate.Mean() > 0:
		u.Fit, u.df, u.guess = f.WithCV(estimate.SD()/estimate.Mean()), math.Inf(1), true
	default:
		u.unknown = true
	}
	return u
}

// shareAt is what so many degrees of freedom of a step's own come to with what it is
// lent, and the share of that which is lent.
func (l lending) shareAt(own float64) (df, share float64) {
	if l.scatter == OwnScatter {
		return own, 0
	}
	lent := max(enoughDF-own, 0)
	return own + lent, lent / (own + lent)
}

// worth is the degrees of freedom of a step's scatter with so many of its own.
func (l lending) worth(own float64) float64 {
	df, share := l.shareAt(own)
	if share == 0 {
		return df
	}
	return 1 / (1/df + share*share/l.df)
}

// DF is the degrees of freedom of the fit's scatter, taken for itself.
func (l lending) dfOf(u doubtFit) float64 {
	if u.share == 0 {
		return u.df
	}
	return 1 / (1/u.df + u.share*u.share/l.df)
}
