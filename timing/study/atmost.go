package study

import (
	"fmt"
	"io"
)

// TooLarge is the error of a file that holds more than so many MiB; it is to be
// written behind the file's name.
type TooLarge int

// Error says how much is read at most.
func (t TooLarge) Error() string { return fmt.Sprintf("is not read: holds more than %d MiB", int(t)) }

// ReadAtMost reads all of r, which may be a device without end. The error is that of r,
// or TooLarge.
func ReadAtMost(r io.Reader, mib int) ([]byte, error) {
	limit := mib << 20
	data, err := io.ReadAll(io.LimitReader(r, int64(limit)+1))
	if err == nil && len(data) > limit {
		return nil, TooLarge(mib)
	}
	return data, err
}
