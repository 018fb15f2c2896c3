package phone

import (
	"bytes"
	"io"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// How much a request may hold, in bytes.
const (
	maxBody      = 1 << 20
	maxGuestBody = 100 // of a guest: a code
)

// guard lets a handler see only requests that a page of ours may have sent, once
// all of it has come. With the key they have seats of their own.
func guard(h http.Handler, key string, names []string, networks []netip.Prefix) http.Handler {
	origins, places := http.NewCrossOriginProtection(), newSeats()
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		headers(w.Header())
		switch {
		case !near(r.RemoteAddr, networks):
			http.Error(w, "only for this computer and its local network", http.StatusForbidden)
			return
		case !isOurs(r.Host, names):
			http.Error(w, "this computer does not go by that name", http.StatusMisdirectedRequest)
			return
		}
		if err := origins.Check(r); err != nil {
			http.Error(w, err.Error(), http.StatusForbidden)
			return
		}
		hasKey := holds(r, key)
		if hasKey {
			showedKey(r.Context())
		}
		if err := readWhole(w, r, hasKey); err != nil {
			refuse(w, err)
			return
		}
		leave, ok := places.sit(r, hasKey)
		if !ok {
			http.Error(w, "busy, try again", http.StatusServiceUnavailable)
			return
		}
		defer leave()
		h.ServeHTTP(w, r)
	})
}

// readWhole reads the body of a request, so that nobody sits and waits for it. Of a
// guest no more is read than a code.
func readWhole(w http.ResponseWriter, r *http.Request, hasKey bool) error {
	if !hasKey && r.URL.Path != keyPath {
		r.Body = http.NoBody // it is refused whatever it says
		return nil
	}
	limit := int64(maxGuestBody)
	if hasKey {
		limit = maxBody
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, limit))
	r.Body = io.NopCloser(bytes.NewReader(body))
	return err
}

// headers keep a page to itself: nothing from outside, in no frame, told to
// nobody.
func headers(h http.Header) {
	h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; "+
		"img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Cache-Control", "no-store")
}

// near says whether an address is this computer's, of a kind that only local
// networks have, or of one of some networks.
func near(remote string, networks []netip.Prefix) bool {
	at, err := netip.ParseAddrPort(remote)
	if err != nil {
		return false
	}
	a := at.Addr().Unmap()
	return a.IsLoopback() || a.IsPrivate() || a.IsLinkLocalUnicast() ||
		slices.ContainsFunc(networks, func(n netip.Prefix) bool { return n.Contains(a) })
}

// isOurs says whether a Host header is an address or one of our names. A page that
// rebinds its own name to this computer's address sends that name.
func isOurs(host string, names []string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	if _, err := netip.ParseAddr(strings.Trim(name, "[]")); err == nil {
		return true
	}
	return slices.ContainsFunc(names, func(n string) bool { return strings.EqualFold(n, name) })
}

// onlyWithKey lets only requests through that carry the cookie of a key.
func onlyWithKey(key string, h http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if !holds(r, key) {
			http.Error(w, "the key is missing: open the address that headhours phone shows", http.StatusUnauthorized)
			return
		}
		h(w, r)
	}
}
