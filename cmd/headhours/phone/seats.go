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
	known chan struct{}
	mu    sync.Mutex
	taken int            // by guests
	ofOne map[string]int // by address
}

func newSeats() *seats {
	return &seats{known: make(chan struct{}, maxAtOnce), ofOne: map[string]int{}}
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
	case s.known <- struct{}{}:
		return func() { <-s.known }, true
	case <-soon.C:
	case <-r.Context().Done():
	}
	return nil, false
}

func (s *seats) guest(address string) (leave func(), ok bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.taken >= maxGuestSeats || s.ofOne[address] >= maxSeatsOfOne {
		return nil, false
	}
	s.taken++
	s.ofOne[address]++
	return func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.taken--
		if s.ofOne[address]--; s.ofOne[address] == 0 {
			delete(s.ofOne, address)
		}
	}, true
}
