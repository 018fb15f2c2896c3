package stopwatch

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"time"
	"unicode/utf8"

	"headhours/timing/words"
)

// maxLine is how many bytes a line of a journal may have, its end left out.
const maxLine = 64 << 10

var errLong = fmt.Errorf("longer than %d bytes", maxLine)

// decode reads one event from JSON, with a checksum at its end or without. An unknown
// field, one that stands twice, more than one value, bytes that are not UTF-8 and whatever
// check refuses are errors. The phone's events come in this form too.
func decode(text []byte) (Event, error) {
	switch {
	case len(text) > maxLine:
		return Event{}, errLong
	case !utf8.Valid(text): // else json would put other letters in silence
		return Event{}, errors.New("holds bytes that are not UTF-8")
	}
	text, _, err := withoutChecksum(text)
	if err != nil {
		return Event{}, err
	}
	d := json.NewDecoder(bytes.NewReader(text))
	e, err := eventOf(d)
	if err != nil {
		return Event{}, fmt.Errorf("not an event: %w", err)
	}
	if _, err := d.Token(); err != io.EOF {
		return Event{}, errors.New("not an event: more follows on the line")
	}
	e.Wall, e.End = sameZone(e.Wall), sameZone(e.End)
	return e, e.check()
}

// eventOf reads the fields of an event, each by itself: encoding/json would take the last
// of two that stand for one, and its errors speak of Go.
func eventOf(d *json.Decoder) (e Event, err error) {
	switch begin, err := d.Token(); {
	case err != nil:
		return e, broken(err)
	case begin != json.Delim('{'):
		return e, errors.New(`want an object, {"session": …}`)
	}
	fields := e.fields()
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return e, broken(err)
		}
		name := key.(string) // or it would be broken
		to, ok := fields[name]
		switch {
		case !ok:
			return e, fmt.Errorf("unknown field %s", words.Quote(name))
		case to == nil:
			return e, fmt.Errorf("the field %q stands twice", name)
		}
		if err := d.Decode(to); err != nil {
			return e, unfit(name, err)
		}
		fields[name] = nil
	}
	if _, err := d.Token(); err != nil {
		return e, broken(err)
	}
	return e, nil
}

// fields are where those of a line go, by name.
func (e *Event) fields() map[string]any {
	return map[string]any{
		"session": &e.Session, "seq": &e.Seq, "id": &e.ID, "kind": &e.Kind, "wall": &e.Wall, "boot": &e.Boot, "mono": &e.Mono,
		"of": &e.Of, "step": &e.Step, "grow": &e.Grow, "workflow": &e.Workflow, "worker": &e.Worker,
		"count": &e.Count, "setups": &e.Setups, "people": &e.People, "end": &e.End, "text": &e.Text,
	}
}

// broken is the error of text that is no JSON.
func broken(err error) error {
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		return errors.New("it ends too early")
	}
	return errors.New(words.Cause(err))
}

// unfit is the error of a field's value.
func unfit(name string, err error) error {
	_, syntax := errors.AsType[*json.SyntaxError](err)
	fault, typed := errors.AsType[*json.UnmarshalTypeError](err)
	switch {
	case syntax, err == io.EOF, err == io.ErrUnexpectedEOF:
		return broken(err)
	case !typed:
		return fmt.Errorf("%s: want a time such as 2026-03-02T08:10:00+01:00", name)
	}
	want := "a number"
	switch fault.Type.Kind() {
	case reflect.String:
		want = "a text"
	case reflect.Int64:
		want = "a whole number"
	}
	return fmt.Errorf("%s: found %s, want %s", name, words.Short(fault.Value), want)
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
	if err := e.check(); err != nil {
		return nil, err
	}
	line, err := json.Marshal(e)
	switch {
	case err != nil:
		return nil, err
	case len(line)+checksumSize > maxLine:
		return nil, errLong
	}
	return append(withChecksum(line), '\n'), nil
}
