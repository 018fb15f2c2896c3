package stopwatch

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"
)

// MostLine is how many bytes a line of a journal may have, its end left out.
const MostLine = 64 << 10

var errLong = fmt.Errorf("longer than %d bytes", MostLine)

// Decode reads one event from JSON. An unknown field, more than one value, bytes
// that are not UTF-8 and whatever Check refuses are errors. The phone's events
// come in this form too.
func Decode(text []byte) (Event, error) {
	switch {
	case len(text) > MostLine:
		return Event{}, errLong
	case !utf8.Valid(text): // else json would put other letters in silence
		return Event{}, errors.New("holds bytes that are not UTF-8")
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	var e Event
	if err := d.Decode(&e); err != nil {
		return Event{}, errors.New("not an event: " + strings.TrimPrefix(err.Error(), "json: "))
	}
	if _, err := d.Token(); err != io.EOF {
		return Event{}, errors.New("not an event: more follows on the line")
	}
	e.Wall, e.End = sameZone(e.Wall), sameZone(e.End)
	return e, e.Check()
}

// sameZone keeps of a time's zone only the offset, so that it does not depend on
// where it is read.
func sameZone(t time.Time) time.Time {
	_, offset := t.Zone()
	if offset == 0 {
		return t.UTC()
	}
	return t.In(time.FixedZone("", offset))
}

// encode is an event as a line of a journal. The error is Check's, or of a line
// that is too long.
func encode(e Event) ([]byte, error) {
	if err := e.Check(); err != nil {
		return nil, err
	}
	line, err := json.Marshal(e)
	switch {
	case err != nil:
		return nil, err
	case len(line) > MostLine:
		return nil, errLong
	}
	return append(line, '\n'), nil
}
