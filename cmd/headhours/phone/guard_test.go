package phone

import (
	"fmt"
	"net/http"
	"net/netip"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Names that a browser finds on this computer: one that the tests' servers go by
// and another.
const (
	growRoom = "growroom.test"
	evilSite = "evil.test"
)

// Without the key nothing of the study is to be had, and nothing is written.
func TestWithoutTheKey(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	put(t, d.reportFile(), "<p>kale</p>")
	post(t, h, monday, session(monday, begin("w1"), start("sow")))
	before := tree(t, d.dir)
	name, value := cookie(aKey)
	_, other := cookie("BBCDEFGHIJKLMNOPQRSTUVWXYZ")
	for _, c := range []http.Cookie{{}, {Name: name}, {Name: name, Value: aKey}, {Name: name, Value: other}, {Name: "headhours", Value: value}, {Name: name, Value: value[1:]}} {
		for _, r := range []*http.Request{
			request("GET", "/study", ""), request("GET", "/days/2026-03-02", ""), request("GET", "/report", ""), request("HEAD", "/report", ""),
			request("POST", "/sessions/"+tuesday, lines(t, session(tuesday, begin("w9")))),
			request("POST", "/sessions/"+monday, lines(t, session(monday, begin("w1"), start("sow"), stop))),
		} {
			r.Header.Del("Cookie")
			r.AddCookie(&c)
			w := serve(h, r)
			assert.Equal(t, http.StatusUnauthorized, w.Code, "%s %s with %q", r.Method, r.URL, c.Value)
			for _, secret := range []string{"kale", "sow", "w1", aKey, value} {
				assert.NotContains(t, w.Body.String(), secret)
			}
		}
	}
	for _, path := range []string{"/", "/page/a.css", "/page/a.js"} {
		r := request("GET", path, "")
		r.Header.Del("Cookie")
		w := serve(h, r)
		assert.Equal(t, http.StatusOK, w.Code)
		assert.NotContains(t, w.Body.String(), "kale")
	}
	assert.Equal(t, before, tree(t, d.dir))
}

// guest is a request of one that has no cookie yet.
func guest(method, path, body string) *http.Request {
	r := request(method, path, body)
	r.Header.Del("Cookie")
	return r
}

func TestCodeForCookie(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	code := d.codes.shown()
	for _, wrong := range []string{"", "ABC", strings.ToLower(code), code + "A", aKey} {
		w := serve(h, guest("POST", "/key", wrong))
		assert.Equal(t, http.StatusForbidden, w.Code, wrong)
		assert.Empty(t, w.Result().Cookies())
	}
	assert.Equal(t, http.StatusRequestEntityTooLarge, serve(h, guest("POST", "/key", strings.Repeat(aKey, 4))).Code)
	assert.Equal(t, http.StatusMethodNotAllowed, serve(h, guest("GET", "/key", "")).Code)
	w := serve(h, guest("POST", "/key", code))
	require.Equal(t, http.StatusNoContent, w.Code)
	require.Len(t, w.Result().Cookies(), 1)
	c := w.Result().Cookies()[0]
	assert.True(t, c.HttpOnly)
	assert.Equal(t, http.SameSiteStrictMode, c.SameSite)
	assert.Equal(t, "/", c.Path)
	assert.Empty(t, c.Domain)
	assert.NotContains(t, c.Value, aKey)
	r := request("GET", "/study", "")
	r.Header.Set("Cookie", c.Name+"="+c.Value)
	assert.Equal(t, http.StatusOK, serve(h, r).Code)

	w = serve(h, guest("POST", "/key", code))
	assert.Equal(t, http.StatusForbidden, w.Code)
	assert.Contains(t, w.Body.String(), "has let a phone in already")
	fresh := d.codes.shown()
	assert.NotEqual(t, code, fresh)
	assert.Equal(t, http.StatusNoContent, serve(h, request("POST", "/key", fresh)).Code, "it is in")
	assert.Equal(t, fresh, d.codes.shown(), "for another phone")
	assert.Equal(t, http.StatusNoContent, serve(h, guest("POST", "/key", fresh)).Code)
}

// What an attacker's page or machine may send gets nowhere, even with the cookie.
func TestGuard(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	before := tree(t, d.dir)
	path, body := "/sessions/"+monday, lines(t, session(monday, begin("w1")))
	for _, c := range []struct {
		name   string
		change func(*http.Request)
		code   int
	}{
		{"a name bound to our address", func(r *http.Request) { r.Host = "evil.example:8737" }, http.StatusMisdirectedRequest},
		{"a name that begins like ours", func(r *http.Request) { r.Host = "localhost.evil.example" }, http.StatusMisdirectedRequest},
		{"an address within a name", func(r *http.Request) { r.Host = "192.168.1.5.evil.example" }, http.StatusMisdirectedRequest},
		{"no name", func(r *http.Request) { r.Host = "" }, http.StatusMisdirectedRequest},
		{"another site's form", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }, http.StatusForbidden},
		{"another port's page", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "same-site") }, http.StatusForbidden},
		{"an old browser's form", func(r *http.Request) {
			r.Header.Del("Sec-Fetch-Site")
			r.Header.Set("Origin", "http://evil.example")
		}, http.StatusForbidden},
		{"from the internet", func(r *http.Request) { r.RemoteAddr = "203.0.113.9:1000" }, http.StatusForbidden},
		{"from the internet, IPv6", func(r *http.Request) { r.RemoteAddr = "[2001:db8::1]:1000" }, http.StatusForbidden},
		{"from nowhere", func(r *http.Request) { r.RemoteAddr = "@" }, http.StatusForbidden},
		{"by another method", func(r *http.Request) { r.Method = "PUT" }, http.StatusMethodNotAllowed},
		{"by GET", func(r *http.Request) { r.Method = "GET" }, http.StatusMethodNotAllowed},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := request("POST", path, body)
			c.change(r)
			assert.Equal(t, c.code, serve(h, r).Code)
			assert.Equal(t, before, tree(t, d.dir))
		})
	}
	for _, host := range []string{"localhost:8737", "LOCALHOST:8737", "192.168.1.5:8737", "192.168.1.5", "[::1]:8737", "[fe80::1]", growRoom + ":1"} {
		r := request("GET", "/study", "")
		r.Host = host
		assert.Equal(t, http.StatusOK, serve(h, r).Code, host)
	}
	for _, remote := range []string{"127.0.0.1:9", "10.1.2.3:9", "172.16.0.1:9", "192.168.0.9:9", "169.254.3.4:9", "[::1]:9", "[fe80::1]:9", "[fd00::1]:9", "[::ffff:192.168.0.9]:9"} {
		r := request("GET", "/study", "")
		r.RemoteAddr = remote
		assert.Equal(t, http.StatusOK, serve(h, r).Code, remote)
	}
	networks := []netip.Prefix{netip.MustParsePrefix("203.0.113.5/24")}
	assert.True(t, near("203.0.113.9:1000", networks), "a network of public addresses that this computer is on")
	assert.False(t, near("203.0.114.9:1000", networks))
}

func TestHeaders(t *testing.T) {
	h := newHandler(newDesk(t))
	for _, path := range []string{"/", "/page/a.js", "/study", "/no/such"} {
		got := serve(h, request("GET", path, "")).Header()
		assert.Contains(t, got.Get("Content-Security-Policy"), "default-src 'none'")
		assert.NotContains(t, got.Get("Content-Security-Policy"), "unsafe")
		assert.Equal(t, "nosniff", got.Get("X-Content-Type-Options"))
		assert.Equal(t, "no-referrer", got.Get("Referrer-Policy"))
		if path != "/" { // which holds nothing of a study
			assert.Equal(t, "no-store", got.Get("Cache-Control"), path)
		}
		assert.Empty(t, got.Get("Access-Control-Allow-Origin"))
	}
}

// Looking at everything changes nothing.
func TestGetChangesNothing(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	post(t, h, monday, session(monday, begin("w1"), start("sow"), stop))
	put(t, filepath.Join(d.dir, "journal", tuesday+".jsonl"), `{"torn`)
	before := tree(t, d.dir)
	for _, path := range []string{"/", "/page.css", "/page.js", "/study", "/days/2026-03-02", "/days/2026-03-03", "/report", "/sessions/" + monday, "/key", "/no/such", "//", "/../study.toml"} {
		for _, method := range []string{"GET", "HEAD", "OPTIONS"} {
			serve(h, request(method, path, ""))
		}
	}
	assert.Equal(t, before, tree(t, d.dir))
}

// More requests of guests than seats are sent away, not queued; those with the key
// have seats of their own.
func TestCrowd(t *testing.T) {
	hold, inside := make(chan struct{}), make(chan struct{}, maxGuestSeats)
	h := guard(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !holds(r, aKey) {
			inside <- struct{}{}
			<-hold
		}
	}), aKey, []string{"localhost"}, nil)
	from := func(i int) *http.Request {
		r := guest("GET", "/", "")
		r.RemoteAddr = fmt.Sprintf("192.168.1.%d:50000", i)
		return r
	}
	ended := make(chan int, maxGuestSeats)
	for i := range maxGuestSeats {
		go func() { ended <- serve(h, from(i/maxSeatsOfOne)).Code }()
	}
	for range maxGuestSeats {
		<-inside
	}
	assert.Equal(t, http.StatusServiceUnavailable, serve(h, from(0)).Code, "too many of one address")
	assert.Equal(t, http.StatusServiceUnavailable, serve(h, from(99)).Code, "too many in all")
	assert.Equal(t, http.StatusOK, serve(h, request("GET", "/", "")).Code)
	close(hold)
	for range maxGuestSeats {
		assert.Equal(t, http.StatusOK, <-ended)
	}
	assert.Equal(t, http.StatusOK, serve(h, from(99)).Code)
}

func TestBoundsOnSlowClients(t *testing.T) {
	s := newServer(http.NotFoundHandler(), t.Output())
	for _, d := range []time.Duration{s.ReadHeaderTimeout, s.ReadTimeout, s.WriteTimeout, s.IdleTimeout} {
		assert.Greater(t, d, time.Duration(0))
		assert.LessOrEqual(t, d, time.Minute)
	}
	assert.Positive(t, s.MaxHeaderBytes)
}
