package study

import (
	"bytes"
	"io"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
)

type zeros struct{}

func (zeros) Read(b []byte) (int, error) { return len(b), nil }

func TestReadAtMost(t *testing.T) {
	data, err := ReadAtMost(bytes.NewReader(make([]byte, 1<<20)), 1)
	assert.NoError(t, err)
	assert.Len(t, data, 1<<20)
	_, err = ReadAtMost(bytes.NewReader(make([]byte, 1<<20+1)), 1)
	assert.Equal(t, TooLarge(1), err)
	_, err = ReadAtMost(zeros{}, 2)
	assert.EqualError(t, err, "is not read: holds more than 2 MiB")
	for _, size := range []int{0, 1, minPiece - 1, minPiece, minPiece + 1, 3 * minPiece, 1 << 20} {
		want := bytes.Repeat([]byte("0123456789"), size/10+1)[:size]
		data, err = ReadAtMost(iotest.HalfReader(bytes.NewReader(want)), 1)
		assert.NoError(t, err)
		assert.True(t, bytes.Equal(want, data), size)
	}
	_, err = ReadAtMost(io.MultiReader(bytes.NewReader(make([]byte, 1<<18)), iotest.ErrReader(io.ErrUnexpectedEOF)), 1)
	assert.Equal(t, io.ErrUnexpectedEOF, err)
	_, err = ReadAtMost(iotest.ErrReader(assert.AnError), 1)
	assert.Equal(t, assert.AnError, err)
}
