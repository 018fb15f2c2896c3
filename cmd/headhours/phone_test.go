//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report/browsertest"
)

// phone, taps, an interrupt, then fit: with no step between, and under the
// computer's own name, which is not loopback.
func TestPhoneThenFit(t *testing.T) {
	name, err := os.Hostname()
	require.NoError(t, err)
	name, _, _ = strings.Cut(name, ".")
	browser := browsertest.Start(t, chromedp.Flag("host-resolver-rules", "MAP "+name+" 127.0.0.1"))
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
	address := regexp.MustCompile(`http://localhost(:\d+/#[A-Z2-7]+)`)
	var out strings.Builder
	for b := make([]byte, 1024); !address.MatchString(out.String()); {
		n, err := read.Read(b)
		require.NoError(t, err, "%s%s", out.String(), errs.String())
		out.Write(b[:n])
	}
	go io.Copy(io.Discard, read)

	until := func(expression string) {
		t.Helper()
		require.Eventually(t, func() bool {
			ok, err := chromedp.Run(browser, chromedp.Evaluate[bool]("(() => { try { return Boolean("+expression+") } catch { return false } })()"))
			return err == nil && ok
		}, 20*time.Second, 10*time.Millisecond, expression)
	}
	tap := func(selector string) {
		t.Helper()
		require.NoError(t, chromedp.Do(browser, chromedp.Tap(chromedp.CSS(selector))))
	}
	require.NoError(t, chromedp.Do(browser, chromedp.EmulateViewport(390, 844, chromedp.EmulateMobile, chromedp.EmulateTouch),
		chromedp.Navigate((&url.URL{Scheme: "http", Host: name}).String()+address.FindStringSubmatch(out.String())[1])))
	until(`document.getElementById('sheet').open`)
	tap("#sheet .main")
	until(`!document.getElementById('sheet').open && link === 'here'`)
	tap(".task")
	step, err := chromedp.Run(browser, chromedp.Text(chromedp.CSS(".task span")))
	require.NoError(t, err)
	until(`document.getElementById('clock').textContent === '0:01'`)
	tap("#more")
	until(`target().count === 1`)
	tap("#stop")
	until(`!running() && !waiting().length`)

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
		if s.Step == step {
			assert.Equal(t, 1, s.Readings)
			assert.Greater(t, s.SetupS+s.UnitS, 1.0)
			assert.Less(t, s.SetupS+s.UnitS, 60.0)
			return
		}
	}
	assert.Fail(t, "no such step", "%q in %s", step, answer.String())
}
