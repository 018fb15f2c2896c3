package phone

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// attackersPage is another site's page in the same browser, which has the cookie.
// It can neither read nor write, nor frame the page; a name of its own that it
// binds to our address gets it nothing either.
func attackersPage(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.saved()
	before := tree(t, s.dir)
	url := s.url(p) + "sessions/" + s.journals()[0]
	event := strings.TrimSpace(lines(t, session(s.journals()[0], begin("w9"))))
	evil := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		fmt.Fprintf(w, `<!doctype html><iframe name=into src=%q></iframe><iframe name=out></iframe>
			<form id=f method=post enctype=text/plain target=out action=%q><input name='%s' value=''></form>`, s.url(p), url, strings.ReplaceAll(event, "'", "&#39;"))
	}))
	defer evil.Close()
	p.do(chromedp.Navigate(strings.Replace(evil.URL, "127.0.0.1", evilSite, 1)))
	assert.Equal(t, "refused refused refused", eval[string](p, fmt.Sprintf(`(async () => {
		const tried = [];
		for (const options of [{credentials: 'include'}, {method: 'POST', credentials: 'include', body: %[2]q, headers: {'X-Own': '1'}}, {method: 'POST', mode: 'no-cors', credentials: 'include', body: %[2]q}])
			tried.push(await fetch(options.method ? %[1]q : %[3]q, options).then(a => a.type, () => 'refused'));
		document.getElementById('f').submit();
		await new Promise(r => setTimeout(r, 500));
		return tried.join(' ');
	})()`, url, event, s.url(p)+"study")))
	assert.Equal(t, before, tree(t, s.dir))
	assert.Equal(t, "blocked", eval[string](p, `(() => { try { return frames.into.document.body.textContent } catch { return 'blocked' } })()`))

	p.do(chromedp.Navigate(fmt.Sprintf("http://%s:%d/", evilSite, s.port)))
	assert.Contains(t, p.text("body"), "does not go by that name")
	assert.Equal(t, before, tree(t, s.dir))
}

func newKeyShutsOut(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.open(s, "w1")
	p.task("sow")
	p.saved()
	s.down()
	fresh := strings.Repeat("N", 26)
	s.upWith(fresh)
	p.pass(minute)
	p.tap("#stop")
	p.until(`document.getElementById('trouble').textContent.includes('The key has changed')`)
	assert.Equal(t, []string{"sow 0s"}, s.readings())
	p.run(`location.hash = '` + strings.Repeat("A", codeLetters) + `'`)
	p.until(`document.getElementById('trouble').textContent.includes('no code of this computer')`)
	p.run(`location.hash = '` + s.desk.codes.shown() + `'`)
	p.saved()
	assert.Equal(t, []string{"sow 60s"}, s.readings())
}

func noKey(t *testing.T, phones *shelf) {
	s := newStation(t)
	p := newPhone(t, phones, tall)
	p.do(chromedp.Navigate(s.url(p)))
	p.until(`document.getElementById('trouble').textContent.includes('Open the address')`)
	assert.NotContains(t, p.text("body"), "sow")
	assert.NotContains(t, p.text("body"), "kale")
	p.picture("no-key")
}
