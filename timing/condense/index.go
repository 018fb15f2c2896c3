package condense

// Index numbers values in order of first appearance.
type Index[T comparable] struct {
	List []T
	at   map[T]uint32
	last uint32 // that was asked for
}

// Of is the number of a value.
func (x *Index[T]) Of(value T) uint32 {
	if len(x.List) > 0 && x.List[x.last] == value {
		return x.last
	}
	at, ok := x.at[value]
	if !ok {
		if x.at == nil {
			x.at = map[T]uint32{}
		}
		at = uint32(len(x.List))
		x.at[value] = at
		x.List = append(x.List, value)
	}
	x.last = at
	return at
}

// clear forgets all values.
func (x *Index[T]) clear() {
	x.List, x.last = x.List[:0], 0
	clear(x.at)
}
