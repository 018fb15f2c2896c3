package answer

import "headhours/timing/stepfit"

// linear is a linear form in the setup and unit times of the study's steps: a
// load for each, in the study's order.
type linear []stepfit.Load

func (l linear) add(step int, load stepfit.Load) {
	l[step] = l[step].Plus(load)
}

// minus is l − o. A coefficient that is only what rounding leaves of two equal
// ones is zero, so that what two workflows share cancels exactly.
func (l linear) minus(o linear) linear {
	d := make(linear, len(l))
	for i := range l {
		d[i] = stepfit.Load{
			Setups: difference(l[i].Setups, o[i].Setups),
			Count:  difference(l[i].Count, o[i].Count),
		}
	}
	return d
}

func difference(a, b float64) float64 {
	if d := a - b; abs(d) >= 1e-9*max(abs(a), abs(b)) {
		return d
	}
	return 0
}

// plus is l + f·o.
func (l linear) plus(o linear, f float64) linear {
	sum := make(linear, len(l))
	for i := range l {
		sum[i] = l[i].Plus(o[i].Times(f))
	}
	return sum
}

// times is l with each step's load multiplied by a factor of its own for setups
// and counts.
func (l linear) times(factors linear) linear {
	product := make(linear, len(l))
	for i := range l {
		product[i] = l[i].By(factors[i])
	}
	return product
}
