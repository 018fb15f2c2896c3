package answer

import "math"

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func abs(x float64) float64 { return math.Abs(x) }
