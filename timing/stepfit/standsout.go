package stepfit

import "math"

// Outlier is a reading that stands out from its step's other readings.
type Outlier struct {
	Studentised       float64 // externally studentised residual; infinite where the others agree exactly
	P                 float64 // Bonferroni's, at most 1
	SetupSec, UnitSec float64 // of the same form and spread without it
}

// standsOutBelow is the Bonferroni probability below which a reading is named.
const standsOutBelow = 0.05

// OutlierScreen tells which readings stand out from a fit; it needs two degrees of
// freedom of the fit's own.
//
// With leverage h and residual r, the scatter without a reading is
// s₍ᵢ₎² = (RSS − w r²/(1 − h)) / (df − 1), and r√w / (s₍ᵢ₎ √(1 − h)) follows t
// with df − 1 degrees of freedom (Cook and Weisberg, Residuals and Influence in
// Regression, 1982, section 2.2.2). Its two-sided probability is multiplied by
// the number of readings.
type OutlierScreen struct {
	fit   Fit
	least float64 // no reading with a nearer residual stands out
}

// Screen starts a screening of a fit's readings. False where the fit has fewer
// than two degrees of freedom of its own, or no scatter at all.
func (f Fit) Screen() (OutlierScreen, bool) {
	if f.Judged() || f.DF < 2 || f.RSS <= 0 {
		return OutlierScreen{}, false
	}
	return OutlierScreen{f, Quantile(1-standsOutBelow/float64(f.Readings), f.DF-1)}, true
}

// aHair is what a bound is relaxed by, which is more than it may be wrong by.
const aHair = 1e-6

// Check tells whether a reading of the fit stands out.
func (s *OutlierScreen) Check(r Reading) (Outlier, bool) {
	t := s.studentised(r)
	if !(math.Abs(t) > s.least*(1-aHair)) { // as nearly all
		return Outlier{}, false
	}
	out := s.outlier(r, t)
	return out, out.P < standsOutBelow
}

// studentised is a reading's externally studentised residual; no number where the fit goes
// through it whatever its time.
func (s *OutlierScreen) studentised(r Reading) float64 {
	f := &s.fit
	weight := weight(f.Spread, r.Count)
	residual := r.Seconds - f.At(r.Load)
	rest := 1 - weight*f.Leverage(r.Load)
	if rest < sameRatio {
		return math.NaN()
	}
	// what is left of the residual sum of squares without the reading
	left := f.RSS - weight*residual*residual/rest
	if left < 1e-12*f.RSS {
		left = 0 // by rounding alone
	}
	return residual * math.Sqrt(weight/rest) / math.Sqrt(left/(f.DF-1))
}

// outlier is a reading with such a residual.
func (s OutlierScreen) outlier(r Reading, studentised float64) Outlier {
	f := s.fit
	weight := weight(f.Spread, r.Count)
	out := Outlier{Studentised: studentised, P: min(1, float64(f.Readings)*TwoSided(studentised, f.DF-1))}
	out.SetupSec, out.UnitSec = f.without(r, weight*(r.Seconds-f.At(r.Load))/(1-weight*f.Leverage(r.Load)))
	return out
}

// without is the setup and the unit time with one reading taken away, by the
// formula for deleting a row (Cook and Weisberg, equation 2.2.1).
func (f Fit) without(r Reading, step float64) (setup, unit float64) {
	if f.Form.HasSetup() {
		setup = f.SetupSec - step*(f.cov.aa*r.Setups+f.cov.ab*r.Count)
	}
	if f.Form.HasUnit() {
		unit = f.UnitSec - step*(f.cov.ab*r.Setups+f.cov.bb*r.Count)
	}
	return setup, unit
}

// Within says that no reading of these sums stands out that lies within so many
// seconds × count^(q/2) of other times, q the spread of the fit that is
// screened. It may be false where there is none.
func (s OutlierScreen) Within(setupSec, unitSec, seconds float64, sums Sums) bool {
	f := s.fit
	half := -float64(f.Spread) / 2
	minRoot, maxRoot := math.Pow(sums.CountMin, half), math.Pow(sums.CountMax, half) // root weights
	setups := sums.setupsMax
	// what the times are apart, at the worst of setups and counts
	apart := math.Abs(f.SetupSec-setupSec)*setups*max(minRoot, maxRoot) +
		math.Abs(f.UnitSec-unitSec)*max(sums.CountMin*minRoot, sums.CountMax*maxRoot)
	leverage := f.cov.aa*setups*setups*square(max(minRoot, maxRoot)) + f.cov.bb*square(max(sums.CountMin*minRoot, sums.CountMax*maxRoot))
	if f.cov.ab > 0 {
		leverage *= 2
	}
	t := s.least
	// r√w/√(1−h) of a reading that just stands out, by the formula of Check
	limit := math.Sqrt(f.RSS * t * t / (f.DF - 1 + t*t) * (1 - leverage) * (1 - sameRatio))
	return seconds+apart < limit // false for a leverage of 1 or more
}

func square(x float64) float64 { return x * x }
