package phone

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"headhours/timing/stopwatch"
)

// BenchmarkPress is what a press takes, over a socket, with a million rows in the
// study's logs, while eight phones open the page again and again; the 99th of a
// hundred is the figure p99-ms. Beside it, for the disk and the machine of the moment,
// bare-p99-ms is a line written and synced with nothing of ours between.
func BenchmarkPress(b *testing.B) {
	dir := b.TempDir()
	require.NoError(b, os.Mkdir(filepath.Join(dir, "timings"), 0o755))
	require.NoError(b, os.WriteFile(filepath.Join(dir, "study.toml"), []byte(aStudy), 0o644))
	writeRows(b, filepath.Join(dir, "timings", "a.csv"), 1_000_000)
	d := deskOf(dir)
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	require.NoError(b, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- run(ctx, newServer(newHandler(d), b.Output()), newDoor(l)) }()
	at := "http://" + l.Addr().String()
	var phones sync.WaitGroup
	for range 8 {
		phones.Go(func() {
			c := &http.Client{Transport: &http.Transport{}}
			for ctx.Err() == nil {
				for _, path := range []string{"/", "/page/a.js", "/page/a.css", "/study", "/days/2026-03-02"} {
					if answer, err := c.Do(withKey(ctx, "GET", at+path, "")); err == nil {
						answer.Body.Close()
					}
				}
				select { // a phone looks again in half a minute; these in a second
				case <-ctx.Done():
				case <-time.After(time.Second):
				}
			}
		})
	}
	var took, bare []time.Duration
	beside, err := os.Create(filepath.Join(dir, "beside"))
	require.NoError(b, err)
	defer beside.Close()
	own := &http.Client{Transport: &http.Transport{}}
	for i := 0; b.Loop(); i++ {
		name := fmt.Sprintf("2026-03-02T0810-w1-%04d", i/1000)
		events := session(name, slices.Repeat([]stopwatch.Event{begin("w1"), start("sow"), count(3)}, 400)...)
		body := lines(b, events[i%1000:i%1000+1])
		before := time.Now()
		answer, err := own.Do(withKey(ctx, "POST", at+"/sessions/"+name, body))
		took = append(took, time.Since(before))
		require.NoError(b, err)
		answer.Body.Close()
		require.Equal(b, http.StatusOK, answer.StatusCode)
		before = time.Now()
		_, err = beside.WriteString(body)
		require.NoError(b, errors.Join(err, beside.Sync()))
		bare = append(bare, time.Since(before))
	}
	b.ReportMetric(p99(took), "p99-ms")
	b.ReportMetric(p99(bare), "bare-p99-ms")
	cancel()
	phones.Wait()
	require.NoError(b, <-ended)
	_, _, err = d.recorders.close()
	require.NoError(b, err)
}

// p99 is the 99th of a hundred, in milliseconds.
func p99(took []time.Duration) float64 {
	slices.Sort(took)
	return float64(took[len(took)*99/100].Microseconds()) / 1000
}

func withKey(ctx context.Context, method, url, body string) *http.Request {
	r, err := http.NewRequestWithContext(ctx, method, url, strings.NewReader(body))
	if err != nil {
		panic(err)
	}
	name, value := cookie(aKey)
	r.AddCookie(&http.Cookie{Name: name, Value: value})
	return r
}

func writeRows(b testing.TB, path string, n int) {
	f, err := os.Create(path)
	require.NoError(b, err)
	w := bufio.NewWriter(f)
	fmt.Fprintln(w, "date,grow,step,count,time")
	for i := range n {
		fmt.Fprintf(w, "2026-01-%02d,g%d,%s,%d,%d\n", 1+i%28, i/10_000, []string{"sow", "thin", "harvest"}[i%3], 20+i%50, 60+i%97)
	}
	require.NoError(b, w.Flush())
	require.NoError(b, f.Close())
}
