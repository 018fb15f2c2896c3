package phone

import (
	"encoding/json"
	"fmt"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

const (
	second = time.Second
	minute = time.Minute
	hour   = time.Hour
)

// clocks are the phone's, which a test moves by hand; the wall clock goes on
// through a reload. Locked is a screen that is off.
const clocks = `
const realNow = performance.now.bind(performance);
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

// hands are what the page is used with, from within: what it takes from outside is many
// messages between processes, for each touch. Between two touches as much time passes for
// events as a finger takes to be no bounce.
const hands = `
let rests = 0;
const stamp0 = Object.getOwnPropertyDescriptor(Event.prototype, 'timeStamp').get;
Object.defineProperty(Event.prototype, 'timeStamp', {get() { return stamp0.call(this) + rests; }});
// soon gives what a function gives, once that is true, or else what it gives at last.
async function soon(look, ms) {
  for (const end = realNow() + ms; ; await new Promise(ok => setTimeout(ok, 5))) {
    let is;
    try { is = look(); } catch {}
    if (is || realNow() > end) return is;
  }
}
// reach scrolls an element into view once it is there, and says where its middle is, that
// nothing lies over.
async function reach(find) {
  const el = await soon(() => { const el = find(); return el?.checkVisibility({visibilityProperty: true}) && el; }, 15000);
  if (!el) throw new Error('it is not there');
  el.scrollIntoViewIfNeeded();
  const b = el.getBoundingClientRect(), x = b.left + b.width / 2, y = b.top + b.height / 2, there = document.elementFromPoint(x, y);
  if (!el.contains(there)) throw new Error('over it lies ' + there?.outerHTML);
  rests += 400;
  return {x, y, there};
}
// touch presses it, and waits until what came of it is kept.
async function touch(find) {
  const {there} = await reach(find);
  there.closest('button, a, input, select, textarea, summary, label')?.focus();
  there.click();
  await turn;
}
`

// until waits for an expression to be true. The page looks for itself; where it goes
// meanwhile, the next looks on.
func (p *phone) until(expression string) {
	p.t.Helper()
	look := `soon(() => Boolean(` + expression + `), 2000)`
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

// asOwner has the page take what an expression does for what the phone's owner does.
func asOwner(p *runtime.EvaluateParams) { p.UserGesture = new(true) }

func eval[T any](p *phone, expression string) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise, asOwner))
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
	find := "() => " + element
	if !p.finger {
		p.run("await touch(" + find + ")")
		return
	}
	middle := eval[[]float64](p, "reach("+find+").then(({x, y}) => [x, y])")
	p.do(chromedp.TapXY(middle[0], middle[1]))
	p.run("await turn")
}

// fill puts a value into a field, as if it had been typed.
func (p *phone) fill(selector, value string) {
	p.t.Helper()
	p.run(fmt.Sprintf(`const el = document.querySelector(%s); el.value = %s; for (const kind of ['input', 'change']) el.dispatchEvent(new Event(kind, {bubbles: true}))`, inJS(selector), inJS(value)))
}

// write types a text into a field.
func (p *phone) write(selector, text string) {
	p.t.Helper()
	p.run(fmt.Sprintf(`document.querySelector(%q).focus()`, selector))
	call(p, input.InsertText, input.InsertTextParams{Text: text})
}

// typeIn types keys, none so soon after another that it would be a bounce. What a key does
// is a matter of the events that follow it; where the page takes the first for itself, a
// browser leaves out the second, as it does for a keyboard's own, which are raw.
func (p *phone) typeIn(keys string, options ...chromedp.KeyOption) {
	p.t.Helper()
	p.run("rests += 400")
	for _, r := range keys {
		for _, k := range kb.Encode(r) {
			if k.Type == kb.KeyDown {
				k.Type = input.DispatchKeyEventTypeRawKeyDown
			}
			for _, o := range options {
				o(k)
			}
			call(p, input.DispatchKeyEvent, *k)
		}
	}
}

// task taps the button of a task.
func (p *phone) task(step string) {
	p.t.Helper()
	p.tap(fmt.Sprintf(".task[data-step=%q]", step))
}

// pressed is a button of the sheet, or of the question under the clock, by its text.
func pressed(text string) string {
	return fmt.Sprintf(`[...document.querySelector(document.querySelector('#sheet[open]') ? '#sheet' : '#ask').querySelectorAll('button')].find(b => b.textContent === %s)`, inJS(text))
}

// press taps a button by its text.
func (p *phone) press(text string) {
	p.t.Helper()
	p.touch(pressed(text))
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

// inJS is a text as a script has it.
func inJS(text string) string {
	b, _ := json.Marshal(text)
	return string(b)
}
