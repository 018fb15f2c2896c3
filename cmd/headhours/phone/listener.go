package phone

import (
	"net"
	"sync"
)

// atMost lets a listener have no more than so many connections at once; others
// wait until one ends. So a crowd cannot use up the files that journals need.
func atMost(l net.Listener, n int) net.Listener { return &bounded{l, make(chan struct{}, n)} }

type bounded struct {
	net.Listener
	seats chan struct{}
}

func (b *bounded) Accept() (net.Conn, error) {
	b.seats <- struct{}{}
	c, err := b.Listener.Accept()
	if err != nil {
		<-b.seats
		return nil, err
	}
	return &seated{Conn: c, leave: sync.OnceFunc(func() { <-b.seats })}, nil
}

// seated gives its seat up when it is closed.
type seated struct {
	net.Conn
	leave func()
}

func (s *seated) Close() error {
	defer s.leave()
	return s.Conn.Close()
}
