package phone

import (
	"fmt"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// A flood posted twice over, out of order, is each event once.
func TestTenThousandEventsTwiceOver(t *testing.T) {
	const n = 10_000
	d := newDesk(t)
	h := newHandler(d)
	events := []stopwatch.Event{begin("w1")}
	for i := 1; i < n; i++ {
		events = append(events, []stopwatch.Event{start("sow"), count(float64(i)), start("thin"), count(1)}[(i-1)%4])
	}
	events = session(monday, events...)
	want := told(stopwatch.Fold("", events))
	twice := append(append([]stopwatch.Event{}, events...), events...)
	r := rand.New(rand.NewPCG(7, 8))
	r.Shuffle(len(twice), func(i, j int) { twice[i], twice[j] = twice[j], twice[i] })
	added := 0
	for len(twice) > 0 {
		size := min(len(twice), 1+r.IntN(maxBatch))
		o := post(t, h, monday, twice[:size])
		assert.Empty(t, o.Refused)
		added += o.Added
		twice = twice[size:]
	}
	assert.Equal(t, n, added)
	contents, state := held(t, d, monday)
	assert.Len(t, contents.Events, n)
	assert.Empty(t, contents.Warnings)
	assert.Empty(t, state.Warnings)
	assert.Equal(t, want, told(state))
}

// Of a batch only what is no event is refused, and said to be by its number.
func TestRefusedEvents(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	good := session(monday, begin("w1"), start("sow"), stop)
	other := session(tuesday, begin("w2"))
	body := lines(t, good[:1]) + "\n" + `{"session":` + "\n" + lines(t, other) + lines(t, good[1:]) + strings.Replace(lines(t, good[2:]), `"stop"`, `"lunch"`, 1)
	w := serve(h, request("POST", "/sessions/"+monday, body))
	require.Equal(t, http.StatusOK, w.Code)
	assert.JSONEq(t, `{"held":3,"added":3,"warnings":[],"refused":[
		{"event":2,"why":"not an event: it ends too early"},
		{"event":3,"why":"not an event: it ends too early"},
		{"event":4,"why":"is of another session"},
		{"event":7,"why":"kind \"lunch\": want one of begin, start, next, lot, pause, resume, count, setups, people, note, void, undo, change, amend, stop, end"}]}`,
		strings.ReplaceAll(w.Body.String(), "not an event: EOF", "not an event: it ends too early"))
	_, state := held(t, d, monday)
	assert.Equal(t, []string{"sow 10s"}, told(state))
	assert.NoFileExists(t, filepath.Join(d.recorders.dir, tuesday+".jsonl"))
}

// Names that no session may have never become names of files.
func TestSessionNames(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	for _, name := range []string{"x", "..%2f..%2fstudy", "2026-03-02T0810-w1-a3f9.jsonl", "%2e%2e", "2026-03-02T0810-w1-a3f9%00"} {
		before := tree(t, d.dir)
		w := serve(h, request("POST", "/sessions/"+name, lines(t, session(monday, begin("w1")))))
		assert.Contains(t, []int{http.StatusBadRequest, http.StatusNotFound, http.StatusTemporaryRedirect, http.StatusMovedPermanently}, w.Code, name)
		assert.Equal(t, before, tree(t, d.dir), name)
	}
}

func TestOddThingsAreToldOf(t *testing.T) {
	h := newHandler(newDesk(t))
	late := session(monday, begin("w1"), start("saw"), start("saw"), stop)
	late[3].Wall = late[3].Wall.Add(3600e9)
	late[2].Workflow = "raft"
	o := post(t, h, monday, late)
	assert.Equal(t, []string{
		"the wall clock has moved 3600 s ahead of the stopwatch: it was changed, or the machine slept; the stopwatch's time is taken",
		`no step is named "saw": did you mean "sow". If it has another name now, write in study.toml, under [log.steps]: "saw" = "sow"`,
		`no workflow is named "raft": there is "tray, two seeds", "in place". If it has another name now, write in study.toml, under [log.workflows]: "raft" = "…"`,
	}, o.Warnings)
}

// A step before a change is none to choose: the page does not offer it, and a press of it is
// told of as one of any step that there is not.
func TestStagesAreNoSteps(t *testing.T) {
	d := newDesk(t)
	text, err := os.ReadFile(filepath.Join(d.dir, "study.toml"))
	require.NoError(t, err)
	put(t, filepath.Join(d.dir, "study.toml"), string(text)+"\n[[change]]\nname = \"board\"\nstep = \"sow\"\nsince = \"2026-03-01\"\n")
	put(t, filepath.Join(d.dir, "timings", "a.csv"), "date,step,count,time\n2026-02-27,sow,40,100\n2026-03-01,sow,40,80\n")
	require.True(t, d.usual.Latest(time.Minute).Ready)
	h := newHandler(d)
	var got described
	get(t, h, "/study", &got)
	st, err := d.study()
	require.NoError(t, err)
	var names []string
	for _, s := range got.Steps {
		names = append(names, s.Name)
	}
	assert.Equal(t, st.StepNames(), names)
	assert.Equal(t, study.Known(80), got.Steps[1].UsualS, "as it is now")
	o := post(t, h, monday, session(monday, begin("w1"), start("sow (before 2026-03-01)"), stop))
	require.Len(t, o.Warnings, 1)
	assert.Contains(t, o.Warnings[0], `no step is named "sow (before 2026-03-01)": there is "soak and fill trays"`)
}

// What the study says of names in logs holds for presses once it is read.
func TestOtherNamesOfSteps(t *testing.T) {
	d := newDesk(t)
	text, err := os.ReadFile(filepath.Join(d.dir, "study.toml"))
	require.NoError(t, err)
	put(t, filepath.Join(d.dir, "study.toml"), string(text)+"\n[log.steps]\n\"saw\" = \"sow\"\n")
	require.True(t, d.usual.Latest(time.Minute).Ready)
	assert.Empty(t, post(t, newHandler(d), monday, session(monday, begin("w1"), start("saw"), stop)).Warnings)
}

// While the disk refuses, nothing is taken and nothing lost: the same batch is
// good later.
func TestUnwritable(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	put(t, d.recorders.dir, "a file where the folder belongs")
	batch := session(monday, begin("w1"), start("sow"))
	w := serve(h, request("POST", "/sessions/"+monday, lines(t, batch)))
	assert.Equal(t, http.StatusServiceUnavailable, w.Code)
	assert.Contains(t, w.Body.String(), "not a directory")
	require.NoError(t, os.Remove(d.recorders.dir))
	assert.Equal(t, 2, post(t, h, monday, batch).Added)

	put(t, filepath.Join(d.recorders.dir, tuesday+".jsonl"), "nonsense\nmore\n")
	w = serve(h, request("POST", "/sessions/"+tuesday, lines(t, session(tuesday, begin("w2")))))
	assert.Equal(t, http.StatusConflict, w.Code)
	assert.Contains(t, w.Body.String(), tuesday+".jsonl:1: not an event")
}

// What is acknowledged stands at the journal's path, though the file there was replaced or
// taken away meanwhile.
func TestJournalIsReplaced(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	path := filepath.Join(d.recorders.dir, monday+".jsonl")
	events := session(monday, begin("w1"), start("sow"), count(3), stop)
	assert.Equal(t, 2, post(t, h, monday, events[:2]).Added)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	put(t, path+".tmp", string(text))
	require.NoError(t, os.Rename(path+".tmp", path))
	assert.Equal(t, 1, post(t, h, monday, events[2:3]).Added)
	contents, _ := held(t, d, monday)
	assert.Len(t, contents.Events, 3)
	require.NoError(t, os.Remove(path))
	assert.Equal(t, 3, post(t, h, monday, events[:3]).Held)
	contents, _ = held(t, d, monday)
	assert.Len(t, contents.Events, 3)
	put(t, path+".tmp", "nonsense\n")
	require.NoError(t, os.Rename(path+".tmp", path))
	w := serve(h, request("POST", "/sessions/"+monday, lines(t, events[3:])))
	assert.NotEqual(t, http.StatusOK, w.Code)
	assert.Contains(t, w.Body.String(), monday+".jsonl is another file than the one that was written to")
}

func TestOversizedBatches(t *testing.T) {
	h := newHandler(newDesk(t))
	w := serve(h, request("POST", "/sessions/"+monday, strings.Repeat("x", maxBody+1)))
	assert.Equal(t, http.StatusRequestEntityTooLarge, w.Code)
	w = serve(h, request("POST", "/sessions/"+monday, strings.Repeat("\n", maxBatch+1)))
	assert.Equal(t, http.StatusRequestEntityTooLarge, w.Code)
	long := session(monday, begin("w1"))
	long[0].Text = strings.Repeat("x", 64<<10)
	assert.Contains(t, post(t, h, monday, long).Refused[0].Why, "longer than")
}

func TestFloods(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	name := func(i int) string { return fmt.Sprintf("2026-03-02T0810-w1-%04d", i) }
	for i := range maxNew {
		assert.Equal(t, 1, post(t, h, name(i), session(name(i), begin("w1"))).Added)
		assert.LessOrEqual(t, len(d.recorders.open), maxOpen)
	}
	w := serve(h, request("POST", "/sessions/"+name(maxNew), lines(t, session(name(maxNew), begin("w1")))))
	assert.Equal(t, http.StatusTooManyRequests, w.Code)
	assert.Contains(t, w.Body.String(), "start headhours phone again")
	assert.NoFileExists(t, filepath.Join(d.recorders.dir, name(maxNew)+".jsonl"))
	assert.Equal(t, 1, post(t, h, name(0), session(name(0), begin("w1"), start("sow"))).Added, "those that have begun go on")

	t.Run("of events", func(t *testing.T) {
		var b strings.Builder
		for i := range maxEvents - 1 {
			fmt.Fprintf(&b, `{"session":%q,"seq":%d,"id":"e%d","wall":"2026-03-03T09:00:00Z","boot":"b","mono":%d,"kind":"stop"}`+"\n", tuesday, i+1, i+1, i)
		}
		put(t, filepath.Join(d.recorders.dir, tuesday+".jsonl"), b.String())
		w := serve(h, request("POST", "/sessions/"+tuesday, lines(t, session(tuesday, begin("w2"), start("sow")))))
		assert.Equal(t, http.StatusTooManyRequests, w.Code)
		assert.Contains(t, w.Body.String(), "end work and begin anew")
	})
}

// Phones that send at the same time do not disturb each other.
func TestManyAtOnce(t *testing.T) {
	d := newDesk(t)
	h := newHandler(d)
	var all sync.WaitGroup
	for phone := range 4 {
		name := fmt.Sprintf("2026-03-02T0810-w%d-a3f9", phone)
		events := session(name, begin("w1"), start("sow"), count(3), start("thin"), stop)
		for range 2 {
			all.Go(func() {
				for i := range events {
					serve(h, request("POST", "/sessions/"+name, lines(t, events[i:])))
				}
			})
		}
	}
	all.Wait()
	for phone := range 4 {
		contents, state := held(t, d, fmt.Sprintf("2026-03-02T0810-w%d-a3f9", phone))
		assert.Len(t, contents.Events, 5)
		assert.Equal(t, []string{"sow 20s of 3", "thin 10s"}, told(state))
	}
	added, begun, err := d.recorders.close()
	assert.NoError(t, err)
	assert.Equal(t, []int{20, 4}, []int{added, begun})
}

// Whatever is sent, the server lives on and the journal can be read.
func FuzzBatch(f *testing.F) {
	f.Add("\n{}\n[]\nnull")
	f.Add(`{"session":"` + monday + `","seq":1,"id":"e1","wall":"2026-03-02T08:10:00Z","boot":"b","mono":1,"kind":"begin"}`)
	f.Fuzz(func(t *testing.T, body string) {
		d := newDesk(t)
		w := serve(newHandler(d), request("POST", "/sessions/"+monday, body))
		require.Contains(t, []int{http.StatusOK, http.StatusRequestEntityTooLarge}, w.Code, w.Body.String())
		if _, err := os.Stat(filepath.Join(d.recorders.dir, monday+".jsonl")); err == nil {
			held(t, d, monday)
		}
	})
}
