package study

import (
	"bytes"
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
	_, err = ReadAtMost(iotest.ErrReader(assert.AnError), 1)
	assert.Equal(t, assert.AnError, err)
}
