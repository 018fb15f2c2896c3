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
		c, s := rotation(f[0], x)
		f[0] = c*f[0] + s*x
		f[1], y = c*f[1]+s*y, c*y-s*f[1]
		f[2], z = c*f[2]+s*z, c*z-s*f[2]
	}
	if y != 0 {
		c, s := rotation(f[4], y)
		f[4] = c*f[4] + s*y
		f[5], z = c*f[5]+s*z, c*z-s*f[5]
	}
	if z != 0 {
		c, s := rotation(f[8], z)
		f[8] = c*f[8] + s*z
	}
}

// rotation is the cosine and the sine of the angle that takes y into x.
func rotation(x, y float64) (c, s float64) {
	r := hypot(x, y)
	return x / r, y / r
}

// hypot is math.Hypot, but quicker for all but the largest and the smallest numbers.
func hypot(x, y float64) float64 {
	if squares := x*x + y*y; squares > 1e-200 && squares < 1e200 {
		return math.Sqrt(squares)
	}
	return math.Hypot(x, y)
}
