package study

import (
	"encoding/json"
	"math"
)

// Maybe is a number that may not be known. The zero value is unknown. In JSON
// the unknown is null; so is a number that is not finite.
type Maybe struct {
	Value float64
	Known bool
}

// Known is a number that is known, or the unknown where x is not finite.
func Known(x float64) Maybe {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return Maybe{}
	}
	return Maybe{x, true}
}

// Times is the number multiplied by f; the unknown stays unknown.
func (m Maybe) Times(f float64) Maybe {
	if !m.Known {
		return m
	}
	return Known(m.Value * f)
}

// Plus is the number with x added; the unknown stays unknown.
func (m Maybe) Plus(x float64) Maybe {
	if !m.Known {
		return m
	}
	return Known(m.Value + x)
}

// By is the product of two numbers, unknown where one is.
func (m Maybe) By(o Maybe) Maybe {
	if !o.Known {
		return Maybe{}
	}
	return m.Times(o.Value)
}

// And is the sum of two numbers, unknown where one is.
func (m Maybe) And(o Maybe) Maybe {
	if !o.Known {
		return Maybe{}
	}
	return m.Plus(o.Value)
}

// Over is a quotient, unknown where a part is or it is of nothing.
func (m Maybe) Over(o Maybe) Maybe {
	if !m.Known || !o.Known || o.Value == 0 {
		return Maybe{}
	}
	return Known(m.Value / o.Value)
}

// MarshalJSON writes the number, or null.
func (m Maybe) MarshalJSON() ([]byte, error) {
	if !m.Known {
		return []byte("null"), nil
	}
	return json.Marshal(m.Value)
}

// UnmarshalJSON reads a number or null.
func (m *Maybe) UnmarshalJSON(data []byte) error {
	var x *float64
	if err := json.Unmarshal(data, &x); err != nil {
		return err
	}
	*m = Maybe{}
	if x != nil {
		*m = Known(*x)
	}
	return nil
}

// Factor is a factor that leaves things as they are where it is not given.
func Factor(f Maybe) float64 {
	if !f.Known {
		return 1
	}
	return f.Value
}
