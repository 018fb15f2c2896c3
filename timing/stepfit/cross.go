package stepfit

// Cross is what readings of a form and spread come to beside fitted times β: β'S β, S β
// and β'v, where S = X'WX and v = X'Wt, for setups and for counts. The form takes the
// columns that it lacks out.
type Cross struct {
	Square float64    // β'S β, the weighted squares of the fitted times
	Column [2]float64 // S β: of setups, of counts
	Timed  float64    // β'v, the fitted times against the readings'
}

// Add takes in what other readings come to beside the same fit.
func (c *Cross) Add(o Cross) {
	c.Square += o.Square
	c.Timed += o.Timed
	c.Column[0] += o.Column[0]
	c.Column[1] += o.Column[1]
}

// Cross is that of a fit, which may be of other readings of the same step.
func (s Sums) Cross(f Fit) Cross {
	r := s.centred[f.Spread].factor()
	m, n, t := r.setups(), r.counts(), r.times()
	fitted := m.times(f.SetupSec).plus(n.times(f.UnitSec))
	c := Cross{Square: fitted.dot(fitted), Timed: fitted.dot(t)}
	if f.Form.HasSetup() {
		c.Column[0] = m.dot(fitted)
	}
	if f.Form.HasUnit() {
		c.Column[1] = n.dot(fitted)
	}
	return c
}

// Cross is that of one reading.
func (r Reading) Cross(f Fit) Cross {
	fitted, w := f.At(r.Load), weight(f.Spread, r.Count)
	c := Cross{Square: w * fitted * fitted, Timed: w * fitted * r.Seconds}
	if f.Form.HasSetup() {
		c.Column[0] = w * fitted * r.Setups
	}
	if f.Form.HasUnit() {
		c.Column[1] = w * fitted * r.Count
	}
	return c
}
