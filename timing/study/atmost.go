package study

import (
	"bytes"
	"fmt"
	"io"
	"slices"
)

// TooLarge is the error of a file that holds more than so many MiB; it is to be
// written behind the file's name.
type TooLarge int

// Error says how much is read at most.
func (t TooLarge) Error() string { return fmt.Sprintf("is not read: holds more than %d MiB", int(t)) }

// ReadAtMost reads all of r, which may be a device without end. The error is that of r,
// or TooLarge. It reads piece by piece, so that what is too large is never copied.
func ReadAtMost(r io.Reader, mib int) ([]byte, error) {
	var pieces [][]byte
	left := mib<<20 + 1
	for size := minPiece; left > 0; size = min(2*size, maxPiece) {
		size = min(size, left)
		piece := bytes.NewBuffer(make([]byte, 0, size+bytes.MinRead))
		n, err := piece.ReadFrom(io.LimitReader(r, int64(size)))
		if err != nil {
			return nil, err
		}
		pieces, left = append(pieces, piece.Bytes()), left-int(n)
		switch {
		case int(n) == size:
		case len(pieces) == 1:
			return pieces[0], nil
		default:
			return slices.Concat(pieces...), nil
		}
	}
	return nil, TooLarge(mib)
}

const (
	minPiece = 32 << 10
	maxPiece = 4 << 20
)
