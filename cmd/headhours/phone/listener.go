package phone

import (
	"container/list"
	"context"
	"net"
	"sync"
	"time"
)

// Bounds on connections. Guests are those that have not shown the key yet.
const (
	maxGuests      = 64              // guests at once
	maxGuestsOfOne = 24              // of them from one address
	maxKnown       = 64              // with the key
	maxGuestTime   = 3 * time.Second // for what a guest is waited for, and for a connection that says nothing
)

// door is a listener that lets everybody in at once and, where there are too many,
// sends away who came first: of one address, of all guests, or of those with the
// key. So a crowd can neither use up the files that journals need nor keep out a
// phone that comes with the key, which is a guest no longer once it has shown it.
type door struct {
	net.Listener
	mu      sync.Mutex
	guests  *list.List // of *visitor, who came first in front
	trusted *list.List
	ofOne   map[string]int // guests by address
}

func newDoor(l net.Listener) *door {
	return &door{Listener: l, guests: list.New(), trusted: list.New(), ofOne: map[string]int{}}
}

// visitor is a connection; at is its place in one of the door's lists.
type visitor struct {
	net.Conn
	door    *door
	address string
	isKnown bool
	at      *list.Element
}

// Accept waits for the next connection.
func (d *door) Accept() (net.Conn, error) {
	c, err := d.Listener.Accept()
	if err != nil {
		return nil, err
	}
	v := &visitor{Conn: c, door: d, address: hostOf(c.RemoteAddr().String())}
	d.mu.Lock()
	v.at = d.guests.PushBack(v)
	d.ofOne[v.address]++
	var leaves *visitor
	switch {
	case d.ofOne[v.address] > maxGuestsOfOne:
		leaves = d.first(v.address)
	case d.guests.Len() > maxGuests:
		leaves = d.guests.Front().Value.(*visitor)
	}
	d.mu.Unlock()
	if leaves != nil {
		leaves.Close()
	}
	return v, nil
}

// first is the guest of an address that came first.
func (d *door) first(address string) *visitor {
	for e := d.guests.Front(); e != nil; e = e.Next() {
		if v := e.Value.(*visitor); v.address == address {
			return v
		}
	}
	return nil
}

// leave takes a visitor off its list.
func (d *door) leave(v *visitor) {
	switch {
	case v.at == nil:
		return
	case v.isKnown:
		d.trusted.Remove(v.at)
	default:
		d.guests.Remove(v.at)
		if d.ofOne[v.address]--; d.ofOne[v.address] == 0 {
			delete(d.ofOne, v.address)
		}
	}
	v.at = nil
}

// sendGuestsAway closes the connections of guests, at the end.
func (d *door) sendGuestsAway() {
	d.mu.Lock()
	var all []*visitor
	for e := d.guests.Front(); e != nil; e = e.Next() {
		all = append(all, e.Value.(*visitor))
	}
	d.mu.Unlock()
	for _, v := range all {
		v.Close()
	}
}

// hasKey makes a guest one that is known.
func (v *visitor) hasKey() {
	d := v.door
	d.mu.Lock()
	var leaves *visitor
	if !v.isKnown && v.at != nil {
		d.leave(v)
		v.isKnown, v.at = true, d.trusted.PushBack(v)
		if d.trusted.Len() > maxKnown {
			leaves = d.trusted.Front().Value.(*visitor)
		}
	}
	d.mu.Unlock()
	if leaves != nil {
		leaves.Close()
	}
}

// Close closes the connection and gives its place up.
func (v *visitor) Close() error {
	v.door.mu.Lock()
	v.door.leave(v)
	v.door.mu.Unlock()
	return v.Conn.Close()
}

// SetReadDeadline sets until when there is waited for what comes: for a guest no
// longer than maxGuestTime.
func (v *visitor) SetReadDeadline(t time.Time) error { return v.Conn.SetReadDeadline(v.soon(t)) }

// SetWriteDeadline is as SetReadDeadline, for what goes out.
func (v *visitor) SetWriteDeadline(t time.Time) error { return v.Conn.SetWriteDeadline(v.soon(t)) }

// SetDeadline sets both.
func (v *visitor) SetDeadline(t time.Time) error { return v.Conn.SetDeadline(v.soon(t)) }

func (v *visitor) soon(t time.Time) time.Time {
	v.door.mu.Lock()
	isKnown := v.isKnown
	v.door.mu.Unlock()
	latest := time.Now().Add(maxGuestTime)
	if isKnown || !t.IsZero() && t.Before(latest) {
		return t
	}
	return latest
}

type visitorKey struct{}

// withVisitor tells a request's handlers whose it is; it is the server's ConnContext.
func withVisitor(ctx context.Context, c net.Conn) context.Context {
	return context.WithValue(ctx, visitorKey{}, c)
}

// showedKey says that the connection of a request has shown the key.
func showedKey(ctx context.Context) {
	if v, ok := ctx.Value(visitorKey{}).(*visitor); ok {
		v.hasKey()
	}
}

// hostOf is an address without its port.
func hostOf(remote string) string {
	if host, _, err := net.SplitHostPort(remote); err == nil {
		return host
	}
	return remote
}
