package phone

import (
	"errors"
	"io"
	"net/http"
	"strconv"
	"time"
)

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
