package cues

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shot is a cue of an invented film, and what it is expected to give.
type shot struct {
	from, to int // milliseconds
	step     string
	said     [][2]string // key and value, in the order in which they are written
	want     study.Reading
}

// film1 invents a film of n shots, one after the other or a while later, with all that a cue
// may say.
func film1(r *rand.Rand, n int, marks bool) []shot {
	var shots []shot
	at := r.IntN(5000)
	for range n {
		s := shot{from: at, to: at + 1 + r.IntN(900_000), step: []string{"sow", "thin, and bag", "Größe 水", "a&b"}[r.IntN(4)]}
		s.want = study.Reading{Step: s.step, People: 1, Source: study.Film, Rating: 100, Grow: "g1", Workflow: "way", Worker: "w1"}
		count := float64(1+r.IntN(4000)) / 4
		s.want.Count = count
		s.say("count", fmt.Sprint(count))
		if !marks {
			s.more(r)
		}
		at = s.to
		if r.IntN(2) == 0 {
			at += r.IntN(60_000)
		}
		shots = append(shots, s)
	}
	return shots
}

func (s *shot) say(key, value string) { s.said = append(s.said, [2]string{key, value}) }

// more lets a shot say what it may.
func (s *shot) more(r *rand.Rand) {
	maybe := func(key, value string, set func()) {
		if r.IntN(3) == 0 {
			s.say(key, value)
			set()
		}
	}
	maybe("setups", "2", func() { s.want.Setups = study.Known(2) })
	maybe("people", "1.5", func() { s.want.People = 1.5 })
	maybe("worker", "w7", func() { s.want.Worker = "w7" })
	maybe("grow", "g: 9", func() { s.want.Grow = "g: 9" })
	maybe("workflow", "other", func() { s.want.Workflow = "other" })
	maybe("date", "2026-02-28", func() { s.want.Date = time.Date(2026, 2, 28, 0, 0, 0, 0, time.UTC) })
	maybe("note", "pH 6: fine", func() { s.want.Note = "pH 6: fine" })
	maybe("void", "fell", func() { s.want.Void = "fell" })
	r.Shuffle(len(s.said), func(i, j int) { s.said[i], s.said[j] = s.said[j], s.said[i] })
}

// stampOf is a time of a film as its file has it.
func stampOf(ms int, point string, short bool) string {
	text := fmt.Sprintf("%02d:%02d%s%03d", ms/60_000%60, ms/1000%60, point, ms%1000)
	if h := ms / 3_600_000; h > 0 || !short {
		text = fmt.Sprintf("%02d:", h) + text
	}
	return text
}

// written is a film as one of the three kinds of file, with what files of that kind have
// beside; it sets the lines of the shots.
func written(r *rand.Rand, kind string, shots []shot) string {
	var b strings.Builder
	line := 1
	write := func(text string) {
		b.WriteString(text + "\n")
		line++
	}
	some := func(times int, text string) {
		if r.IntN(times) == 0 {
			write(text)
		}
	}
	if kind == "webvtt" {
		write("WEBVTT a film")
		some(2, "Kind: marks")
		write("")
	}
	if kind == "marks" {
		return writtenMarks(r, shots)
	}
	for i := range shots {
		s := &shots[i]
		if kind == "webvtt" && r.IntN(4) == 0 {
			write("NOTE the phone\nrang")
			line++
			write("")
		}
		some(2, fmt.Sprint(i+1))
		point, escape := ".", strings.NewReplacer("&", "&amp;", "<", "&lt;")
		if kind == "subrip" {
			point, escape = ",", strings.NewReplacer()
		}
		s.want.Place.Line = line
		short := kind == "webvtt" && r.IntN(2) == 0
		write(stampOf(s.from, point, short) + " --> " + stampOf(s.to, point, short))
		write([]string{s.step, "<i>" + s.step + "</i>", "  " + s.step + " "}[r.IntN(3)])
		step := b.String()[strings.LastIndex(strings.TrimSuffix(b.String(), "\n"), "\n")+1:]
		text := b.String()[:b.Len()-len(step)]
		b.Reset()
		b.WriteString(text + strings.ReplaceAll(step, s.step, escape.Replace(s.step)))
		for _, kv := range s.said {
			write(strings.ToUpper(kv[0][:1]) + kv[0][1:] + []string{": ", " :", ":  "}[r.IntN(3)] + escape.Replace(kv[1]))
		}
		write("")
		some(3, "")
	}
	return b.String()
}

func writtenMarks(r *rand.Rand, shots []shot) string {
	var b strings.Builder
	line := 1
	write := func(text string) {
		b.WriteString(text + "\n")
		line++
	}
	for i := range shots {
		s := &shots[i]
		if r.IntN(3) == 0 {
			write("# a remark 0:12 sow x24")
		}
		s.want.Place.Line = line
		write(mss(s.from) + " " + s.step + []string{" x", " X ", " × ", "×"}[r.IntN(4)] + s.said[0][1])
		if i == len(shots)-1 || shots[i+1].from != s.to || r.IntN(3) == 0 {
			write(mss(s.to) + []string{" stop", " -", "\tSTOP"}[r.IntN(3)])
		}
	}
	return b.String()
}

func mss(ms int) string { return fmt.Sprintf("%d:%02d.%03d", ms/60_000, ms/1000%60, ms%1000) }

// What an invented film says is read from each kind of file as it was said, whatever stands
// beside the cues, however lines end, and at any speed of the film.
func TestFilmsRoundTrip(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 6))
	for i := range 240 {
		kind := []string{"webvtt", "subrip", "marks"}[i%3]
		shots := film1(r, 1+r.IntN(6), kind == "marks")
		text := written(r, kind, shots)
		var want []study.Reading
		speed := []float64{0, 1, 8, 0.5}[r.IntN(4)]
		for _, s := range shots {
			w := s.want
			w.Place.File = "film"
			w.Seconds = float64(s.to-s.from) / 1000
			if speed > 0 {
				w.Seconds *= speed
			}
			want = append(want, w)
		}
		switch r.IntN(4) {
		case 0:
			text = "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n")
		case 1:
			text = strings.ReplaceAll(text, "\n", "\r")
		case 2:
			text = strings.TrimRight(text, "\n")
		}
		got, err := Read(strings.NewReader(text), "film", Options{Speed: speed, Grow: "g1", Workflow: "way", Worker: "w1"})
		require.NoError(t, err, text)
		require.Len(t, got, len(want), text)
		for k := range got {
			require.InEpsilon(t, want[k].Seconds, got[k].Seconds, 1e-12, text)
			got[k].Seconds = want[k].Seconds
			require.Equal(t, want[k], got[k], text)
		}
	}
}

// A line of a film that is lost is never lost in silence: what is then read is either refused
// or lacks what stood on that line and nothing else.
func TestALineThatIsLost(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 8))
	refused := 0
	for i := range 120 {
		kind := []string{"webvtt", "subrip", "marks"}[i%3]
		shots := film1(r, 2+r.IntN(3), true)
		lines := strings.Split(strings.TrimSuffix(written(r, kind, shots), "\n"), "\n")
		at := r.IntN(len(lines))
		lost := lines[at]
		text := strings.Join(append(append([]string{}, lines[:at]...), lines[at+1:]...), "\n")
		got, err := Read(strings.NewReader(text), "film", Options{})
		if err != nil {
			refused++
			require.Contains(t, err.Error(), "film", text)
			continue
		}
		name := strings.TrimSpace(lost)
		harmless := name == "" || name[0] == '#' || strings.HasPrefix(name, "NOTE") || name == "rang" || strings.Trim(name, "0123456789") == "" || strings.HasPrefix(name, "Kind")
		ends := strings.HasSuffix(strings.ToLower(name), "stop") || strings.HasSuffix(name, " -")
		switch {
		case harmless:
			require.Len(t, got, len(shots), "%q lost from\n%s", lost, text)
		case kind == "marks" && ends:
			require.Len(t, got, len(shots), "the step before goes on to the next: %q lost from\n%s", lost, text)
		case kind == "marks":
			require.Len(t, got, len(shots)-1, "%q lost from\n%s", lost, text)
		default:
			require.Fail(t, "lost in silence", "%q lost from\n%s", lost, text)
		}
	}
	assert.Greater(t, refused, 30)
}
