package phone

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io"
	"net/http"
	"path"
	"strings"
	"sync"

	"headhours/report/look"
)

// assets are the page, its script and its style, which are named by what is in them:
// so a browser may keep them for good, and opens them while the computer is away.
type assets struct {
	version, html, css, js string
}

// newAssets puts the page together.
var newAssets = sync.OnceValue(func() *assets {
	a := &assets{css: look.CSS() + pageCSS, js: pageJS()}
	sum := sha256.Sum256([]byte(pageHTML + a.css + a.js))
	a.version = hex.EncodeToString(sum[:8])
	a.html = strings.ReplaceAll(pageHTML, "VERSION", a.version)
	return a
})

// forAYear lets a browser keep an answer for a year.
const forAYear = "private, max-age=31536000"

// page answers with the page. It is kept too, though its name stays: once the computer
// is there, the page asks for another that it may have.
func (a *assets) page(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Cache-Control", forAYear)
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	io.WriteString(w, a.html)
}

// part answers with the script or the style. Under the name of another version it is
// the one there is, which is not kept under that name.
func (a *assets) part(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	text, kind := "", ""
	switch path.Ext(name) {
	case ".js":
		text, kind = a.js, "text/javascript; charset=utf-8"
	case ".css":
		text, kind = a.css, "text/css; charset=utf-8"
	default:
		http.NotFound(w, r)
		return
	}
	if strings.HasPrefix(name, a.version+".") {
		w.Header().Set("Cache-Control", forAYear+", immutable")
	}
	w.Header().Set("Content-Type", kind)
	io.WriteString(w, text)
}

//go:embed page/page.html
var pageHTML string

//go:embed page/page.css
var pageCSS string

//go:embed page/*.js
var pageParts embed.FS

// pageJS is the page's script: its parts, each after those that it needs.
func pageJS() string {
	script := "'use strict';\n"
	for _, part := range []string{"clock", "fold", "disk", "press", "send", "show", "plan", "ask", "copy", "begin"} {
		text, err := pageParts.ReadFile("page/" + part + ".js")
		if err != nil {
			panic(err) // it is embedded
		}
		script += "\n" + string(text)
	}
	return script
}
