//go:build unix

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// sent is what a page sends of one reading of 74 seconds.
func sent(t *testing.T, session string) string {
	t.Helper()
	var b strings.Builder
	for i, e := range []stopwatch.Event{
		{Kind: stopwatch.Begin, Worker: "w1"}, {Kind: stopwatch.Start, Step: "harvest"}, {Kind: stopwatch.Count, Count: study.Known(24)}, {Kind: stopwatch.Stop},
	} {
		e.Session, e.Seq, e.ID = session, int64(i+1), session+string(rune('a'+i))
		after := 37 * time.Second * time.Duration(i)
		e.Instant = stopwatch.Instant{Wall: time.Date(2026, 3, 2, 8, 10, 0, 0, time.Local).Add(after), Boot: "b", Mono: after.Milliseconds()}
		line, err := json.Marshal(e)
		require.NoError(t, err)
		b.Write(append(line, '\n'))
	}
	return b.String()
}

// phone, presses under the computer's own name, which is not loopback, an interrupt, then
// fit: with no step between. What the page does is tested beside it, in a browser.
func TestPhoneThenFit(t *testing.T) {
	name, err := os.Hostname()
	require.NoError(t, err)
	name, _, _ = strings.Cut(name, ".")
	dir := t.TempDir()
	require.NoError(t, unpack("starter", dir))
	require.NoError(t, os.RemoveAll(filepath.Join(dir, "timings")))

	read, write := io.Pipe()
	status := make(chan int, 1)
	var errs bytes.Buffer
	go func() {
		status <- run([]string{"--study", dir, "phone", "--port", "0"}, strings.NewReader(""), write, &errs)
		write.Close()
	}()
	address := regexp.MustCompile(`http://localhost(:\d+)/#([A-Z2-7]+)`)
	var out strings.Builder
	for b := make([]byte, 1024); !address.MatchString(out.String()); {
		n, err := read.Read(b)
		require.NoError(t, err, "%s%s", out.String(), errs.String())
		out.Write(b[:n])
	}
	go io.Copy(io.Discard, read)
	found := address.FindStringSubmatch(out.String())
	port, code := found[1], found[2]

	cookies, err := cookiejar.New(nil)
	require.NoError(t, err)
	var dialer net.Dialer
	page := http.Client{Jar: cookies, Transport: &http.Transport{DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
		return dialer.DialContext(ctx, network, "127.0.0.1"+port)
	}}}
	defer page.CloseIdleConnections()
	post := func(path, body string) (status int, text string) {
		t.Helper()
		answer, err := page.Post("http://"+name+port+path, "text/plain", strings.NewReader(body))
		require.NoError(t, err)
		defer answer.Body.Close()
		all, err := io.ReadAll(answer.Body)
		require.NoError(t, err)
		return answer.StatusCode, string(all)
	}
	const session = "2026-03-02T0810-w1-a3f9"
	taken, _ := post("/sessions/"+session, sent(t, session))
	assert.Equal(t, http.StatusUnauthorized, taken, "without the code")
	taken, text := post("/key", code)
	require.Less(t, taken, 300, text)
	taken, text = post("/sessions/"+session, sent(t, session))
	require.Equal(t, http.StatusOK, taken, text)
	require.Contains(t, text, `"added":4`)

	require.NoError(t, syscall.Kill(os.Getpid(), syscall.SIGINT))
	assert.Equal(t, done, <-status, errs.String())
	var answer bytes.Buffer
	require.Equal(t, done, run([]string{"--study", dir, "fit", "--format", "json"}, nil, &answer, &errs), errs.String())
	var fit struct {
		Steps []struct {
			Step     string
			Readings int
			SetupS   float64 `json:"setup_s"`
			UnitS    float64 `json:"unit_s"`
		}
	}
	require.NoError(t, json.Unmarshal(answer.Bytes(), &fit))
	for _, s := range fit.Steps {
		if s.Step == "harvest" {
			assert.Equal(t, 1, s.Readings)
			assert.InDelta(t, 74, s.SetupS+24*s.UnitS, 1e-6)
			return
		}
	}
	assert.Fail(t, "no such step", answer.String())
}
