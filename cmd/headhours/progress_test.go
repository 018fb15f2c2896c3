package main

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestProgress(t *testing.T) {
	var out bytes.Buffer
	now := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	p := &progress{w: &out, now: func() time.Time { return now }}
	tell := func(after time.Duration, done int64) string {
		now = now.Add(after)
		out.Reset()
		p.update(done, 1000)
		return out.String()
	}
	assert.Empty(t, tell(0, 0))
	assert.Empty(t, tell(900*time.Millisecond, 90), "not before a second")
	assert.Equal(t, "\rreading the logs ███░░░░░░░░░░░░░░░░░░░░░░░░░░░  10 %, 9s left\x1b[K", tell(100*time.Millisecond, 100))
	assert.Empty(t, tell(50*time.Millisecond, 105), "no oftener than one can read")
	assert.Equal(t, "\rreading the logs ███████████████░░░░░░░░░░░░░░░  50 %, 5s left\x1b[K", tell(3950*time.Millisecond, 500))
	assert.Equal(t, "\r\x1b[K", tell(5*time.Second, 1000), "taken away when all is read")
	assert.Empty(t, tell(time.Second, 10), "a second reading begins anew")
	assert.Contains(t, tell(time.Second, 500), " 50 %, 1s left")
	out.Reset()
	p.end()
	assert.Equal(t, "\r\x1b[K", out.String(), "an error is not written into the bar")
	p.end()
	assert.Equal(t, "\r\x1b[K", out.String())
	var none *progress
	none.update(1, 2)
	none.end()
	assert.Nil(t, (&call{stderr: &out}).newProgress(), "there is no bar in a file")
}
