package page

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/report"
	"headhours/timing/answer"
	"headhours/timing/folder"
)

// Studies of this module: the demo, one worked through in R, and the one that
// init starts, which has no readings.
const (
	demo    = "../../cmd/headhours/demo"
	chard   = "../../testdata/reference/study_chard"
	starter = "../../cmd/headhours/starter"
)

// once is a study of one way of working, each step timed once, nothing priced.
const once = `
[study]
name = "basil in jars"
heads = 24
[[step]]
name = "sow"
per = "seed"
hazards = ["repetition"]
[[step]]
name = "harvest"
per = "head"
[[workflow]]
name = "only way"
tasks = [ { step = "sow", day = 0, count = "seeds" }, { step = "harvest", day = 35, count = "heads" } ]
`

// never is a study of which nothing is known.
const never = `
[study]
heads = 24
[[step]]
name = "sow"
[[workflow]]
name = "only way"
tasks = [ { step = "sow", day = 0, count = "seeds" } ]
`

// bad is a name that must do nothing anywhere.
const bad = `<b>x</b>`

// hostile is a study whose names are HTML, Markdown, formulas and control marks.
const hostile = `
[study]
name = "<script>alert(1)</script>"
heads = 10
currency = "EUR"
[[step]]
name = "<b>x</b>"
per = "=1+1"
hazards = ["lifting"]
[[step]]
name = "=1+1"
[[step]]
name = "[a](http://example.org)"
[[workflow]]
name = "<img src=x onerror=alert(1)>"
tasks = [ { step = "<b>x</b>", day = 0, count = "seeds" }, { step = "=1+1", day = 3, count = "once" }, { step = "[a](http://example.org)", day = 4, count = "once" } ]
[[workflow]]
name = "=2+2"
tasks = [ { step = "<b>x</b>", day = 0, count = "cells" }, { step = "=1+1", day = 3, count = "once" } ]
[[supply]]
name = "\u202e<i>y</i>"
count = "cells"
price = 0.1
[labour]
wage = 10
[[change]]
name = "</style><b>z</b>"
step = "<b>x</b>"
unit_factor = 0.5
outlay = 10
`

const hostileLog = "step,count,time,worker,void\n<b>x</b>,10,70,<b>x</b>,\n<b>x</b>,20,120,=1+1,\n<b>x</b>,31,200,=1+1,\n<b>x</b>,5,50,=1+1,<u>why</u>\n=1+1,1,60,=1+1,\n"

// written is a study folder with one log.
func written(t *testing.T, study, log string) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "timings"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "study.toml"), []byte(study), 0o644))
	if log != "" {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "timings", "a.csv"), []byte(log), 0o644))
	}
	return dir
}

func wholeOf(t *testing.T, dir string) report.Whole {
	t.Helper()
	inside := func(path string) string { return "timings/" + filepath.Base(path) } // as the command names them
	opened, err := folder.Open(dir, nil, folder.How{Sums: true, Name: inside})
	require.NoError(t, err)
	asked := report.WholeOptions{Heads: opened.Study.Heads, Assurance: 0.95}
	for _, f := range opened.Files {
		asked.Files = append(asked.Files, report.SourceFile{Name: f.Name, SHA256: f.SHA256, Readings: f.Readings})
	}
	w, err := report.Gather(answer.NewModels(opened.Readings, answer.Options{}), asked)
	require.NoError(t, err)
	return w
}

func htmlOf(t *testing.T, w report.Whole) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteHTML(&b, w))
	return b.String()
}

func markdownOf(t *testing.T, w report.Whole) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteMarkdown(&b, w))
	return b.String()
}

// laidOut is what studies and pages are made of once for all tests, which leave them as
// they are.
var laidOut struct {
	sync.Mutex
	studies map[string]report.Whole
	pages   map[string]string
}

// studies are all that the tests lay out, by name.
func studies(t *testing.T) map[string]report.Whole {
	t.Helper()
	laidOut.Lock()
	defer laidOut.Unlock()
	if laidOut.studies == nil {
		laidOut.studies = freshStudies(t)
	}
	return maps.Clone(laidOut.studies)
}

// pages are the HTML of all studies.
func pages(t *testing.T) map[string]string {
	t.Helper()
	all := studies(t)
	laidOut.Lock()
	defer laidOut.Unlock()
	if laidOut.pages == nil {
		laidOut.pages = map[string]string{}
		for name, w := range all {
			laidOut.pages[name] = htmlOf(t, w)
		}
	}
	return laidOut.pages
}

func freshStudies(t *testing.T) map[string]report.Whole {
	return map[string]report.Whole{
		"demo": wholeOf(t, demo), "chard": wholeOf(t, chard), "starter": wholeOf(t, starter),
		"once":    wholeOf(t, written(t, once, "step,count,time\nsow,24,3:10\nharvest,22,14:02\n")),
		"never":   wholeOf(t, written(t, never, "")),
		"hostile": wholeOf(t, written(t, hostile, hostileLog)),
		"large":   wholeOf(t, written(t, large(), "step,count,time\n")),
	}
}

// large is a study of many ways of working and steps, with names that are long
// and have no place to break.
func large() string {
	var b strings.Builder
	fmt.Fprintf(&b, "[study]\nname = %q\nheads = 1000\nsow_every_days = 3\n", strings.Repeat("Blattgemüse", 8))
	var tasks []string
	for i := range 20 {
		name := fmt.Sprintf("step number %d", i)
		if i%5 == 0 {
			name = fmt.Sprintf("%s%d", strings.Repeat("Handgriff", 6), i)
		}
		fmt.Fprintf(&b, "[[step]]\nname = %q\nestimate = { low = \"5s\", likely = \"9s\", high = \"%ds\" }\n", name, 12+i)
		tasks = append(tasks, fmt.Sprintf("{ step = %q, day = %d, count = \"plants\" }", name, i))
	}
	for i := range 8 {
		fmt.Fprintf(&b, "[[workflow]]\nname = \"%s number %d\"\nseeds_per_cell = %d\ntasks = [ %s ]\n",
			strings.Repeat("Arbeitsweise", 1+i%4), i, 1+i%3, strings.Join(tasks[:13+i], ", "))
	}
	return b.String() + "[labour]\nwage = 14.5\n"
}

var tag = regexp.MustCompile(`<[^>]*>`)

// wordsOf is what a page says, its figures' letters left out.
func wordsOf(html string) string {
	html = regexp.MustCompile(`(?s)<svg.*?</svg>|<style>.*?</style>`).ReplaceAllString(html, "")
	return strings.NewReplacer("&#34;", `"`, "&#39;", "'", "&quot;", `"`, "&lt;", "<", "&gt;", ">", "&amp;", "&", "&#43;", "+").
		Replace(tag.ReplaceAllString(html, " "))
}
