package study

// Numbers beyond these are no farm's: a study that holds one is refused. Between
// them no sum, product or variance comes near the limits of a float64.
const (
	MaxNumber  = 1e12 // of any amount, time or price
	MinDivisor = 1e-9 // of what something is divided by
)
