package phone

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report/browsertest"
	"headhours/report/look"
)

// faults measures what is in sight: what is pressed is 64 px or more each way
// (asked for; WCAG 2.2's 2.5.8 wants 24), words contrast 4.5 to 1 with what is
// behind them, 3 to 1 where they are large (1.4.3), the edges of what is pressed
// 3 to 1 (1.4.11), and nothing is cut off or reaches out sideways (1.4.10).
const faults = `(() => {
	const list = [], name = el => el.tagName + '#' + el.id + '.' + el.className + ' ' + el.textContent.trim().slice(0, 30);
	const seen = el => el.checkVisibility({visibilityProperty: true, contentVisibilityAuto: true}) && !el.closest('.unseen') && (!document.querySelector('dialog[open]') || el.closest('dialog'));
	const parse = c => { const [r, g, b, a = 1] = c.match(/[\d.]+/g).map(Number); return {r, g, b, a}; };
	const light = c => [c.r, c.g, c.b].map(v => v / 255).map(v => v <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4).reduce((s, v, i) => s + v * [.2126, .7152, .0722][i], 0);
	const ratio = (a, b) => { const [x, y] = [light(a), light(b)].sort((p, q) => q - p); return (x + .05) / (y + .05); };
	const ground = el => { for (; el; el = el.parentElement) { const c = parse(getComputedStyle(el).backgroundColor); if (c.a === 1) return c; } return parse('rgb(255,255,255)'); };
	let measured = 0;
	const width = document.documentElement.clientWidth; // innerWidth grows with what reaches out
	for (const el of document.querySelectorAll('button, a, summary, input:not([type=radio], [type=checkbox]), label.choice, select, textarea')) {
		if (!seen(el)) continue;
		measured++;
		const box = el.getBoundingClientRect(), style = getComputedStyle(el);
		if (box.width < 64 || box.height < 64) list.push('small ' + box.width + 'x' + box.height + ' ' + name(el));
		if (box.left < 0 || box.right > width) list.push('out of the page ' + name(el));
		if (el.scrollWidth > el.clientWidth + 1 && el.tagName !== 'INPUT' && el.tagName !== 'TEXTAREA') list.push('cut off ' + name(el));
		if (el.disabled || el.tagName === 'A' || el.classList.contains('plain')) continue;
		const edges = [parse(style.borderTopColor), parse(style.backgroundColor)].filter(c => c.a === 1).map(c => ratio(c, ground(el.parentElement)));
		if (!edges.some(r => r >= 3)) list.push('faint edge ' + edges + ' ' + name(el));
	}
	const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	for (let n; n = words.nextNode();) {
		const el = n.parentElement;
		if (!n.textContent.trim() || !seen(el) || el.closest(':disabled, script, noscript, option')) continue;
		measured++;
		const style = getComputedStyle(el), size = parseFloat(style.fontSize), large = size >= 24 || size >= 18.66 && style.fontWeight >= 700;
		const r = ratio(parse(style.color), ground(el));
		if (r < (large ? 3 : 4.5)) list.push('contrast ' + r.toFixed(2) + ' ' + name(el));
		const box = document.createRange(); box.selectNodeContents(n);
		for (const b of box.getClientRects()) if (b.left < -1 || b.right > width + 1) list.push('words out of the page ' + name(el));
		if (el.closest('.three')) for (const word of n.textContent.matchAll(/\S+/g)) {
			box.setStart(n, word.index); box.setEnd(n, word.index + word[0].length);
			if (box.getClientRects().length > 1) list.push('a word in two lines ' + name(el));
		}
	}
	if (document.documentElement.scrollWidth > width) list.push('the page is wider than the screen: ' + document.documentElement.scrollWidth);
	if (measured < 5) list.push('next to nothing to measure');
	return list;
})()`

// states are what the page looks like in use, one after the other.
func states(p *phone, s *station, see func(name string)) {
	see("idle")
	p.task("soak and fill trays")
	p.pass(83 * second)
	see("runs")
	p.tap("#count")
	see("keypad")
	p.keys("3")
	p.tap("#pause")
	see("paused")
	p.task("sow")
	p.pass(hour - second)
	p.run("tick()")
	see("hour")
	p.pass(2*minute + 3*second)
	p.tap("#more")
	p.run("tick()")
	see("long")
	p.task("thin")
	p.pass(10 * second)
	p.task("transplant")
	p.pass(10 * second)
	see("asks")
	p.press("Count …")
	p.keys("7.5")
	p.tap("#stop")
	p.tap("#readings li:last-child button")
	see("put-right")
	p.press("When it ended")
	see("when")
	p.press("Back")
	p.tap("#readings li:first-child button")
	p.press("Void")
	see("void")
	p.press("something dropped")
	p.run("document.getElementById('others').open = true; document.getElementById('today').scrollIntoView()")
	see("today")
	p.run("document.getElementById('more-of-it').scrollIntoView()")
	see("more")
	p.run("scrollTo(0, 0)")
	p.tap("#who")
	see("who")
	p.press("Back")
	s.down()
	p.task("harvest")
	p.until(`link === 'away'`)
	see("waiting")
	p.tap("#copy")
	see("copy")
	p.press("Back")
	s.up()
	p.saved()
	p.tap("#end")
	see("end")
	p.press("Later")
}

func sizesAndContrast(t *testing.T, phones *shelf) {
	measure(t, newPhone(t, phones, small), small, "", light, dark)
}

// Words twice as large, as a phone's owner sets them.
func largeText(t *testing.T, phones *shelf) {
	p := newPhone(t, phones, wide)
	words := func(px int64) {
		call(p, page.SetFontSizes, page.SetFontSizesParams{FontSizes: &page.FontSizes{Standard: px}})
	}
	words(32)
	t.Cleanup(func() { words(16) })
	measure(t, p, wide, "-large", light)
}

// measure drives a phone of one size through all states, and looks at each in all sizes
// and themes.
func measure(t *testing.T, p *phone, driven size, name string, themes ...emulation.MediaFeature) {
	s := newStation(t)
	p.prefer(themes[0], still)
	p.do(chromedp.Navigate(s.invite(p)))
	p.until(`document.getElementById('sheet').open`)
	if name == "-large" {
		require.Equal(t, "32px", eval[string](p, `getComputedStyle(document.documentElement).fontSize`))
	}
	see := func(state string) {
		t.Helper()
		for _, size := range []size{small, tall, wide} {
			p.resize(size)
			for _, theme := range themes {
				p.prefer(theme, still)
				as := fmt.Sprintf("%d-%s%s-%s", size.width, theme.Value, name, state)
				p.picture(as)
				assert.Empty(t, eval[[]string](p, faults), as)
			}
		}
		p.resize(driven)
	}
	see("first")
	p.press("Done")
	p.saved()
	states(p, s, see)
	assert.Zero(t, eval[int](p, `[...document.querySelectorAll('*')].filter(el => { const c = getComputedStyle(el); return c.animationName !== 'none' || c.transitionDuration !== '0s' }).length`), "nothing moves")
}

// The page has the colours that all pages have, and no others.
func sharedColours(t *testing.T, phones *shelf) {
	assert.NotRegexp(t, browsertest.OwnColour, pageCSS)
	s := newStation(t)
	p := newPhone(t, phones, tall)
	schemes := browsertest.Schemes(look.CSS())
	for i, theme := range []emulation.MediaFeature{light, dark} {
		p.prefer(theme)
		p.do(chromedp.Navigate(s.url(p)))
		require.Len(t, schemes[i], 14)
		for _, property := range schemes[i] {
			assert.Equal(t, property.Value, eval[string](p, fmt.Sprintf("getComputedStyle(document.documentElement).getPropertyValue(%q)", property.Name)), property.Name)
		}
		assert.Equal(t, browsertest.Computed(schemes[i][0].Value), eval[string](p, "getComputedStyle(document.body).backgroundColor"))
	}
}

// The measure itself finds what is wrong.
func faultsAreFound(t *testing.T, phones *shelf) {
	p := newPhone(t, phones, small)
	file := filepath.Join(t.TempDir(), "x.html")
	require.NoError(t, os.WriteFile(file, []byte(`<!doctype html><meta name=viewport content="width=device-width"><body style="margin:0;background:#fff">
		<button style="width:60px;height:70px;border:2px solid #eee;background:#fff">a</button><p style="color:#999">faint</p><p style="width:400px">`+strings.Repeat("wide ", 20)+`</p>`), 0o644))
	p.do(chromedp.Navigate("file://" + file))
	got := strings.Join(eval[[]string](p, faults), "\n")
	for _, want := range []string{"small 60x70 BUTTON", "faint edge", "contrast 2.85 P", "words out of the page P", "wider than the screen", "next to nothing"} {
		assert.Contains(t, got, want)
	}
}

// Everything can be reached and pressed by keyboard, and what has the focus is in
// sight.
func byKeyboard(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	tab := func(options ...chromedp.KeyOption) {
		p.typeIn(kb.Tab, options...)
		hidden := eval[bool](p, `(() => { const el = document.activeElement, b = el.getBoundingClientRect();
			const top = document.elementFromPoint(b.left + b.width / 2, b.top + b.height / 2);
			return el !== document.body && !(el.contains(top) || top?.contains(el)) })()`)
		require.False(t, hidden, eval[string](p, "document.activeElement.outerHTML"))
	}
	focus := func(id string) {
		for range 60 {
			tab()
			if eval[bool](p, fmt.Sprintf(`document.activeElement?.matches(%q)`, id)) {
				require.NotEqual(t, "none", eval[string](p, "getComputedStyle(document.activeElement).outlineStyle"))
				return
			}
		}
		require.Fail(t, "cannot be reached", id)
	}
	enter := func() { p.typeIn(kb.Enter); p.run("await turn") }
	focus(`.task[data-step="sow"]`)
	enter()
	p.pass(minute)
	focus("#more")
	p.typeIn(" ")
	p.run("await turn")
	focus("#count")
	enter()
	p.typeIn("24")
	enter()
	p.until(`!document.getElementById('sheet').open`)
	assert.True(t, eval[bool](p, `document.activeElement.id === 'count'`), "back where it was")
	focus("#note")
	enter()
	p.typeIn(kb.Escape)
	p.until(`!document.getElementById('sheet').open`)
	focus("#kept")
	for range 20 { // backwards, under what stays in sight
		tab(chromedp.KeyModifiers(chromedp.ModifierShift))
	}
	focus("#stop")
	enter()
	p.saved()
	assert.Equal(t, []string{"sow 60s of 24"}, s.readings())
}

// named holds what assistive technology is told: everything that is pressed has a
// name and a state, and what happens is said.
func named(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	assert.Equal(t, "sow started", p.text("#say"))
	tree := func() (list []string) {
		for _, n := range call(p, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{}).Nodes {
			if n.Ignored || n.Role == nil {
				continue
			}
			var role, name string
			require.NoError(t, json.Unmarshal(n.Role.Value, &role))
			if n.Name != nil {
				require.NoError(t, json.Unmarshal(n.Name.Value, &name))
			}
			switch role {
			case "button", "link", "radio", "textbox", "combobox", "dialog", "heading", "timer", "DisclosureTriangle":
				require.NotEmpty(t, strings.TrimSpace(name+map[bool]string{true: "timer"}[role == "timer"]), "%s without a name", role)
				list = append(list, role+" "+name)
			}
		}
		return list
	}
	got := strings.Join(tree(), "\n")
	for _, want := range []string{"heading sow", "timer", "button One less", "button ? seeds: count of sow, type another", "button One more", "button Next lap", "button Pause",
		"button Stop", "button Undo start sow", "heading Tasks", "button sow running: tap to stop", "button thin", "heading Today", "button tray, two seeds · g5 · w1"} {
		assert.Contains(t, got, want)
	}
	assert.Equal(t, "true", eval[string](p, `document.querySelector('.task[data-step=sow]').ariaPressed`))
	assert.Equal(t, "en", eval[string](p, "document.documentElement.lang"))
	p.tap("#count")
	got = strings.Join(tree(), "\n")
	for _, want := range []string{"dialog sow: how many?", "textbox Counted in seeds. 0 means setup alone.", "button Delete", "button Decimal point", "button Done"} {
		assert.Contains(t, got, want)
	}
	p.press("Done")
	assert.Equal(t, "Type a number, such as 24 or 7.5.", p.text(".wrong"))
	for typed, want := range map[string]string{"1,000": "1000 or 1", "2.000": "2000 or 2", "12,345": "12345 or 12.345"} {
		eval[string](p, `document.querySelector('.number').value = '`+typed+`'`)
		p.press("Done")
		assert.Equal(t, "This may be "+want+": type one of these.", p.text(".wrong"))
	}
	p.press("Back")
	for _, id := range []string{"#note", "#people", "#who", "#kept", "#copy"} {
		p.tap(id)
		assert.True(t, eval[bool](p, `document.getElementById('sheet').open`), id)
		tree()
		p.press("Back")
	}
	p.pass(minute)
	p.tap("#stop")
	assert.Equal(t, "sow stopped after 1:00", p.text("#say"))
}
