package phone

import (
	"bytes"
	"embed"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"net/netip"
	"strconv"
	"strings"
	"time"

	"headhours/cmd/headhours/sums"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// Bounds on a request.
const (
	maxBody  = 1 << 20 // bytes
	maxBatch = 1000    // events
)

// keyPath is where a code is exchanged for the cookie.
const keyPath = "/key"

//go:embed page/page.html
var pageHTML string

//go:embed page/page.css
var pageCSS string

//go:embed page/*.js
var pageParts embed.FS

// pageJS is the page's script: its parts, each after those that it needs.
func pageJS() string {
	script := "'use strict';\n"
	for _, part := range []string{"clock", "fold", "disk", "press", "send", "show", "plan", "ask", "copy", "begin"} {
		text, err := pageParts.ReadFile("page/" + part + ".js")
		if err != nil {
			panic(err) // it is embedded
		}
		script += "\n" + string(text)
	}
	return script
}

// desk is what the handler works on.
type desk struct {
	dir       string // the study folder
	key       string
	names     []string       // host names that the server goes by
	networks  []netip.Prefix // that phones may be on, beside those that are private by their addresses
	study     func() (study.Study, error)
	codes     *codes
	usual     *sums.Keeper
	recorders *recorders
	now       func() time.Time // told to phones, whose clocks may be off; nil: it is not
}

// newHandler serves the page to anybody and all else to who has the key.
func newHandler(d *desk) http.Handler {
	mux := http.NewServeMux()
	assets := newAssets()
	mux.HandleFunc("GET /{$}", assets.page)
	mux.HandleFunc("GET /page/{name}", assets.part)
	mux.HandleFunc("POST "+keyPath, d.exchange)
	mux.HandleFunc("POST /sessions/{session}", keyed(d.key, d.take))
	mux.HandleFunc("GET /study", keyed(d.key, d.describe))
	mux.HandleFunc("GET /days/{date}", keyed(d.key, d.day))
	mux.HandleFunc("GET /report", keyed(d.key, d.report))
	return guard(d.withClock(mux), d.key, d.names, d.networks)
}

// withClock tells phones what time it is.
func (d *desk) withClock(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if d.now != nil {
			w.Header().Set("Headhours-Now", strconv.FormatInt(d.now().UnixMilli(), 10))
		}
		h.ServeHTTP(w, r)
	})
}

// aYear is how long a cookie lasts, in seconds; browsers keep none much longer.
const aYear = 365 * 24 * 60 * 60

// exchange gives the cookie for a code that is shown. One that has the cookie
// keeps it, and the code is left for another.
func (d *desk) exchange(w http.ResponseWriter, r *http.Request) {
	if holds(r, d.key) {
		w.WriteHeader(http.StatusNoContent)
		return
	}
	code, err := io.ReadAll(r.Body)
	if err != nil {
		refuse(w, err)
		return
	}
	if err := d.codes.take(string(code), hostOf(r.RemoteAddr)); err != nil {
		status := http.StatusForbidden
		if soon, ok := errors.AsType[tooSoon](err); ok {
			w.Header().Set("Retry-After", strconv.Itoa(int(soon.wait/time.Second)+1))
			status = http.StatusTooManyRequests
		}
		http.Error(w, err.Error(), status)
		return
	}
	showedKey(r.Context())
	name, value := cookie(d.key)
	http.SetCookie(w, &http.Cookie{Name: name, Value: value, Path: "/", MaxAge: aYear, HttpOnly: true, SameSite: http.SameSiteStrictMode})
	w.WriteHeader(http.StatusNoContent)
}

// refused is an event of a batch, by its number from 1, that is none.
type refused struct {
	Event int    `json:"event"`
	Why   string `json:"why"`
}

// take writes a batch, an event of the session a line, into the journal. An
// answer without an error says that all but the refused events stand there, and
// that those never will; with one, that none does yet.
func (d *desk) take(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body) // all of it is here
	if err != nil {
		refuse(w, err)
		return
	}
	session := r.PathValue("session")
	lines := bytes.Split(bytes.TrimSuffix(body, []byte("\n")), []byte("\n"))
	if len(lines) > maxBatch {
		http.Error(w, "too many events in one batch", http.StatusRequestEntityTooLarge)
		return
	}
	batch, wrong := decode(session, lines)
	done, err := d.recorders.take(session, batch)
	if err != nil {
		refuse(w, err)
		return
	}
	reply(w, struct {
		Held     int       `json:"held"` // events of the session in the journal
		Added    int       `json:"added"`
		Refused  []refused `json:"refused"`
		Warnings []string  `json:"warnings"`
	}{done.held, done.added, wrong, d.warnings(done.state)})
}

// decode reads the lines of a batch.
func decode(session string, lines [][]byte) (batch []stopwatch.Event, wrong []refused) {
	wrong = []refused{}
	for i, line := range lines {
		e, err := stopwatch.Decode(line)
		if err == nil && e.Session != session {
			err = errors.New("is of another session")
		}
		if err != nil {
			wrong = append(wrong, refused{i + 1, err.Error()})
			continue
		}
		batch = append(batch, e)
	}
	return batch, wrong
}

// warnings are a session's, with those of names that the study has not.
func (d *desk) warnings(s stopwatch.State) []string {
	list := texts(s.Warnings)
	study, err := d.study()
	if err != nil {
		return append(list, strings.Split(err.Error(), "\n")...)
	}
	return append(list, unknown(study, s, d.usual.Ours)...)
}

// refuse says why nothing was read or written.
func refuse(w http.ResponseWriter, err error) {
	status := http.StatusServiceUnavailable
	var long *http.MaxBytesError
	var damaged study.Problems
	switch {
	case errors.As(err, &long):
		status = http.StatusRequestEntityTooLarge
	case errors.Is(err, errFlood):
		status = http.StatusTooManyRequests
	case errors.As(err, &damaged):
		status = http.StatusConflict
	}
	http.Error(w, err.Error(), status)
}

// reply writes JSON, all of it or none.
func reply(w http.ResponseWriter, value any) {
	text, err := json.Marshal(value)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Write(text)
}
