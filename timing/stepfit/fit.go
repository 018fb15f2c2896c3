package stepfit

import "math"

// Form says which of the two times a model has.
type Form string

// The forms of a model, and Auto, which lets the readings decide.
const (
	Auto      Form = "auto"
	SetupUnit Form = "setup+unit" // t = a·m + b·n
	Unit      Form = "unit"       // t = b·n
	Setup     Form = "setup"      // t = a·m
)

// Forms lists what a form may be asked to be.
var Forms = []Form{Auto, SetupUnit, Unit, Setup}

// Parameters is how many times the form has to find.
func (f Form) Parameters() int {
	if f == SetupUnit {
		return 2
	}
	return 1
}

// HasSetup says whether the form has a setup time.
func (f Form) HasSetup() bool { return f != Unit }

// HasUnit says whether the form has a unit time.
func (f Form) HasUnit() bool { return f != Setup }

// Basis says where the spread of a fit comes from.
type Basis int

// The bases of a spread.
const (
	NoSpread  Basis = iota // nothing is known of it
	Own                    // the scatter of the readings themselves
	Pooled                 // the other steps' pooled coefficient of variation
	Guess                  // the grower's own three-point judgement
	Judgement              // no reading at all: time and spread are judged
)

// negligible is the share of the times' sum of squares below which a residual
// sum of squares is rounding alone, and counts as zero.
const negligible = 1e-18

// Fit is a model of one form at one spread.
type Fit struct {
	Form     Form
	Spread   int     // q: the variance of a reading is SD²·count^q
	Readings int     // N
	SetupSec float64 // a, seconds a setup; 0 where the form lacks it
	UnitSec  float64 // b, seconds a unit; 0 where the form lacks it

	SD    float64 // scatter of a reading of count 1, in seconds; of any where Spread is 0
	DF    float64 // its degrees of freedom; infinite for a judgement
	Basis Basis
	// BetweenSD is how much grows, or workers, differ beyond that scatter: the
	// standard deviation in seconds of what one adds to each of its readings. It
	// is 0 where readings are taken as independent.
	BetweenSD float64

	RSS           float64 // weighted residual sum of squares, about the times of a and b
	TSS           float64 // weighted, about the mean; about zero for Unit
	LogLikelihood float64 // maximum likelihood, divisor N, of independent readings
	REML          float64 // restricted log-likelihood, where BetweenSD is above 0

	meanSetups, meanCount float64
	cov                   covariance // of (a, b), before it is multiplied by SD²
	between               *between   // nil where BetweenSD is 0
}

// covariance is (X'WX)⁻¹, zero where the form lacks a time.
type covariance struct{ aa, ab, bb float64 }

// Fit is the model of a form at a spread. The readings must be able to tell its
// times, see CanFit; spreads 1 and 2 need counts above 0.
func (s Sums) Fit(form Form, spread int) Fit {
	f := s.centred[spread].factor()
	m, n, t := f.column(0), f.column(1), f.column(2)
	fit := Fit{
		Form: form, Spread: spread, Readings: s.Readings,
		meanSetups: s.MeanSetups(), meanCount: s.MeanCount(),
		TSS: s.centred[spread].squares(),
	}
	switch form {
	case Unit:
		fit.cov.bb = 1 / n.dot(n)
		fit.UnitSec = n.dot(t) / n.dot(n)
		fit.TSS = t.dot(t)
	case Setup:
		fit.cov.aa = 1 / m.dot(m)
		fit.SetupSec = m.dot(t) / m.dot(m)
	default:
		fit.UnitSec = f.at(1, 2) / f.at(1, 1)
		fit.SetupSec = (f.at(0, 2) - f.at(0, 1)*fit.UnitSec) / f.at(0, 0)
		tilt := f.at(0, 1) / f.at(0, 0)
		fit.cov.bb = 1 / (f.at(1, 1) * f.at(1, 1))
		fit.cov.ab = -tilt * fit.cov.bb
		fit.cov.aa = 1/(f.at(0, 0)*f.at(0, 0)) + tilt*tilt*fit.cov.bb
	}
	fit.RSS = f.residual(fit.SetupSec, fit.UnitSec)
	size := float64(s.Readings)
	fit.LogLikelihood = -float64(spread)*s.logCounts/2 - size/2*(math.Log(2*math.Pi*fit.RSS/size)+1)
	if df := s.Readings - form.Parameters(); df > 0 {
		fit.DF, fit.Basis = float64(df), Own
		fit.SD = math.Sqrt(fit.RSS / fit.DF)
	}
	return fit
}

// residual is the residual sum of squares about two times.
func (f factor) residual(setup, unit float64) float64 {
	t := f.column(2)
	rest := t.minus(setup, f.column(0)).minus(unit, f.column(1))
	if rss := rest.dot(rest); rss >= negligible*t.dot(t) {
		return rss
	}
	return 0
}

// Judged is the fit of a step that was judged, not timed: a mean and its standard
// deviation in seconds, of a setup or of a unit as the form says. The standard
// deviation is the uncertainty of the mean (type B, infinite degrees of freedom).
func Judged(form Form, mean, sd float64) Fit {
	f := Fit{Form: form, SD: sd, DF: math.Inf(1), Basis: Judgement}
	if form == Setup {
		f.SetupSec, f.cov.aa = mean, 1
	} else {
		f.UnitSec, f.cov.bb = mean, 1
	}
	return f
}

// At is the fitted time in seconds of a reading of so many setups and counts.
func (f Fit) At(setups, count float64) float64 { return f.SetupSec*setups + f.UnitSec*count }

// AtMean is the fitted time at the readings' plain mean setups and count.
func (f Fit) AtMean() float64 { return f.At(f.meanSetups, f.meanCount) }

// Variance is that of At(setups, count), in seconds squared; meaningless where
// the Basis is NoSpread.
func (f Fit) Variance(setups, count float64) float64 {
	return f.SD * f.SD * f.cov.of(setups, count)
}

// Mean is the Variance with its degrees of freedom.
func (f Fit) Mean(setups, count float64) (variance, df float64) {
	return f.uncertainty(setups, count, 0, 0)
}

// CovarianceOf is that of At(m1, n1) and At(m2, n2), in seconds squared.
func (f Fit) CovarianceOf(m1, n1, m2, n2 float64) float64 {
	return f.SD * f.SD * (f.cov.aa*m1*m2 + f.cov.ab*(m1*n2+n1*m2) + f.cov.bb*n1*n2)
}

// Leverage is x'(X'WX)⁻¹x for x = (setups, count).
func (f Fit) Leverage(setups, count float64) float64 { return f.cov.of(setups, count) }

// of is the variance of setups·a + count·b.
func (c covariance) of(setups, count float64) float64 {
	return c.aa*setups*setups + 2*c.ab*setups*count + c.bb*count*count
}

// MeanDF is the degrees of freedom of AtMean: DF, unless grows or workers differ.
func (f Fit) MeanDF() float64 {
	_, df := f.Mean(f.meanSetups, f.meanCount)
	return df
}

// Doing is a visit that is done again: its setups and its count, and the grows that
// share it.
type Doing struct{ Setups, Count, SharedBy float64 }

// Next is the variance of the time of doings about At(setups, count), the mean
// time of all of them, with its degrees of freedom. Each of a doing's K setups is
// like one reading of count/K, whose scatter is s²·(count/K)^q; and where grows or
// workers differ, all doings are of one new grow or worker, which adds its effect
// to each setup. What grows share is borne in equal parts. A judged step adds
// nothing to its mean's variance.
func (f Fit) Next(setups, count float64, doings []Doing) (variance, df float64) {
	if f.Basis == Judgement {
		return f.Mean(setups, count)
	}
	var scatter, effects float64
	for _, d := range doings {
		scatter += d.Setups * math.Pow(d.Count/d.Setups, float64(f.Spread)) / (d.SharedBy * d.SharedBy)
		effects += d.Setups / d.SharedBy
	}
	return f.uncertainty(setups, count, scatter, effects*effects)
}

// NextReading is the variance of the time of one reading yet to come about
// At(setups, count), of a new grow or worker where they differ, with its degrees of
// freedom. A judged step adds nothing to its mean's variance.
func (f Fit) NextReading(setups, count float64) (variance, df float64) {
	if f.Basis == Judgement {
		return f.Mean(setups, count)
	}
	return f.uncertainty(setups, count, math.Pow(count, float64(f.Spread)), 1)
}

// CV is the coefficient of variation of a reading at the mean count,
// s·n̄^(q/2) over the fitted time there; false where it has none of its own, or
// that is not all by which readings differ.
func (f Fit) CV() (float64, bool) {
	if f.Basis != Own || f.BetweenSD > 0 || f.AtMean() <= 0 {
		return 0, false
	}
	return f.SD * f.rootMeanCount() / f.AtMean(), true
}

// WithCV is the fit with a spread lent to it: a coefficient of variation at the
// mean count with its degrees of freedom.
func (f Fit) WithCV(cv, df float64, basis Basis) Fit {
	f.SD = math.Abs(cv * f.AtMean() / f.rootMeanCount())
	f.DF, f.Basis = df, basis
	return f
}

func (f Fit) rootMeanCount() float64 { return math.Pow(f.meanCount, float64(f.Spread)/2) }

// R2 is 1 − RSS/TSS; false where the readings' own scatter is not known or
// there is nothing to explain.
func (f Fit) R2() (float64, bool) {
	if f.Basis != Own || f.TSS == 0 {
		return 0, false
	}
	return 1 - f.RSS/f.TSS, true
}

// ReadingsFor is how many readings in all, taken as these were, would hold the
// mean time at the mean count to ± share: the smallest M above the number of
// parameters with t(M − p)·se·√(N/M) ≤ share·mean, t at the confidence. Where
// grows or workers differ, more readings come with more of them, and t has
// degrees of freedom in proportion. False without a spread.
func (f Fit) ReadingsFor(share, confidence float64) (int, bool) {
	mean := f.AtMean()
	if f.Basis == NoSpread || mean <= 0 {
		return 0, false
	}
	p := f.Form.Parameters()
	variance, df := f.Mean(f.meanSetups, f.meanCount)
	root, each := math.Sqrt(variance*float64(f.Readings)), 1.0
	if f.between != nil {
		each = df / f.DF
	}
	enough := func(m int) bool {
		return Quantile(confidence, each*float64(m-p))*root/math.Sqrt(float64(m)) <= share*mean
	}
	normal := Quantile(confidence, math.Inf(1)) * root / (share * mean) // t is more
	if !(normal*normal < math.MaxInt32) {
		return 0, false
	}
	low := max(p, int(normal*normal)-1) // too few
	high := low + 1
	for step := 1; !enough(high); step *= 2 {
		low, high = high, high+step
		if high > math.MaxInt32 {
			return 0, false
		}
	}
	for high-low > 1 {
		if middle := (low + high) / 2; enough(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high, true
}
