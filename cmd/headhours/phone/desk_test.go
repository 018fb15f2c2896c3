package phone

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/cmd/headhours/sums"
	"headhours/report/look"
	"headhours/timing/folder"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

const (
	aKey    = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	monday  = "2026-03-02T0810-w1-a3f9"
	tuesday = "2026-03-03T0900-w2-b001"
)

const aStudy = `[study]
name = "kale & <b>chard</b>"
heads = 40
[crop]
germination = 0.8
[[step]]
name = "soak and fill trays"
per = "tray"
[[step]]
name = "sow"
per = "seed"
[[step]]
name = "thin"
per = "seedling"
estimate = { low = "4s", likely = "5s", high = "6s" }
[[step]]
name = "transplant"
per = "plant"
[[step]]
name = "top up"
per = "litre"
[[step]]
name = "harvest"
per = "head"
[[step]]
name = "weigh"
per = "head"
[[step]]
name = "<i>check</i> pH"
per = "visit"
[[workflow]]
name = "tray, two seeds"
seeds_per_cell = 2
cells_per_tray = 20
tasks = [
  { step = "soak and fill trays", day = 0, count = "trays" },
  { step = "sow", day = 0, count = "seeds" },
  { step = "thin", day = 8, count = "surplus" },
  { step = "transplant", day = 12, count = "plants" },
  { step = "top up", day = 20, count = "plants", each = 0.5 },
  { step = "top up", day = 30, count = "plants", each = 0.7 },
  { step = "harvest", day = 40, count = "heads" },
]
[[workflow]]
name = "in place"
tasks = [ { step = "sow", day = 0, count = "seeds" }, { step = "harvest", day = 40, count = "heads" } ]
[[grow]]
name = "g5"
workflow = "tray, two seeds"
`

// newDesk is a desk on a study folder of its own.
func newDesk(t *testing.T) *desk {
	t.Helper()
	dir := t.TempDir()
	put(t, filepath.Join(dir, "study.toml"), aStudy)
	d := deskOf(dir)
	t.Cleanup(func() { d.recorders.close() })
	return d
}

func deskOf(dir string) *desk {
	path := filepath.Join(dir, "study.toml")
	st := func() (study.Study, error) {
		src, err := os.ReadFile(path)
		if err != nil {
			return study.Study{}, err
		}
		return folder.ReadStudy(src, path)
	}
	return &desk{dir: dir, key: aKey, names: []string{"localhost", growRoom}, study: st, codes: newCodes(time.Now), usual: sums.New(dir, false), recorders: newRecorders(filepath.Join(dir, "journal"))}
}

func put(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// request is one that our page would send.
func request(method, path, body string) *http.Request {
	r := httptest.NewRequest(method, "http://localhost:8737"+path, strings.NewReader(body))
	r.RemoteAddr = "192.168.1.20:50000"
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	name, value := cookie(aKey)
	r.AddCookie(&http.Cookie{Name: name, Value: value})
	return r
}

func serve(h http.Handler, r *http.Request) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// get answers a request without error, and reads the answer into to.
func get(t *testing.T, h http.Handler, path string, to any) {
	t.Helper()
	w := serve(h, request("GET", path, ""))
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), to))
}

// outcome is the answer to a batch.
type outcome struct {
	Held, Added int
	Refused     []stopwatch.Refused
	Warnings    []string
}

func post(t *testing.T, h http.Handler, session string, events []stopwatch.Event) outcome {
	t.Helper()
	w := serve(h, request("POST", "/sessions/"+session, lines(t, events)))
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	var o outcome
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &o))
	return o
}

func lines(t testing.TB, events []stopwatch.Event) string {
	t.Helper()
	var b bytes.Buffer
	for _, e := range events {
		line, err := json.Marshal(e)
		require.NoError(t, err)
		b.Write(append(line, '\n'))
	}
	return b.String()
}

// session is a session of events ten seconds apart, numbered from 1.
func session(name string, events ...stopwatch.Event) []stopwatch.Event {
	began, err := time.Parse("2006-01-02T1504-07:00", name[:15]+"+01:00")
	if err != nil {
		panic(err)
	}
	for i := range events {
		e := &events[i]
		e.Session, e.Seq, e.ID = name, int64(i+1), fmt.Sprintf("%s-%d", name[len(name)-4:], i+1)
		e.Instant = stopwatch.Instant{Wall: began.Add(time.Duration(10*i) * time.Second), Boot: "b", Mono: int64(10_000 * i)}
	}
	return events
}

func begin(worker string) stopwatch.Event {
	return stopwatch.Event{Kind: stopwatch.Begin, Worker: worker}
}
func start(step string) stopwatch.Event {
	return stopwatch.Event{Kind: stopwatch.Start, Step: step}
}
func count(n float64) stopwatch.Event {
	return stopwatch.Event{Kind: stopwatch.Count, Count: study.Known(n)}
}

var stop = stopwatch.Event{Kind: stopwatch.Stop}

// held reads a journal as any other reader of the study does.
func held(t *testing.T, d *desk, session string) (stopwatch.Contents, stopwatch.State) {
	t.Helper()
	path := filepath.Join(d.recorders.dir, session+stopwatch.Extension)
	contents, state, problems := stopwatch.ReadFile(path, nil)
	require.Empty(t, problems)
	return contents, state
}

// tree is every file of a folder and what is in it.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			var text []byte
			text, err = os.ReadFile(path)
			files[path] = string(text)
		}
		return err
	}))
	return files
}

func told(s stopwatch.State) []string {
	var list []string
	for _, r := range s.Readings {
		text := fmt.Sprintf("%s %.0fs", r.Step, r.Seconds)
		if r.Counted.Known {
			text += fmt.Sprintf(" of %g", r.Count)
		}
		if r.Void != "" {
			text += " void"
		}
		list = append(list, text)
	}
	return list
}

func TestStudyForThePage(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	put(t, filepath.Join(d.dir, "timings", "a.csv"), "grow,step,count,time\ng6,sow,40,100\ng6,sow,80,200\n")
	var got described
	get(t, h, "/study", &got)
	assert.Equal(t, "kale & <b>chard</b>", got.Name)
	assert.Equal(t, []string{"g5", "g6"}, got.Grows)
	assert.Equal(t, grownIn{"g5": "tray, two seeds"}, got.Ways)
	assert.False(t, got.Report)
	require.Len(t, got.Workflows, 2)
	// 40 heads of two seeds a cell, 80 % of which come up: 40/0.96 cells, 2 trays + a bit
	known, unknown := study.Known, study.Maybe{}
	assert.Equal(t, []dueDay{{20, known(20)}, {30, known(28)}}, got.Workflows[0].Tasks[4].Days)
	assert.Equal(t, []dueDay{{12, known(40)}}, rounded(got.Workflows[0].Tasks)[3].Days)
	for i := range got.Workflows[0].Tasks {
		got.Workflows[0].Tasks[i].Days = nil
	}
	assert.Equal(t, []task{
		{"soak and fill trays", known(3), unknown, nil}, {"sow", known(2 * 40 / 0.96), unknown, nil}, {"thin", known((1.6 - 0.96) * 40 / 0.96), unknown, nil},
		{"transplant", known(40), unknown, nil}, {"top up", unknown, unknown, nil}, {"harvest", known(40), unknown, nil},
	}, rounded(got.Workflows[0].Tasks))
	st, err := d.study()
	require.NoError(t, err)
	for i, name := range st.StepsToTellApart() { // as in figures
		assert.Equal(t, look.Hex(look.StepAt(i).Fill), looks(st)[name].Fill)
		assert.Equal(t, look.StepAt(i).Letter, looks(st)[name].Letter)
	}
	assert.Equal(t, step{"sow", "seed", "seeds", true, known(150), unknown, looks(st)["sow"]}, got.Steps[1])
	assert.InDelta(t, 5*0.64*40/0.96, got.Steps[2].UsualS.Value, 1e-9, "judged, for the count that is due")
	assert.Equal(t, step{"weigh", "head", "heads", true, unknown, unknown, looks(st)["weigh"]}, got.Steps[6])

	put(t, filepath.Join(d.dir, "timings", "a.csv"), "step,count,time\nsow,x,100\n")
	get(t, h, "/study", &got)
	assert.False(t, got.Steps[1].UsualS.Known, "logs with mistakes say nothing of what is usual")
	require.Len(t, got.Problems, 2)
	assert.Contains(t, got.Problems[0], "task logs or journals hold mistakes, so what is usual is not known")
	assert.Contains(t, got.Problems[1], `timings/a.csv:2:`)
	assert.NotContains(t, got.Problems[1], d.dir)

	put(t, filepath.Join(d.dir, "study.toml"), aStudy+"[[step]]\nnam = 1\n")
	w := serve(h, request("GET", "/study", ""))
	assert.Equal(t, http.StatusConflict, w.Code)
	assert.Contains(t, w.Body.String(), `unknown key "nam"`)
}

// A count that the study gives for each time, however many heads, is told; one that
// it gives for some times only is not.
func TestFixedCounts(t *testing.T) {
	d := newDesk(t)
	put(t, filepath.Join(d.dir, "study.toml"), withFixedCounts)
	var got described
	get(t, newHandler(d), "/study", &got)
	counts := map[string]study.Maybe{}
	for _, w := range got.Workflows {
		for _, task := range w.Tasks {
			counts[w.Name+": "+task.Step] = task.Fixed
		}
	}
	for _, s := range got.Steps {
		counts[s.Name] = s.Fixed
	}
	assert.Equal(t, study.Known(1), counts["tray, two seeds: weigh"])
	assert.Equal(t, study.Known(1), counts["weigh"])
	assert.Equal(t, study.Known(2), counts["<i>check</i> pH"], "a chore")
	for _, name := range []string{"tray, two seeds: harvest", "in place: harvest", "harvest", "sow", "in place: sow"} {
		assert.Equal(t, study.Maybe{}, counts[name], name)
	}
	assert.Equal(t, study.Known(1), counts["in place: thin"], "once in this way of working")
	assert.Equal(t, study.Maybe{}, counts["thin"], "but not in the other")
}

// withFixedCounts is that study with work that there is nothing to count of.
var withFixedCounts = strings.NewReplacer(
	`  { step = "harvest", day = 40, count = "heads" },
]`, `  { step = "harvest", day = 40, count = "heads" },
  { step = "weigh", day = 40, count = "once" },
]`, `{ step = "sow", day = 0, count = "seeds" }, {`, `{ step = "sow", day = 0, count = "seeds" }, { step = "thin", day = 3, count = "once" }, {`,
).Replace(aStudy) + `[[chore]]
step = "<i>check</i> pH"
every_days = 2
count = 2
`

// rounded keeps of counts what a float64 holds for sure.
func rounded(tasks []task) []task {
	for i, t := range tasks {
		for _, want := range []float64{2 * 40 / 0.96, (1.6 - 0.96) * 40 / 0.96, 40} {
			if d := t.Due.Value - want; d < 1e-9 && d > -1e-9 {
				tasks[i].Due.Value = want
			}
			for j, of := range t.Days {
				if d := of.Count.Value - want; d < 1e-9 && d > -1e-9 {
					t.Days[j].Count.Value = want
				}
			}
		}
	}
	return tasks
}

func TestDay(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	post(t, h, monday, session(monday, begin("w1"), start("sow"), count(40), start("thin"), stopwatch.Event{Kind: stopwatch.Void, Text: "dropped"}, stop, start("<i>x</i>")))
	post(t, h, "2026-03-02T2359-w2-c0de", session("2026-03-02T2359-w2-c0de", begin("w2"), start("sow"), stop, start("thin"), stop, start("thin"), stop, start("harvest"), count(7), stop))
	post(t, h, tuesday, session(tuesday, begin("w2"), start("thin"), stopwatch.Event{Kind: stopwatch.Pause}))
	put(t, filepath.Join(d.dir, "journal", "2026-03-02T0700-w3-bad0.jsonl"), "nonsense\n")
	put(t, filepath.Join(d.dir, "journal", "2026-03-02T0700-w3-bad0.jsonl.torn"), "nonsense\n")
	var got struct {
		Readings []dayReading
		Problems []string
	}
	steps := func() (list []string) {
		for _, r := range got.Readings {
			list = append(list, fmt.Sprintf("%s %s %.0f %v %v %v %s", r.Worker, r.Step, r.Seconds, r.Count.Value, r.Running, r.Paused, r.Void))
		}
		return list
	}
	get(t, h, "/days/2026-03-02", &got)
	assert.Equal(t, []string{"w1 sow 20 40 false false ", "w1 thin 20 0 false false dropped", "w1 <i>x</i> 0 0 true false ",
		"w2 sow 10 0 false false ", "w2 thin 10 0 false false ", "w2 thin 10 0 false false "}, steps())
	require.Len(t, got.Problems, 1)
	assert.Contains(t, got.Problems[0], "bad0.jsonl:1: not an event")

	get(t, h, "/days/2026-03-03", &got)
	assert.Equal(t, []string{"w2 harvest 20 7 false false ", "w2 thin 10 0 true true "}, steps(), "what a session of the evening before reaches into")
	get(t, h, "/days/2026-04-01", &got)
	assert.Empty(t, got.Readings)
	assert.Equal(t, http.StatusBadRequest, serve(h, request("GET", "/days/..%2f..%2fetc", "")).Code)
}

func TestReport(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	w := serve(h, request("GET", "/report", ""))
	assert.Equal(t, http.StatusNotFound, w.Code)
	assert.Contains(t, w.Body.String(), "headhours report")
	put(t, d.reportFile(), "<!doctype html><script>alert(1)</script>")
	w = serve(h, request("GET", "/report", ""))
	assert.Equal(t, http.StatusOK, w.Code)
	assert.Contains(t, w.Body.String(), "<!doctype html>")
	assert.Contains(t, w.Header().Get("Content-Security-Policy"), "sandbox; default-src 'none'")
	var got described
	get(t, h, "/study", &got)
	assert.True(t, got.Report)
}
