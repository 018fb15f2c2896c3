package stepfit

import "math"

// A triangular factor R of weighted rows is kept row by row, R'R their matrix of
// squares and products. Keeping R rather than R'R keeps twice the digits: with the times
// as last column, its last entry is the root of the residual sum of squares itself, not a
// small difference of large numbers.

// rotateIn takes a row into a triangular factor by Givens rotations (Golub and
// Van Loan, Matrix Computations, 4th ed., sections 5.1.8 and 6.5.3). The row is
// used up.
func rotateIn(factor, row []float64) {
	width := len(row)
	for i := range row {
		if row[i] == 0 {
			continue
		}
		at := factor[i*width : (i+1)*width]
		r := hypot(at[i], row[i])
		c, s := at[i]/r, row[i]/r
		for j := i; j < width; j++ {
			at[j], row[j] = c*at[j]+s*row[j], c*row[j]-s*at[j]
		}
	}
}

// hypot is math.Hypot, but quicker for all but the largest and the smallest numbers.
func hypot(x, y float64) float64 {
	if squares := x*x + y*y; squares > 1e-200 && squares < 1e200 {
		return math.Sqrt(squares)
	}
	return math.Hypot(x, y)
}
