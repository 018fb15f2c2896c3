package phone

import (
	"net/http"
	"strconv"
)

// newHandler serves the page to anybody and all else to who has the key.
func newHandler(d *desk) http.Handler {
	mux := http.NewServeMux()
	assets := newAssets()
	mux.HandleFunc("GET /{$}", assets.page)
	mux.HandleFunc("GET /page/{name}", assets.part)
	mux.HandleFunc("POST "+keyPath, d.exchange)
	mux.HandleFunc("POST /sessions/{session}", onlyWithKey(d.key, d.takeBatch))
	mux.HandleFunc("GET /study", onlyWithKey(d.key, d.answerStudy))
	mux.HandleFunc("GET /days/{date}", onlyWithKey(d.key, d.answerDay))
	mux.HandleFunc("GET /report", onlyWithKey(d.key, d.answerReport))
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
