package phone

import (
	"crypto/hmac"
	"crypto/rand"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"
)

// A code lets one phone in, within maxCodeAge of being shown. It has 12 letters of
// an alphabet of 32, 60 bits: few enough to type, far more than can be tried where
// guesses are slowed.
const (
	codeLetters = 12
	maxCodeAge  = 10 * time.Minute
	maxFormer   = 100 // codes that are remembered to be over
)

// Bounds on guesses of an address: after the free ones each makes it wait twice as
// long.
const (
	freeGuesses = 5
	minWait     = time.Second
	maxWait     = time.Minute
	maxGuessers = 1000 // addresses that are remembered
)

// Why a code lets nobody in.
var (
	errUsedCode = errors.New("that code has let a phone in already: take the one that the computer shows now")
	errOldCode  = errors.New("that code has had its ten minutes: take the one that the computer shows now")
	errNoCode   = errors.New("that is no code of this computer: open the address that headhours phone shows now")
)

// tooSoon is the error of an address that has guessed too often.
type tooSoon struct{ wait time.Duration }

func (e tooSoon) Error() string {
	return fmt.Sprintf("too many wrong codes: wait %d s", int((e.wait+time.Second-1)/time.Second))
}

// guesses are the wrong codes of an address.
type guesses struct {
	wrong int
	until time.Time // none is looked at before
}

// codes hands out codes that work once, one at a time.
type codes struct {
	now   func() time.Time
	fresh chan string // the latest that is to be shown

	mu      sync.Mutex
	code    string
	made    time.Time
	former  []string           // those that are over, the latest last
	used    map[string]bool    // which of them have let a phone in
	guesses map[string]guesses // by address
}

func newCodes(now func() time.Time) *codes {
	c := &codes{now: now, fresh: make(chan string, 1), used: map[string]bool{}, guesses: map[string]guesses{}}
	c.renew()
	return c
}

// renew puts a new code in place of the old; who shows codes is told.
func (c *codes) renew() {
	if c.code != "" {
		c.former = append(c.former, c.code)
		if len(c.former) > maxFormer {
			delete(c.used, c.former[0])
			c.former = c.former[1:]
		}
	}
	c.code, c.made = rand.Text()[:codeLetters], c.now()
	select { // nobody waits for who shows: the latest takes the place of one not shown yet
	case <-c.fresh:
	default:
	}
	c.fresh <- c.code
}

// take lets in who comes from an address with the code, which is over by that. The
// error says why not. Where a code came too late a new one is shown.
func (c *codes) take(code, address string) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	now := c.now()
	if wait := c.guesses[address].until.Sub(now); wait > 0 {
		return tooSoon{wait}
	}
	late := now.Sub(c.made) > maxCodeAge
	switch {
	case hmac.Equal([]byte(code), []byte(c.code)) && late:
		c.renew()
		return errOldCode
	case hmac.Equal([]byte(code), []byte(c.code)):
		c.used[c.code] = true
		delete(c.guesses, address)
		c.renew()
		return nil
	case slices.Contains(c.former, code): // no guess
		if late {
			c.renew()
		}
		if c.used[code] {
			return errUsedCode
		}
		return errOldCode
	}
	c.slow(address, now)
	return errNoCode
}

// slow makes an address wait after a wrong code.
func (c *codes) slow(address string, now time.Time) {
	if len(c.guesses) >= maxGuessers {
		for a, g := range c.guesses {
			if g.until.Before(now) || len(c.guesses) >= maxGuessers {
				delete(c.guesses, a)
			}
		}
	}
	g := c.guesses[address]
	if g.wrong++; g.wrong > freeGuesses {
		g.until = now.Add(min(minWait<<min(g.wrong-freeGuesses-1, 10), maxWait))
	}
	c.guesses[address] = g
}
