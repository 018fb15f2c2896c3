package terminal

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// face is the face of lines at a desk of its own, to be spoken to line by line.
type face struct {
	*lineFace
	hand *hand
	out  bytes.Buffer
}

func newFace(t *testing.T, dir string, h *hand, names Names) *face {
	t.Helper()
	f := &face{hand: h}
	f.lineFace = &lineFace{recorder: newRecorder(Config{Dir: dir, Study: aStudy(), Logs: logsOf(timed()), Names: names, Now: h.now}, h.now()), out: &f.out, asked: map[string]bool{}}
	t.Cleanup(func() { f.close() })
	return f
}

// says is what a line is answered; a second passes after it.
func (f *face) says(line string) string {
	f.out.Reset()
	f.at = f.hand.now()
	f.obey(line)
	f.hand.run(time.Second)
	return f.out.String()
}

// act is what happens between lines: "+90s" passes, "clock -1h" sets the wall clock alone,
// "boot" lets the recorder start again and greet.
func (f *face) act(t *testing.T, dir, what string) {
	word, rest, _ := strings.Cut(what, " ")
	switch {
	case word == "clock":
		d, err := time.ParseDuration(rest)
		require.NoError(t, err)
		f.hand.Wall = f.hand.Wall.Add(d)
	case word == "boot":
		require.NoError(t, f.close())
		f.hand.Boot, f.hand.Mono = "b2", 5
		again := newFace(t, dir, f.hand, Names{})
		f.lineFace = again.lineFace
		f.lineFace.out = &f.out
		f.out.Reset()
		f.at = f.hand.now()
		f.greet(f.notice())
	default:
		d, err := time.ParseDuration(strings.TrimPrefix(what, "+"))
		require.NoError(t, err, what)
		f.hand.run(d)
	}
}

var sessionNamed = regexp.MustCompile(`\d{4}-\d\d-\d\dT\d{4}(-[0-9a-z]+)*-[0-9a-z]{6}`)

// Talks are lines, behind ">", what happens between them, behind "*", and the whole of what
// is answered: a name under testdata/talks says what they are about.
func TestTalks(t *testing.T) {
	t.Parallel()
	paths, err := filepath.Glob("testdata/talks/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txt"), func(t *testing.T) {
			t.Parallel()
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			dir := t.TempDir()
			f := newFace(t, dir, newHand(), all)
			got := ""
			for _, line := range strings.SplitAfter(string(want), "\n") {
				text := strings.TrimSuffix(line, "\n")
				switch {
				case strings.HasPrefix(text, "> "):
					got += line + f.says(text[2:])
				case strings.HasPrefix(text, "* "):
					f.out.Reset()
					f.act(t, dir, text[2:])
					got += line + f.out.String()
				case strings.HasPrefix(text, "#"):
					got += line
				}
			}
			got = sessionNamed.ReplaceAllString(got, "SESSION")
			assertGolden(t, filepath.Join("talks", filepath.Base(path)), got)
		})
	}
}
