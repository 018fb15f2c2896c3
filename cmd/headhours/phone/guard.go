package phone

import (
	"crypto/hmac"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// mostAtOnce is how many requests are answered at the same time.
const mostAtOnce = 16

// guard lets a handler see only requests that a page of ours may have sent.
func guard(h http.Handler, names []string, networks []netip.Prefix) http.Handler {
	h = http.NewCrossOriginProtection().Handler(h)
	seats := make(chan struct{}, mostAtOnce)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		headers(w.Header())
		switch {
		case !near(r.RemoteAddr, networks):
			http.Error(w, "only for this computer and its local network", http.StatusForbidden)
			return
		case !ours(r.Host, names):
			http.Error(w, "this computer does not go by that name", http.StatusMisdirectedRequest)
			return
		}
		select {
		case seats <- struct{}{}:
			defer func() { <-seats }()
			h.ServeHTTP(w, r)
		default:
			http.Error(w, "busy, try again", http.StatusServiceUnavailable)
		}
	})
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

// ours says whether a Host header is an address or one of our names. A page that
// rebinds its own name to this computer's address sends that name.
func ours(host string, names []string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	if _, err := netip.ParseAddr(strings.Trim(name, "[]")); err == nil {
		return true
	}
	return slices.ContainsFunc(names, func(n string) bool { return strings.EqualFold(n, name) })
}

// keyed lets only requests through that carry the cookie of a key.
func keyed(key string, h http.HandlerFunc) http.HandlerFunc {
	name, value := cookie(key)
	return func(w http.ResponseWriter, r *http.Request) {
		c, err := r.Cookie(name)
		if err != nil || !hmac.Equal([]byte(c.Value), []byte(value)) {
			http.Error(w, "the key is missing: open the address that headhours phone has printed", http.StatusUnauthorized)
			return
		}
		h(w, r)
	}
}
