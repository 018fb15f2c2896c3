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

// phone is a tab of a phone, with its own storage.
type phone struct {
	t      *testing.T
	ctx    context.Context
	shelf  *shelf
	owner  *owner
	script page.ScriptIdentifier
	tapped map[string]time.Time // when each was, last

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

// newPhone takes up a phone; before runs on every page before its own script.
func newPhone(t *testing.T, from *shelf, s size, before string) *phone {
	t.Helper()
	p := from.take(t)
	p.set(s, before)
	return p
}

func newPhoneOn(t *testing.T, from *shelf, tab context.Context) *phone {
	return &phone{t: t, ctx: tab, shelf: from, owner: new(owner), tapped: map[string]time.Time{}}
}

// tab opens another tab on the same phone.
func (p *phone) tab(s size) *phone {
	p.t.Helper()
	q := p.shelf.take(p.t)
	q.owner = p.owner
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
	p.script = call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: clocks + before}).Identifier
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

// until waits for an expression to be true. The page looks for itself, for a second at
// a time; where it goes meanwhile, the next looks on.
func (p *phone) until(expression string) {
	p.t.Helper()
	look := `new Promise(ok => { let left = 200; (function look() {
		let is = false;
		try { is = Boolean(` + expression + `) } catch {}
		is || !left-- ? ok(is) : setTimeout(look, 5);
	})() })`
	for end := time.Now().Add(15 * time.Second); time.Now().Before(end); {
		ok, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](look, chromedp.EvalAwaitPromise))
		if err == nil && ok {
			return
		}
		if err != nil {
			time.Sleep(5 * time.Millisecond)
		}
	}
	require.Fail(p.t, "it does not come", "%s\n%s", expression, p.text("body"))
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
	p.touch(fmt.Sprintf("document.querySelector(%q)", selector))
}

// touch taps the element that an expression gives, once it is there.
func (p *phone) touch(element string) {
	p.t.Helper()
	time.Sleep(time.Until(p.tapped[element].Add(380 * time.Millisecond))) // else it would be a bounce
	p.until(`(` + element + `)?.checkVisibility({visibilityProperty: true})`)
	middle := eval[[]float64](p, `(el => { el.scrollIntoViewIfNeeded(); const b = el.getBoundingClientRect(); return [b.left + b.width / 2, b.top + b.height / 2] })(`+element+`)`)
	p.do(chromedp.TapXY(middle[0], middle[1]))
	p.tapped[element] = time.Now()
	p.run("await turn")
}

// fill puts a value into a field, as if it had been typed.
func (p *phone) fill(selector, value string) {
	p.t.Helper()
	p.run(fmt.Sprintf(`const el = document.querySelector(%q); el.value = %q; for (const kind of ['input', 'change']) el.dispatchEvent(new Event(kind, {bubbles: true}))`, selector, value))
}

// write types a text into a field.
func (p *phone) write(selector, text string) {
	p.t.Helper()
	p.run(fmt.Sprintf(`document.querySelector(%q).focus()`, selector))
	p.do(chromedp.KeyEvent(text))
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
	p.touch(fmt.Sprintf(`[...document.querySelector(document.querySelector('#sheet[open]') ? '#sheet' : '#ask').querySelectorAll('button')].find(b => b.textContent === %q)`, text))
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
