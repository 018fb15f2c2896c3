package phone

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// byHand are codes with a clock that is moved by hand.
func byHand() (c *codes, pass func(time.Duration)) {
	now := time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)
	c = newCodes(func() time.Time { return now })
	return c, func(d time.Duration) { now = now.Add(d) }
}

func TestCodeWorksOnceAndForTenMinutes(t *testing.T) {
	c, pass := byHand()
	first := <-c.fresh
	assert.Len(t, first, codeLetters)
	pass(10 * time.Minute)
	assert.NoError(t, c.take(first, "a"))
	assert.ErrorIs(t, c.take(first, "a"), errUsedCode)
	second := <-c.fresh
	assert.Equal(t, c.shown(), second, "it is shown at once")

	pass(10*time.Minute + time.Second)
	assert.ErrorIs(t, c.take(second, "b"), errOldCode)
	third := <-c.fresh
	assert.NotEqual(t, second, third, "one that works is shown to who comes too late")
	assert.ErrorIs(t, c.take(second, "b"), errOldCode)
	assert.Empty(t, c.fresh, "there is one that works")
	pass(11 * time.Minute)
	assert.ErrorIs(t, c.take(first, "b"), errUsedCode)
	assert.NoError(t, c.take(<-c.fresh, "b"), "who comes with any code of ours sees one that works")
	for range maxFormer + 1 {
		assert.NoError(t, c.take(c.shown(), "a"))
	}
	assert.LessOrEqual(t, len(c.former), maxFormer)
	assert.LessOrEqual(t, len(c.used), maxFormer)
}

// Guesses of an address are slowed, ever more; those of others and codes that were
// ours are not.
func TestGuessesAreSlowed(t *testing.T) {
	c, pass := byHand()
	for range freeGuesses {
		assert.ErrorIs(t, c.take("WRONG", "evil"), errNoCode)
	}
	looked := 0
	for range 3600 { // an hour of a guess each second
		if err := c.take("WRONG", "evil"); err == errNoCode {
			looked++
		}
		pass(time.Second)
	}
	assert.Less(t, looked, 70)
	assert.EqualError(t, c.take(c.shown(), "evil"), fmt.Sprintf("too many wrong codes: wait %d s", int(c.guesses["evil"].until.Sub(c.now()).Seconds())))
	for range 20 {
		assert.ErrorIs(t, c.take("WRONG2", fmt.Sprint("other", looked)), errNoCode)
		looked++
	}
	assert.ErrorIs(t, c.take(c.shown(), "phone"), errOldCode)
	assert.NoError(t, c.take(c.shown(), "phone"))
	pass(maxWait)
	assert.NoError(t, c.take(c.shown(), "evil"), "and let in once the wait is over")
	for i := range 2 * maxGuessers {
		c.take("WRONG", fmt.Sprint(i))
	}
	assert.LessOrEqual(t, len(c.guesses), maxGuessers)
}

// shown is the code that works now.
func (c *codes) shown() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.code
}
