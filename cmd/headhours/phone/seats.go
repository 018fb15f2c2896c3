package phone

import (
	"net/http"
	"sync"
	"time"
)

// Bounds on requests that are answered at the same time. One has a seat only once
// all of it has come.
const (
	maxAtOnce     = 16 // of who has the key
	maxGuestSeats = 16 // of guests
	maxSeatsOfOne = 6  // of guests of one address
	maxSeatWait   = 2 * time.Second
)

// seats are places for requests.
type seats struct {
	keyed  chan struct{}
	mu     sync.Mutex
	guests int            // by guests
	ofOne  map[string]int // by address
}

func newSeats() *seats {
	return &seats{keyed: make(chan struct{}, maxAtOnce), ofOne: map[string]int{}}
}

// sit takes a seat for a request and tells how to give it up; ok is false where
// none is free. With the key one waits for a moment, a guest does not.
func (s *seats) sit(r *http.Request, hasKey bool) (leave func(), ok bool) {
	if !hasKey {
		return s.guest(hostOf(r.RemoteAddr))
	}
	soon := time.NewTimer(maxSeatWait)
	defer soon.Stop()
	select {
	case s.keyed <- struct{}{}:
		return func() { <-s.keyed }, true
	case <-soon.C:
	case <-r.Context().Done():
	}
	return nil, false
}

func (s *seats) guest(address string) (leave func(), ok bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.guests >= maxGuestSeats || s.ofOne[address] >= maxSeatsOfOne {
		return nil, false
	}
	s.guests++
	s.ofOne[address]++
	return func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.guests--
		if s.ofOne[address]--; s.ofOne[address] == 0 {
			delete(s.ofOne, address)
		}
	}, true
}
