package stepfit

import "math"

// A triangular factor R of weighted rows is kept row by row, R'R their matrix of
// squares and products. Keeping R rather than R'R keeps twice the digits: with the times
// as last column, its last entry is the root of the residual sum of squares itself, not a
// small difference of large numbers.

// rotateIn takes a row into a triangular factor by Givens rotations (Golub and
// Van Loan, Matrix Computations, 4th ed., sections 5.1.8 and 6.5.3), one a column.
func (f *triangle) rotateIn(row vector) {
	x, y, z := row[0], row[1], row[2]
	if x != 0 {
		c, s := rotation(f.mm, x)
		f.mm = c*f.mm + s*x
		f.mn, y = c*f.mn+s*y, c*y-s*f.mn
		f.mt, z = c*f.mt+s*z, c*z-s*f.mt
	}
	if y != 0 {
		c, s := rotation(f.nn, y)
		f.nn = c*f.nn + s*y
		f.nt, z = c*f.nt+s*z, c*z-s*f.nt
	}
	if z != 0 {
		c, s := rotation(f.tt, z)
		f.tt = c*f.tt + s*z
	}
}

// stack takes the rows of another factor and one more into a factor at once, by modified
// Gram–Schmidt, whose factor is as good as that of rotations (Å. Björck, BIT 7, 1967), with a
// root a column. False, and nothing is changed, where squares of what they hold are no numbers of
// all digits.
func (f *triangle) stack(o *triangle, row vector) bool {
	f0, f1, f2, f4, f5, f8 := f.mm, f.mn, f.mt, f.nn, f.nt, f.tt
	o0, o1, o2, o4, o5, o8 := o.mm, o.mn, o.mt, o.nn, o.nt, o.tt
	x, y, z := row[0], row[1], row[2]
	var r triangle
	if f0 != 0 || o0 != 0 || x != 0 {
		square := f0*f0 + o0*o0 + x*x
		if !hasDigits(square) {
			return false
		}
		along1, along2 := (f0*f1+o0*o1+x*y)/square, (f0*f2+o0*o2+x*z)/square
		norm := math.Sqrt(square)
		r.mm, r.mn, r.mt = norm, along1*norm, along2*norm
		f1, o1, y = f1-along1*f0, o1-along1*o0, y-along1*x
		f2, o2, z = f2-along2*f0, o2-along2*o0, z-along2*x
	}
	if f1 != 0 || f4 != 0 || o1 != 0 || o4 != 0 || y != 0 {
		square := f1*f1 + f4*f4 + o1*o1 + o4*o4 + y*y
		if !hasDigits(square) {
			return false
		}
		along := (f1*f2 + f4*f5 + o1*o2 + o4*o5 + y*z) / square
		norm := math.Sqrt(square)
		r.nn, r.nt = norm, along*norm
		f2, f5, o2, o5, z = f2-along*f1, f5-along*f4, o2-along*o1, o5-along*o4, z-along*y
	}
	if f2 != 0 || f5 != 0 || f8 != 0 || o2 != 0 || o5 != 0 || o8 != 0 || z != 0 {
		square := f2*f2 + f5*f5 + f8*f8 + o2*o2 + o5*o5 + o8*o8 + z*z
		if !hasDigits(square) {
			return false
		}
		r.tt = math.Sqrt(square)
	}
	*f = r
	return true
}

// hasDigits says whether a sum of squares has all digits: none of the larger ones is beyond the
// numbers or next to 0.
func hasDigits(squares float64) bool { return squares > 1e-200 && squares < 1e200 }

// rotation is the cosine and the sine of the angle that takes y into x.
func rotation(x, y float64) (c, s float64) {
	r := hypot(x, y)
	return x / r, y / r
}

// hypot is math.Hypot, but quicker for all but the largest and the smallest numbers.
func hypot(x, y float64) float64 {
	if squares := x*x + y*y; hasDigits(squares) {
		return math.Sqrt(squares)
	}
	return math.Hypot(x, y)
}
