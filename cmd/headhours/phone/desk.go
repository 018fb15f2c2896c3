package phone

import (
	"encoding/json"
	"errors"
	"net/http"
	"net/netip"
	"time"

	"headhours/cmd/headhours/sums"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

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

// refuse says why nothing was read or written.
func refuse(w http.ResponseWriter, err error) {
	status := http.StatusServiceUnavailable
	var long *http.MaxBytesError
	var damaged study.Problems
	switch {
	case errors.As(err, &long):
		status = http.StatusRequestEntityTooLarge
	case errors.Is(err, stopwatch.ErrSession):
		status = http.StatusBadRequest
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
