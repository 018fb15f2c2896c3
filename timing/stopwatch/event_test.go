package stopwatch

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An event of every kind, with all that it may have.
func everyKind() []Event {
	own := Event{Step: "sow", Grow: "g1", Workflow: "by hand", Worker: "w1", Count: known(40), Setups: known(0), People: known(2.5), Text: "two\nlines \"<&>\" \u2028é"}
	started, nexted, lotted := own, own, own
	started.Kind, nexted.Kind, lotted.Kind, lotted.Step = Start, Next, Lot, ""
	return script(
		Event{Kind: Begin, Grow: "g1", Workflow: "by hand", Worker: "w1", People: known(1), Text: "cold"},
		started, 10*second, nexted, second, lotted, Event{Kind: Pause, Text: "visitor"}, minute+5*time.Millisecond, resume, count(0),
		Event{Kind: Setups, Setups: known(3), Of: "e2"}, Event{Kind: People, People: known(3)}, Event{Kind: Note, Text: "n", Of: "e3"},
		Event{Kind: Void, Text: "v", Of: "e3"}, undo, Event{Kind: Mark, Text: "dibber board", Step: "sow"},
		Event{Kind: Amend, Of: "e2", Step: "thin", Grow: "g2", Workflow: "w", Worker: "w2", Count: known(1), Setups: known(1), People: known(1), End: at("08:10:05.250")},
		stop, Event{Kind: Undo, Of: "e4"}, end)
}

func TestLine(t *testing.T) {
	events := everyKind()
	line, err := encode(events[1])
	require.NoError(t, err)
	assert.Equal(t, `{"session":"2026-03-02T0810-w1-a3f9","seq":2,"id":"e2","kind":"start","wall":"2026-03-02T08:10:00+01:00","boot":"b1","mono":5000,`+
		`"step":"sow","grow":"g1","workflow":"by hand","worker":"w1","count":40,"setups":0,"people":2.5,"text":"two\nlines \"\u003c\u0026\u003e\" \u2028é","crc":"4b42a337"}`+"\n", string(line))
	kinds := map[EventKind]bool{}
	for _, e := range events {
		line, err := encode(e)
		require.NoError(t, err)
		again, err := decode(line)
		require.NoError(t, err)
		e.Line = 0
		assert.Equal(t, e, again)
		kinds[e.Kind] = true
	}
	assert.Len(t, kinds, len(eventKinds))
	assert.Len(t, rules, len(eventKinds))
}

func TestUTC(t *testing.T) {
	for _, wall := range []string{"2026-03-02T07:10:00Z", "2026-03-02T07:10:00.000+00:00"} {
		e, err := decode([]byte(`{"session":"` + session + `","seq":1,"id":"a","kind":"begin","wall":"` + wall + `","boot":"b","mono":0}`))
		require.NoError(t, err)
		assert.Equal(t, time.Date(2026, 3, 2, 7, 10, 0, 0, time.UTC), e.Wall)
	}
}

// Every way in which an event can be wrong by itself.
func TestBadEvents(t *testing.T) {
	long := strings.Repeat("x", 70)
	for _, c := range []struct {
		change map[string]any // of a right event; nil takes a field away
		want   string
	}{
		{map[string]any{"colour": "red"}, `unknown field "colour"`},
		{map[string]any{"kind": "begun"}, `kind "begun": want one of begin, start, `},
		{map[string]any{"kind": nil}, `kind "": want one of`},
		{map[string]any{"step": nil}, `start without "step": want one`},
		{map[string]any{"step": " sow"}, `step " sow": want no blanks about it`},
		{map[string]any{"step": "s\now"}, `step "s\now": want no control characters`},
		{map[string]any{"grow": "g\u0000"}, `want no control characters`},
		{map[string]any{"text": "a\rb"}, `text "a\rb": want no control characters`},
		{map[string]any{"end": "2026-03-02T08:10:00+01:00"}, `start takes no "end"`},
		{map[string]any{"kind": "amend", "step": nil, "of": "x"}, `amend puts nothing right`},
		{map[string]any{"kind": "void", "step": nil}, `void without "text"`},
		{map[string]any{"kind": "count", "step": nil}, `count without "count"`},
		{map[string]any{"kind": "stop"}, `stop takes no "step"`},
		{map[string]any{"of": "x"}, `start takes no "of"`},
		{map[string]any{"count": -1}, `count -1: want a number from 0.000001 to 1000000000`},
		{map[string]any{"count": 1e10}, `count 10000000000: want`},
		{map[string]any{"count": 1e300}, `count 1` + strings.Repeat("0", 59) + `…: want a number`},
		{map[string]any{"people": 0}, `people 0: want a number from 0.001 to 1000000`},
		{map[string]any{"setups": -1}, `setups -1`},
		{map[string]any{"count": "40"}, `count: found string, want a number`},
		{map[string]any{"session": nil}, `session ""`},
		{map[string]any{"session": "../../etc/2026-03-02T0810-w1-a3f9"}, `session "../../etc/`},
		{map[string]any{"session": "2026-03-02T0810-W1-a3f9"}, `want a name such as 2026-03-02T0810-w1-a3f9`},
		{map[string]any{"session": "2026-03-02T0810-w1"}, `session`},
		{map[string]any{"id": ""}, `id "": want 1 to 64 letters, digits, - and _`},
		{map[string]any{"id": long}, `id "xxx`},
		{map[string]any{"boot": "b 1"}, `boot "b 1"`},
		{map[string]any{"kind": "undo", "step": nil, "of": "a/b"}, `of "a/b"`},
		{map[string]any{"seq": 0}, `seq 0: want the number`},
		{map[string]any{"seq": 1.5}, `seq: found number 1.5, want a whole number`},
		{map[string]any{"mono": -1}, `mono -1: want milliseconds since the boot`},
		{map[string]any{"mono": 1e17}, `mono 100000000000000000`},
		{map[string]any{"wall": nil}, `wall "0001-01-01T00:00:00Z": want a time of 1970 to 9999 in whole milliseconds`},
		{map[string]any{"wall": "2026-03-02T08:10:00.0001Z"}, `wall "2026-03-02T08:10:00.0001Z"`},
		{map[string]any{"wall": "2026-03-02 08:10"}, `not an event: wall: want a time such as 2026-03-02T08:10:00+01:00`},
		{map[string]any{"kind": "amend", "step": nil, "end": "1969-12-31T23:59:59Z"}, `end "1969-12-31T23:59:59Z"`},
		{map[string]any{"text": strings.Repeat("x", maxLine)}, `longer than 65536 bytes`},
	} {
		fields := map[string]any{
			"session": session, "seq": 1, "id": "a", "kind": "start", "step": "sow", "wall": "2026-03-02T08:10:00+01:00", "boot": "b", "mono": 0,
		}
		_, err := decode(marshal(t, fields))
		require.NoError(t, err)
		for name, value := range c.change {
			fields[name] = value
			if value == nil {
				delete(fields, name)
			}
		}
		_, err = decode(marshal(t, fields))
		assert.ErrorContains(t, err, c.want, "%v", c.change)
	}
	for text, want := range map[string]string{
		``:                      "not an event: it ends too early",
		`null`:                  `not an event: want an object, {"session": …}`,
		`[]`:                    `not an event: want an object, {"session": …}`,
		`{"step":["a"]}`:        "not an event: step: found array, want a text",
		`{"count":1e400}`:       "not an event: count: found number 1e400, want a number",
		`{"count":1,"count":2}`: `not an event: the field "count" stands twice`,
		`{"Count":1}`:           `not an event: unknown field "Count"`,
		`{"seq":1,}`:            "not an event: invalid character",
		`{"wall":7}`:            "not an event: wall: want a time",
		`{"` + strings.Repeat("f", 60_000) + `":1}`: `…"`,
		`{}{}`:                "not an event: more follows on the line",
		`{"kind":"sto`:        "not an event: it ends too early",
		"{\"kind\":\"\xff\"}": "holds bytes that are not UTF-8",
	} {
		_, err := decode([]byte(text))
		assert.ErrorContains(t, err, want, text)
	}
}

func marshal(t *testing.T, v any) []byte {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	return text
}

func TestNewSession(t *testing.T) {
	when := at("08:10:59")
	for worker, want := range map[string]string{
		"w1": "2026-03-02T0810-w1-", "": "2026-03-02T0810-", "Åsa-W 2": "2026-03-02T0810-saw2-", "../../x": "2026-03-02T0810-x-",
		"abcdefghijklmnopqrstuvwxyz": "2026-03-02T0810-abcdefghijklmnopqrst-",
	} {
		name := NameSession(when, worker)
		assert.True(t, strings.HasPrefix(name, want), name)
		assert.NoError(t, checkSession(name))
		assert.NotEqual(t, name, NameSession(when, worker))
	}
}

func TestSystemClock(t *testing.T) {
	clock := SystemClock()
	a, b := clock(), clock()
	assert.Equal(t, a.Boot, b.Boot)
	assert.GreaterOrEqual(t, b.Mono, a.Mono)
	assert.NotEqual(t, a.Boot, SystemClock()().Boot)
	e := script(begin)[0]
	e.Instant = a
	assert.NoError(t, e.check())
}
