package phone

import (
	"context"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// station is a server that can be stopped and started again.
type station struct {
	t     *testing.T
	dir   string
	desk  *desk
	port  int
	names []string // one for each phone, which so has cookies and storage of its own
	had   []*owner // whose the names are, in that order
	down  func()
}

// stations are how many there have been.
var stations atomic.Int64

func newStation(t *testing.T) *station {
	t.Helper()
	room := fmt.Sprintf("room%d.%s", stations.Add(1), growRoom)
	s := &station{t: t, dir: studyIn(t), names: []string{"one." + room, "two." + room}}
	s.up()
	t.Cleanup(func() { s.down() })
	return s
}

// up starts the server, at the port it had before.
func (s *station) up() { s.upWith(aKey) }

func (s *station) upWith(key string) {
	s.t.Helper()
	l, err := net.Listen("tcp4", fmt.Sprintf("127.0.0.1:%d", s.port))
	require.NoError(s.t, err)
	s.port = l.Addr().(*net.TCPAddr).Port
	s.desk = deskOf(s.dir)
	s.desk.key, s.desk.names = key, s.names
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- run(ctx, newServer(newHandler(s.desk), s.t.Output()), newDoor(l)) }()
	s.down = func() {
		cancel()
		require.NoError(s.t, <-ended)
		_, _, err := s.desk.recorders.close()
		require.NoError(s.t, err)
		s.down = func() {}
	}
}

// url is where a phone finds the page.
func (s *station) url(p *phone) string {
	i := slices.Index(s.had, p.owner)
	if i < 0 {
		i = len(s.had)
		s.had = append(s.had, p.owner)
	}
	return fmt.Sprintf("http://%s:%d/", s.names[i], s.port)
}

// invite is the page's address with the code that is shown now.
func (s *station) invite(p *phone) string { return s.url(p) + "#" + s.desk.codes.shown() }

// journals are the names of the sessions that stand in the study folder.
func (s *station) journals() []string {
	paths, err := filepath.Glob(filepath.Join(s.dir, "journal", "*.jsonl"))
	require.NoError(s.t, err)
	var names []string
	for _, p := range paths {
		names = append(names, strings.TrimSuffix(filepath.Base(p), ".jsonl"))
	}
	return names
}

// readings are what all journals come to, a line each.
func (s *station) readings() []string {
	var list []string
	for _, name := range s.journals() {
		contents, state := held(s.t, s.desk, name)
		require.Empty(s.t, contents.Warnings)
		list = append(list, told(state)...)
	}
	return list
}

// phone is a tab of a phone, with its own storage.
type phone struct {
	t      *testing.T
	ctx    context.Context
	shelf  *shelf
	tab    *tab
	owner  *owner
	finger bool // touches go the whole way that those of a finger go

	mu       sync.Mutex
	requests []string // URLs
	errors   []string // of scripts and policies
	warned   int      // before it was left
}

type size struct{ width, height int64 }

var (
	small = size{320, 568}
	tall  = size{390, 844}
	wide  = size{844, 390}
)

// owner is whose a phone is, which may have several tabs.
type owner struct{ _ byte }

// newPhone takes up a phone.
func newPhone(t *testing.T, from *shelf, s size) *phone {
	t.Helper()
	p := from.take(t)
	p.resize(s)
	return p
}

// another opens another tab on the same phone.
func (p *phone) another(s size) *phone {
	p.t.Helper()
	q := newPhone(p.t, p.shelf, s)
	q.owner = p.owner
	return q
}

// inHand shows the phone's window, whose touches are then those of a finger.
func (p *phone) inHand() {
	p.t.Helper()
	require.NoError(p.t, p.tab.show(p.ctx, true))
	p.finger = true
}

// resize gives the phone another screen.
func (p *phone) resize(s size) {
	p.t.Helper()
	if p.tab.size == s {
		return
	}
	call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: s.width, Height: s.height, DeviceScaleFactor: 1, Mobile: true})
	p.tab.size = s
}

// before has every page that is opened from now on run a script before its own.
func (p *phone) before(script string) {
	p.t.Helper()
	p.tab.script = call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script}).Identifier
}

// listen has the phone note what its pages ask for, and what goes wrong in them.
func (p *phone) listen() {
	p.t.Helper()
	call(p, network.Enable, network.EnableParams{})
	call(p, cdplog.Enable, cdp.Empty{})
	p.tab.heard = true
}

// hear notes what the page asks for, and what goes wrong in it.
func (p *phone) hear(ev any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch e := ev.(type) {
	case *network.EventRequestWillBeSent:
		p.requests = append(p.requests, e.Request.URL)
	case *page.EventJavascriptDialogOpening:
		p.warned++
		go chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, page.HandleJavaScriptDialog, page.HandleJavaScriptDialogParams{Accept: true})
			return err
		}))
	case *runtime.EventExceptionThrown:
		p.errors = append(p.errors, e.ExceptionDetails.Text+" "+e.ExceptionDetails.Exception.Description)
	case *cdplog.EventEntryAdded:
		if e.Entry.Source == cdplog.EntrySourceSecurity || e.Entry.Source == cdplog.EntrySourceViolation {
			p.errors = append(p.errors, e.Entry.Text)
		}
	}
}

// quiet checks that nothing was asked for but of the server, and that nothing
// went wrong.
func (p *phone) quiet(s *station) {
	p.t.Helper()
	p.mu.Lock()
	defer p.mu.Unlock()
	require.NotEmpty(p.t, p.requests)
	for _, r := range p.requests {
		require.True(p.t, strings.HasPrefix(r, s.url(p)) || r == "data:,", r)
	}
	require.Empty(p.t, p.errors)
}

// call sends a command of the browser's protocol.
func call[P, R any](p *phone, command cdp.Command[P, R], params P) R {
	p.t.Helper()
	var result R
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) (err error) {
		result, err = cdp.Call(ctx, t, command, params)
		return err
	}))
	return result
}

func (p *phone) do(actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 20*time.Second)
	defer cancel()
	require.NoError(p.t, chromedp.Do(ctx, actions...))
}

// open opens the page as its code says, and answers what is asked the first time.
func (p *phone) open(s *station, worker string) {
	p.t.Helper()
	p.do(chromedp.Navigate(s.invite(p)))
	p.until(`document.getElementById('sheet').open`)
	p.fill("#sheet input[maxlength='20']", worker)
	p.press("Done")
	p.until(`!document.getElementById('sheet').open && link === 'here'`)
}

// pictures is a folder for pictures of pages, where there are to be some.
var pictures = os.Getenv("PHONE_PICTURES")

// picture is kept where it is asked for, to be looked at.
func (p *phone) picture(name string) {
	p.t.Helper()
	if pictures == "" {
		return
	}
	png, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	require.NoError(p.t, err)
	require.NoError(p.t, os.WriteFile(filepath.Join(pictures, name+".png"), png, 0o644))
}

// dark, still and the like are what a phone's owner prefers.
func (p *phone) prefer(features ...emulation.MediaFeature) {
	p.t.Helper()
	list := make([]*emulation.MediaFeature, len(features))
	for i := range features {
		list[i] = &features[i]
	}
	p.tab.media = true
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: list})
}

var (
	dark  = emulation.MediaFeature{Name: "prefers-color-scheme", Value: "dark"}
	light = emulation.MediaFeature{Name: "prefers-color-scheme", Value: "light"}
	still = emulation.MediaFeature{Name: "prefers-reduced-motion", Value: "reduce"}
)

func removeAll(t *testing.T, path string) {
	t.Helper()
	require.NoError(t, os.RemoveAll(path))
}
