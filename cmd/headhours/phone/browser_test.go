package phone

import (
	"context"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"
	"sync"
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

	"headhours/report/browsertest"
)

// startBrowser starts a browser to which this computer is the grow room, a name
// that is not loopback: so the page is an insecure context, as on a phone.
func startBrowser(t *testing.T, flags ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	rule := chromedp.Flag("host-resolver-rules", "MAP "+growRoom+" 127.0.0.1, MAP "+evilSite+" 127.0.0.1")
	return browsertest.Start(t, append(flags, rule)...)
}

// station is a server that can be stopped and started again.
type station struct {
	t    *testing.T
	dir  string
	desk *desk
	port int
	down func()
}

func newStation(t *testing.T) *station {
	t.Helper()
	s := &station{t: t, dir: studyIn(t)}
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
	s.desk.key = key
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

func (s *station) url() string { return fmt.Sprintf("http://%s:%d/", growRoom, s.port) }

// invite is the page's address with the code that is shown now.
func (s *station) invite() string { return s.url() + "#" + s.desk.codes.shown() }

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

// clocks are the phone's, which a test moves by hand; the wall clock goes on
// through a reload. Locked is a screen that is off.
const clocks = `
const kept = (() => { try { return sessionStorage } catch { return {} } })();
const at0 = Date.parse('2026-03-02T08:10:00+01:00'), moved = {wall: Number(kept.wall || 0), mono: 1000};
let locked = false;
Date.now = () => at0 + moved.wall;
performance.now = () => moved.mono;
Object.defineProperty(document, 'hidden', {get: () => locked});
function pass(wall, mono) {
  moved.wall += wall; moved.mono += mono;
  kept.wall = moved.wall;
}
function lock(on) {
  locked = on;
  document.dispatchEvent(new Event('visibilitychange'));
}
const buzzes = [];
navigator.vibrate = ms => { buzzes.push(ms); return true; };
`

// phone is a tab of a phone of its own, with its own storage.
type phone struct {
	t       *testing.T
	ctx     context.Context
	started bool
	tapped  map[string]time.Time // when each was, last

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

// newPhone takes up a phone; before runs on every page before its own script.
func newPhone(t *testing.T, browser context.Context, s size, before string) *phone {
	t.Helper()
	ctx, cancel := chromedp.NewContext(browser, chromedp.WithNewBrowserContext())
	t.Cleanup(cancel)
	p := &phone{t: t, ctx: ctx, tapped: map[string]time.Time{}}
	p.set(s, before)
	return p
}

// tab opens another tab on the same phone.
func (p *phone) tab(s size) *phone {
	p.t.Helper()
	ctx, cancel := chromedp.NewContext(p.ctx)
	p.t.Cleanup(cancel)
	q := &phone{t: p.t, ctx: ctx, tapped: map[string]time.Time{}}
	q.set(s, "")
	return q
}

// resize gives the phone another screen.
func (p *phone) resize(s size) {
	p.t.Helper()
	p.do(chromedp.EmulateViewport(s.width, s.height, chromedp.EmulateMobile, chromedp.EmulateTouch, chromedp.EmulateScale(2)))
}

func (p *phone) set(s size, before string) {
	p.t.Helper()
	p.resize(s)
	call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: clocks + before})
	call(p, emulation.SetTimezoneOverride, emulation.SetTimezoneOverrideParams{TimezoneID: "Europe/Berlin"})
	require.NoError(p.t, chromedp.Listen(p.ctx, p.hear))
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
		require.True(p.t, strings.HasPrefix(r, s.url()) || r == "data:,", r)
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
	if !p.started { // the first call starts the tab, which lives as long as its context
		ctx, p.started = p.ctx, true
	}
	require.NoError(p.t, chromedp.Do(ctx, actions...))
}

// open opens the page as its code says, and answers what is asked the first time.
func (p *phone) open(s *station, worker string) {
	p.t.Helper()
	p.do(chromedp.Navigate(s.invite()))
	p.until(`document.getElementById('sheet').open`)
	p.do(chromedp.SetValue(chromedp.CSS("#sheet input[maxlength='20']"), worker))
	p.press("Done")
	p.until(`!document.getElementById('sheet').open && link === 'here'`)
}

// until waits for an expression to be true.
func (p *phone) until(expression string) {
	p.t.Helper()
	ok := func() bool {
		v, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](`(() => { try { return Boolean(`+expression+`) } catch { return false } })()`))
		return err == nil && v
	}
	require.Eventually(p.t, ok, 15*time.Second, 10*time.Millisecond, "%s\n%s", expression, p.text("body"))
}

func eval[T any](p *phone, expression string) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(p.t, err, expression)
	return v
}

func (p *phone) run(statement string) {
	p.t.Helper()
	eval[bool](p, "(async () => { "+statement+"; return true })()")
}

func (p *phone) text(selector string) string {
	p.t.Helper()
	return eval[string](p, fmt.Sprintf("document.querySelector(%q).innerText", selector))
}

// tap touches the middle of the element of a selector, scrolled into view, and
// waits until what came of it is kept.
func (p *phone) tap(selector string) {
	p.t.Helper()
	p.do(chromedp.Sleep(time.Until(p.tapped[selector].Add(380 * time.Millisecond)))) // else it would be a bounce
	p.do(chromedp.Tap(chromedp.CSS(selector)))
	p.tapped[selector] = time.Now()
	p.run("await turn")
}

// task taps the button of a task.
func (p *phone) task(step string) {
	p.t.Helper()
	p.tap(fmt.Sprintf(".task[data-step=%q]", step))
}

// press taps a button of the sheet, or of the question under the clock, by its
// text.
func (p *phone) press(text string) {
	p.t.Helper()
	p.run(fmt.Sprintf(`
		document.querySelectorAll('[data-tap]').forEach(b => b.removeAttribute('data-tap'));
		[...document.querySelector(document.querySelector('#sheet[open]') ? '#sheet' : '#ask').querySelectorAll('button')].find(b => b.textContent === %[1]q).setAttribute('data-tap', %[1]q)`, text))
	p.tap(fmt.Sprintf("[data-tap=%q]", text))
}

// keys types a number on the keypad.
func (p *phone) keys(number string) {
	p.t.Helper()
	for _, k := range number {
		p.press(string(k))
	}
	p.press("Done")
}

// pass lets time pass on both clocks.
func (p *phone) pass(d time.Duration) { p.skew(d, d) }

func (p *phone) skew(wall, mono time.Duration) {
	p.t.Helper()
	p.run(fmt.Sprintf("pass(%d, %d)", wall.Milliseconds(), mono.Milliseconds()))
}

// saved waits until nothing waits any more.
func (p *phone) saved() {
	p.t.Helper()
	p.run("await turn; delay = 10; send()")
	p.until(`!waiting().length && document.getElementById('saved').textContent === 'All saved'`)
}

func (p *phone) reload() {
	p.t.Helper()
	p.do(chromedp.Reload())
}

// picture is kept where it is asked for, to be looked at.
func (p *phone) picture(name string) {
	p.t.Helper()
	dir := os.Getenv("PHONE_PICTURES")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	require.NoError(p.t, err)
	require.NoError(p.t, os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644))
}

// dark, still and the like are what a phone's owner prefers.
func (p *phone) prefer(features ...emulation.MediaFeature) {
	p.t.Helper()
	list := make([]*emulation.MediaFeature, len(features))
	for i := range features {
		list[i] = &features[i]
	}
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
