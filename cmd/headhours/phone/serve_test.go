package phone

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"io"
	"net"
	"net/http"
	"net/netip"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	go_qr "github.com/piglig/go-qr"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var address = regexp.MustCompile(`http://[^\s#]+/#[A-Z2-7]{12}\b`)

// serving is Serve at work.
type serving struct {
	out   *bytes.Buffer // to be read once it has ended
	first string        // what it printed at first, up to how to end it
	url   string        // without the key
	code  string
	key   string
	end   func() error
}

func serveIn(t *testing.T, o Options) serving {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	read, write := io.Pipe()
	o.Out, o.Err = write, t.Output()
	o.Study = deskOf(o.Dir).study
	ended := make(chan error, 1)
	go func() { ended <- Serve(ctx, o); write.Close() }()
	s := serving{out: &bytes.Buffer{}}
	var first strings.Builder
	for b := make([]byte, 4096); !strings.Contains(first.String(), "ends it."); {
		n, err := read.Read(b)
		require.NoError(t, err, "%s", first.String())
		first.Write(b[:n])
	}
	rest := make(chan struct{})
	go func() { io.Copy(s.out, read); close(rest) }()
	s.first = first.String()
	s.url, s.code, _ = strings.Cut(address.FindString(s.first), "#")
	key, err := os.ReadFile(filepath.Join(o.Dir, keyFile))
	require.NoError(t, err)
	s.key = strings.TrimSpace(string(key))
	assert.NotContains(t, s.first, s.key)
	s.end = func() error { cancel(); err := <-ended; <-rest; return err }
	return s
}

func studyIn(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	put(t, filepath.Join(dir, "study.toml"), aStudy)
	return dir
}

// send posts as the page does, over a socket.
func (s serving) send(t *testing.T, path, body string) *http.Response {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), "POST", s.url+path, strings.NewReader(body))
	require.NoError(t, err)
	name, value := cookie(s.key)
	r.AddCookie(&http.Cookie{Name: name, Value: value})
	answer, err := http.DefaultClient.Do(r)
	require.NoError(t, err)
	answer.Body.Close()
	return answer
}

func TestServe(t *testing.T) {
	dir := studyIn(t)
	s := serveIn(t, Options{Dir: dir})
	assert.Contains(t, s.first, "this computer alone")
	assert.Contains(t, s.url, "http://localhost:")
	assert.NotContains(t, s.first, "\x1b")
	require.Equal(t, http.StatusOK, s.send(t, "sessions/"+monday, lines(t, session(monday, begin("w1"), start("sow"), stop))).StatusCode)
	require.NoError(t, s.end())
	assert.Equal(t, "\nPresses saved: 3; sessions begun: 1. Phones keep what they have not sent yet.\n", s.out.String())
	_, state := held(t, deskOf(dir), monday)
	assert.Equal(t, []string{"sow 10s"}, told(state))

	again := serveIn(t, Options{Dir: dir})
	assert.Equal(t, s.key, again.key, "until a new key is wanted")
	require.NoError(t, again.end())
	fresh := serveIn(t, Options{Dir: dir, NewKey: true})
	assert.NotEqual(t, s.key, fresh.key)
	old := serving{url: fresh.url, key: s.key}
	assert.Equal(t, http.StatusUnauthorized, old.send(t, "sessions/"+monday, "").StatusCode)
	require.NoError(t, fresh.end())
}

// A batch that is on its way when the server is told to end is taken and
// answered.
func TestEndsCleanly(t *testing.T) {
	dir := studyIn(t)
	s := serveIn(t, Options{Dir: dir})
	body, half := io.Pipe()
	answered := make(chan int, 1)
	client := http.Client{Transport: &http.Transport{ExpectContinueTimeout: time.Minute}}
	go func() {
		r, _ := http.NewRequest("POST", s.url+"sessions/"+monday, body)
		r.Header.Set("Expect", "100-continue") // so the body is read once the server wants it
		name, value := cookie(s.key)
		r.AddCookie(&http.Cookie{Name: name, Value: value})
		status := 0
		if answer, err := client.Do(r); assert.NoError(t, err) {
			status = answer.StatusCode
			answer.Body.Close()
		}
		answered <- status
	}()
	text := lines(t, session(monday, begin("w1"), start("sow")))
	half.Write([]byte(text[:50]))
	ended := make(chan error, 1)
	go func() { ended <- s.end() }()
	refused := func() bool {
		c, err := net.Dial("tcp", strings.Trim(strings.TrimPrefix(s.url, "http://"), "/"))
		if err == nil {
			c.Close()
		}
		return err != nil
	}
	require.Eventually(t, refused, 10*time.Second, 5*time.Millisecond, "nobody new is let in")
	half.Write([]byte(text[50:]))
	half.Close()
	require.NoError(t, <-ended)
	assert.Equal(t, http.StatusOK, <-answered)
	contents, _ := held(t, deskOf(dir), monday)
	assert.Len(t, contents.Events, 2)
}

func TestServeErrors(t *testing.T) {
	taken, err := net.Listen("tcp4", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	port := taken.Addr().(*net.TCPAddr).Port
	dir := studyIn(t)
	err = Serve(t.Context(), Options{Dir: dir, Port: port, Study: deskOf(dir).study, Out: io.Discard, Err: io.Discard})
	require.Error(t, err)
	assert.Contains(t, err.Error(), "is taken, perhaps by another headhours phone")
	none := t.TempDir()
	err = Serve(t.Context(), Options{Dir: none, Study: deskOf(none).study, Out: io.Discard, Err: io.Discard})
	assert.ErrorIs(t, err, os.ErrNotExist)
	assert.Empty(t, tree(t, none), "no key where there is no study")
}

// On the local network the address is this computer's own, as words and as a
// code, with a warning.
func TestServeLAN(t *testing.T) {
	local, err := localNetworks()
	if errors.Is(err, errNoNetwork) {
		err := Serve(t.Context(), Options{Dir: studyIn(t), LAN: true, Study: deskOf(studyIn(t)).study, Out: io.Discard, Err: io.Discard})
		assert.ErrorIs(t, err, errNoNetwork)
		t.Skip("this computer is on no local network")
	}
	require.NoError(t, err)
	s := serveIn(t, Options{Dir: studyIn(t), LAN: true})
	assert.Contains(t, s.url, "http://"+local[0].Addr().String()+":")
	assert.Contains(t, s.first, "not encrypted")
	assert.Equal(t, s.url+"#"+s.code, scanned(t, s.first[strings.Index(s.first, "█"):strings.Index(s.first, "\nPoint")], false))
	assert.Equal(t, http.StatusNoContent, s.send(t, "key", s.code).StatusCode)
	require.NoError(t, s.end())
}

// scanned is what a camera reads of a printed code.
func scanned(t *testing.T, printed string, colour bool) string {
	t.Helper()
	rows := strings.Split(strings.TrimRight(strings.NewReplacer(blackOnWhite, "", asBefore, "").Replace(printed), "\n"), "\n")
	const scale = 4
	picture := image.NewGray(image.Rect(0, 0, scale*len([]rune(rows[0])), 2*scale*len(rows)))
	for y, row := range rows {
		for x, r := range []rune(row) {
			for half := range 2 {
				inked := r == '█' || r == '▀' && half == 0 || r == '▄' && half == 1
				level := color.Gray{255}
				if inked == colour {
					level = color.Gray{0}
				}
				for i := range scale * scale {
					picture.SetGray(scale*x+i%scale, scale*(2*y+half)+i/scale, level)
				}
			}
		}
	}
	text, err := go_qr.Decode(picture)
	require.NoError(t, err)
	return text
}

func TestCode(t *testing.T) {
	const text = "http://192.168.100.200:8737/#" + aKey
	for _, colour := range []bool{false, true} {
		printed, err := qrText(text, colour)
		require.NoError(t, err)
		assert.Equal(t, text, scanned(t, printed, colour))
		for line := range strings.Lines(printed) {
			assert.LessOrEqual(t, len([]rune(strings.NewReplacer(blackOnWhite, "", asBefore, "").Replace(line))), 60)
		}
	}
}

func TestKeyFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, keyFile)
	key, err := loadKey(dir, false)
	require.NoError(t, err)
	assert.Regexp(t, keyForm(), key)
	if runtime.GOOS != "windows" {
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode())
		require.NoError(t, os.Chmod(path, 0o644))
		_, err = loadKey(dir, false)
		assert.EqualError(t, err, path+" can be read by others on this computer (mode 0644): give --new-key for a new one")
	}
	fresh, err := loadKey(dir, true)
	require.NoError(t, err)
	assert.NotEqual(t, key, fresh)
	require.NoError(t, os.WriteFile(path, []byte("short\n"), 0o600))
	_, err = loadKey(dir, false)
	assert.EqualError(t, err, path+" holds no key: give --new-key for a new one")
	assert.Len(t, tree(t, dir), 1, "nothing is left behind")
	_, err = loadKey(filepath.Join(dir, "none"), false)
	assert.ErrorIs(t, err, os.ErrNotExist)
}

func TestRank(t *testing.T) {
	for i, a := range []string{"192.168.1.9", "10.0.0.1", "172.17.0.1"} {
		assert.Equal(t, i, rank(netip.MustParseAddr(a)))
	}
	const up = net.FlagUp | net.FlagRunning | net.FlagBroadcast
	assert.True(t, shared(up|net.FlagMulticast))
	for _, f := range []net.Flags{up | net.FlagLoopback, up | net.FlagPointToPoint, net.FlagUp | net.FlagBroadcast, net.FlagRunning | net.FlagBroadcast} {
		assert.False(t, shared(f), f)
	}
}
