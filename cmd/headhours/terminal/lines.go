package terminal

import (
	"fmt"
	"io"
	"strings"
)

// lineFace is the face of lines.
type lineFace struct {
	*recorder
	out     io.Writer
	refused int
	late    bool            // a verdict waits for logs that are being read
	asked   map[string]bool // of which readings it was asked whether they go on
}

func (l *lineFace) say(format string, args ...any) { fmt.Fprintf(l.out, format+"\n", args...) }

// greet says what lies on the desk.
func (l *lineFace) greet(notice string) {
	if notice != "" {
		l.say("note: %s", notice)
	}
	l.say("grow %s, workflow %s, worker %s", orNone(l.names.Grow), orNone(l.names.Workflow), orNone(l.names.Worker))
	for i, s := range l.sessions {
		at := l.at
		if r, runs := s.Running(); runs {
			l.say("open: %s has run since %s, %s by now%s; take %d goes on with it", r.Step, since(r.Began, at.Wall), clock(s.Elapsed(at).Seconds()), ofWhom(r), i+1)
		}
		if r, ok := firstUncounted(s); ok {
			l.say("open: %s of %s%s lacks its count; take %d, then count N", reading(r), since(r.Began, at.Wall), ofWhom(r), i+1)
		}
	}
	l.say("help lists the commands")
}

// firstWord is a line's first word, and the rest of it.
func firstWord(line string) (word, rest string) {
	word, rest, _ = strings.Cut(line, " ")
	return word, strings.TrimSpace(rest)
}

func orNone(name string) string {
	if name == "" {
		return "none"
	}
	return name
}
