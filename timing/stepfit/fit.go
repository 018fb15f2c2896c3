package stepfit

import "math"

// Form says which of the two times a model has.
type Form string

// The forms of a model, and Auto, which lets the readings decide.
const (
	auto      Form = "auto"
	SetupUnit Form = "setup+unit" // t = a·m + b·n
	Unit      Form = "unit"       // t = b·n
	Setup     Form = "setup"      // t = a·m
)

// Forms lists what a form may be asked to be.
var Forms = []Form{auto, SetupUnit, Unit, Setup}

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

	SD float64 // scatter of a reading of count 1, in seconds; of any where Spread is 0
	DF float64 // its degrees of freedom: 0 where it is not known, infinite for a judgement

	RSS           float64 // weighted residual sum of squares, about the times of a and b
	TSS           float64 // weighted, about the mean; about zero for Unit
	LogLikelihood float64 // maximum likelihood, divisor N, of independent readings

	mean Load       // the readings' plain mean
	cov  covariance // of (a, b), before it is multiplied by SD²
}

// covariance is (X'WX)⁻¹, zero where the form lacks a time.
type covariance struct{ aa, ab, bb float64 }

// fitOf is the model of a form at a spread. The readings must be able to tell its
// times, see canFit; spreads 1 and 2 need counts above 0.
func (s Sums) fitOf(form Form, spread int) Fit {
	f := s.centred[spread].factor()
	m, n, t := f.setups(), f.counts(), f.times()
	fit := Fit{
		Form: form, Spread: spread, Readings: s.Readings,
		mean: s.Mean(), TSS: s.centred[spread].squares(),
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
		fit.UnitSec = f.nt / f.nn
		fit.SetupSec = (f.mt - f.mn*fit.UnitSec) / f.mm
		tilt := f.mn / f.mm
		fit.cov.bb = 1 / (f.nn * f.nn)
		fit.cov.ab = -tilt * fit.cov.bb
		fit.cov.aa = 1/(f.mm*f.mm) + tilt*tilt*fit.cov.bb
	}
	fit.RSS = f.residual(fit.SetupSec, fit.UnitSec)
	size := float64(s.Readings)
	fit.LogLikelihood = -float64(spread)*s.logCounts/2 - size/2*(math.Log(2*math.Pi*fit.RSS/size)+1)
	if df := s.Readings - form.Parameters(); df > 0 {
		fit.DF = float64(df)
		fit.SD = math.Sqrt(fit.RSS / fit.DF)
	}
	return fit
}

// residual is the residual sum of squares about two times.
func (f triangle) residual(setup, unit float64) float64 {
	t := f.times()
	rest := t.minus(setup, f.setups()).minus(unit, f.counts())
	if rss := rest.dot(rest); rss >= negligible*t.dot(t) {
		return rss
	}
	return 0
}

// Judged is the fit of a step that was judged, not timed: a mean and its standard
// deviation in seconds, of a setup or of a unit as the form says. The standard
// deviation is the uncertainty of the mean (type B, infinite degrees of freedom).
func Judged(form Form, mean, sd float64) Fit {
	f := Fit{Form: form, SD: sd, DF: math.Inf(1)}
	if form == Setup {
		f.SetupSec, f.cov.aa = mean, 1
	} else {
		f.UnitSec, f.cov.bb = mean, 1
	}
	return f
}

// At is the fitted time of a load, in seconds.
func (f Fit) At(x Load) float64 { return f.SetupSec*x.Setups + f.UnitSec*x.Count }

// AtMean is the fitted time at the readings' plain mean load.
func (f Fit) AtMean() float64 { return f.At(f.mean) }

// Judged says that the fit is a judgement's, without a reading.
func (f Fit) Judged() bool { return f.Readings == 0 }

// Variance is that of At(x), in seconds squared; meaningless where nothing is known of
// the scatter.
func (f Fit) Variance(x Load) float64 { return f.SD * f.SD * f.cov.of(x) }

// CovarianceOf is that of At(x) and At(y), in seconds squared.
func (f Fit) CovarianceOf(x, y Load) float64 {
	return f.SD * f.SD * (f.cov.aa*x.Setups*y.Setups + f.cov.ab*(x.Setups*y.Count+x.Count*y.Setups) + f.cov.bb*x.Count*y.Count)
}

// Leverage is x'(X'WX)⁻¹x.
func (f Fit) Leverage(x Load) float64 { return f.cov.of(x) }

// of is the variance of a load's time at a variance of readings of 1.
func (c covariance) of(x Load) float64 {
	return c.aa*x.Setups*x.Setups + 2*c.ab*x.Setups*x.Count + c.bb*x.Count*x.Count
}

// Visit is a load that is done in one go, and how many grows share it.
type Visit struct {
	Load
	SharedBy float64
}

// Scatter is the variance of the time of visits about their mean: each of a visit's K
// setups is like one reading of count/K, whose scatter is s²·(count/K)^q. What grows share
// is borne in equal parts. A judgement is of a mean and has none.
func (f Fit) Scatter(visits []Visit) float64 {
	if f.Judged() {
		return 0
	}
	var scatter float64
	for _, v := range visits {
		scatter += v.Setups * math.Pow(v.Count/v.Setups, float64(f.Spread)) / (v.SharedBy * v.SharedBy)
	}
	return f.SD * f.SD * scatter
}

// OneMore is the variance of one reading of a count yet to come about its mean; 0 for a
// judgement, which is of a mean.
func (f Fit) OneMore(count float64) float64 {
	if f.Judged() {
		return 0
	}
	return f.SD * f.SD * math.Pow(count, float64(f.Spread))
}

// CV is the coefficient of variation of a reading at the mean count, s·n̄^(q/2) over the
// fitted time there; false where the readings show none.
func (f Fit) CV() (float64, bool) {
	if f.Judged() || f.DF == 0 || f.AtMean() == 0 {
		return 0, false
	}
	return math.Abs(f.SD * f.rootMeanCount() / f.AtMean()), true
}

// Variation is the same whatever the scatter rests on; false where the fitted time is not
// above 0.
func (f Fit) Variation() (float64, bool) {
	if f.AtMean() <= 0 {
		return 0, false
	}
	return f.SD * f.rootMeanCount() / f.AtMean(), true
}

// WithCV is the fit with a scatter of a coefficient of variation at the mean count.
func (f Fit) WithCV(cv float64) Fit {
	f.SD = math.Abs(cv * f.AtMean() / f.rootMeanCount())
	return f
}

// WithSD is the fit with another scatter.
func (f Fit) WithSD(sd float64) Fit {
	f.SD = sd
	return f
}

func (f Fit) rootMeanCount() float64 { return math.Pow(f.mean.Count, float64(f.Spread)/2) }

// R2 is 1 − RSS/TSS; false where the readings' own scatter is not known or
// there is nothing to explain.
func (f Fit) R2() (float64, bool) {
	if f.Judged() || f.DF == 0 || f.TSS == 0 {
		return 0, false
	}
	return 1 - f.RSS/f.TSS, true
}

// ReadingsFor is how many readings in all, taken as these were, would hold the
// mean time at the mean count to ± share: the smallest M above the number of
// parameters with t(df(M − p))·se·√(N/M) ≤ share·mean, t at the confidence and df what
// so many degrees of freedom of the readings' own are worth. False where there is no such
// number, or none below two thousand million.
func (f Fit) ReadingsFor(share, confidence float64, df func(own float64) float64) (int, bool) {
	mean := f.AtMean()
	if mean <= 0 {
		return 0, false
	}
	p := f.Form.Parameters()
	root := math.Sqrt(f.Variance(f.mean) * float64(f.Readings))
	enough := func(m int) bool {
		return Quantile(confidence, df(float64(m-p)))*root/math.Sqrt(float64(m)) <= share*mean
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

// Inverse is (X'WX)⁻¹ for setups and counts, 0 where the form lacks a time.
func (f Fit) Inverse() [2][2]float64 {
	return [2][2]float64{{f.cov.aa, f.cov.ab}, {f.cov.ab, f.cov.bb}}
}
