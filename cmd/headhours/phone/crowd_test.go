package phone

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// open is a server on a desk of its own, and what it takes to end it.
func open(t *testing.T, d *desk) (address string, end func() error) {
	t.Helper()
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- run(ctx, newServer(newHandler(d), io.Discard), newDoor(l)) }()
	return l.Addr().String(), func() error { cancel(); return <-ended }
}

func dial(t *testing.T, address, text string) net.Conn {
	t.Helper()
	c, err := net.DialTimeout("tcp4", address, 2*time.Second)
	require.NoError(t, err)
	t.Cleanup(func() { c.Close() })
	io.WriteString(c, text) // one that is sent away may not hear it
	return c
}

// With hundreds of connections of guests open, idle and with bodies that do not
// come, the press of a phone with the key is answered at once, over a connection
// that it has and over a new one; and the server ends within a second.
func TestGuestsCannotBlock(t *testing.T) {
	d := newDesk(t)
	address, end := open(t, d)
	press := func(c *http.Client, name string) time.Duration {
		t.Helper()
		before := time.Now()
		r, err := http.NewRequestWithContext(t.Context(), "POST", "http://"+address+"/sessions/"+name, strings.NewReader(lines(t, session(name, begin("w1"), start("sow")))))
		require.NoError(t, err)
		cookieName, value := cookie(aKey)
		r.AddCookie(&http.Cookie{Name: cookieName, Value: value})
		answer, err := c.Do(r)
		require.NoError(t, err)
		answer.Body.Close()
		require.Equal(t, http.StatusOK, answer.StatusCode)
		return time.Since(before)
	}
	own := &http.Client{Transport: &http.Transport{}}
	press(own, monday)
	host := "Host: localhost\r\n"
	for i := range 200 {
		dial(t, address, []string{
			"", "GET / HTTP/1.1\r\n", "GET / HTTP/1.1\r\n" + host + "\r\n",
			"POST /key HTTP/1.1\r\n" + host + "Content-Length: 90\r\n\r\nA",
			"POST /sessions/" + tuesday + " HTTP/1.1\r\n" + host + "Content-Length: 900000\r\n\r\n{",
		}[i%5])
		if i%20 == 0 {
			name := fmt.Sprintf("2026-03-02T0810-w1-%04d", i)
			assert.Less(t, press(&http.Client{Transport: &http.Transport{}}, name), 200*time.Millisecond)
		}
	}
	assert.Less(t, press(own, monday), 200*time.Millisecond)
	assert.Less(t, press(&http.Client{Transport: &http.Transport{}}, tuesday), 200*time.Millisecond)
	before := time.Now()
	require.NoError(t, end())
	assert.Less(t, time.Since(before), time.Second)
}

// A guest is not waited for as long as a phone that has shown the key.
func TestGuestsAreSentAway(t *testing.T) {
	t.Parallel() // it waits
	d := newDesk(t)
	address, end := open(t, d)
	t.Cleanup(func() { assert.NoError(t, end()) })
	guests := map[string]net.Conn{}
	for _, text := range []string{"", "GET / HT", "POST /key HTTP/1.1\r\nHost: localhost\r\nContent-Length: 90\r\n\r\nA"} {
		guests[text] = dial(t, address, text)
		guests[text].SetReadDeadline(time.Now().Add(3 * maxGuestTime))
	}
	for text, c := range guests {
		_, err := io.ReadAll(c)
		assert.NoError(t, err, "it is closed by the server, %q", text)
	}
	t.Run("one of too many", func(t *testing.T) {
		first := dial(t, address, "")
		for range maxGuestsOfOne + 3 {
			dial(t, address, "")
		}
		first.SetReadDeadline(time.Now().Add(maxGuestTime / 2))
		_, err := first.Read(make([]byte, 1))
		assert.NotErrorIs(t, err, os.ErrDeadlineExceeded)
		assert.Error(t, err)
	})
}

// Nothing that a folder may hold in place of a journal makes a page or a press wait;
// it is named and what can be read is shown.
func TestJournalsThatAreNone(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	post(t, h, monday, session(monday, begin("w1"), start("sow"), stop))
	dir := d.recorders.dir
	require.NoError(t, os.Mkdir(filepath.Join(dir, "2026-03-02T0900-a-0001.jsonl"), 0o755))
	require.NoError(t, os.Symlink("2026-03-02T0900-b-0001.jsonl", filepath.Join(dir, "2026-03-02T0900-b-0001.jsonl")))
	large, err := os.Create(filepath.Join(dir, "2026-03-02T0900-c-0001.jsonl"))
	require.NoError(t, err)
	require.NoError(t, large.Truncate(65<<20))
	large.Close()
	var day struct {
		Readings []dayReading
		Problems []string
	}
	get(t, h, "/days/2026-03-02", &day)
	require.Len(t, day.Readings, 1)
	require.Len(t, day.Problems, 3)
	for i, want := range []string{"a-0001.jsonl: cannot be read: is a directory", "b-0001.jsonl", "c-0001.jsonl: is not read: holds more than 64 MiB"} {
		assert.Contains(t, day.Problems[i], want)
		assert.NotContains(t, day.Problems[i], d.dir)
	}
	w := serve(h, request("POST", "/sessions/2026-03-02T0900-a-0001", lines(t, session("2026-03-02T0900-a-0001", begin("w1")))))
	assert.Equal(t, http.StatusServiceUnavailable, w.Code)
	assert.Contains(t, w.Body.String(), "is a directory")
}

// A study that is a pipe, as slow as its writer, does not keep a server from ending.
func TestEndsWhateverItWaitsFor(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	hang := make(chan struct{})
	defer close(hang)
	ended := make(chan error, 1)
	go func() {
		ended <- Serve(ctx, Options{Dir: studyIn(t), Study: func() (study.Study, error) { <-hang; return study.Study{}, nil }, Out: io.Discard, Err: io.Discard})
	}()
	cancel()
	select {
	case err := <-ended:
		assert.NoError(t, err)
	case <-time.After(time.Second):
		assert.Fail(t, "it waits")
	}
}
