package terminal

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strconv"
	"strings"
	"syscall"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// Lines reads commands, one a line, and answers each with a line that begins with
// "ok" once what it did is on the disk, or with "no" and the reason. Blank lines
// and those that begin with # are passed over. At the end of the input all stays
// as it is: what runs is taken up by a later run.
//
// The error is of lines that were refused, of in, or of presses that could not be
// written to the end.
func Lines(c Config, in io.Reader, out io.Writer) error {
	began := c.Now()
	read, wrong := stampedLines(in, c.Now)
	quits := make(chan os.Signal, 1)
	signal.Notify(quits, syscall.SIGQUIT) // ctrl-\ ends it as the end of the input does
	defer signal.Stop(quits)
	l := &lineFace{recorder: newRecorder(c, began), out: out, asked: map[string]bool{}}
	l.greet(l.notice())
	err := l.obeyAll(read, quits, wrong)
	l.lastVerdict()
	err = errors.Join(err, l.finish(out))
	if l.refused > 0 {
		err = errors.Join(err, fmt.Errorf("%s %s refused: see the answers that begin with no", words.Many(l.refused, "line"), words.Agree(l.refused, "was", "were")))
	}
	return err
}

// obeyAll obeys lines until they or the process are to end.
func (l *lineFace) obeyAll(read <-chan stamped, quits <-chan os.Signal, wrong func() error) error {
	for {
		select {
		case <-quits:
			return nil
		case line, ok := <-read:
			if !ok {
				return wrong()
			}
			l.at = line.at
			if line.long > 0 {
				l.refuse(fmt.Errorf("line %d is longer than %d bytes and was not read", line.long, maxBytes))
				continue
			}
			l.obey(line.text)
		}
	}
}

// obey does what a line says and answers it.
func (l *lineFace) obey(line string) {
	word, rest := firstWord(clean(line))
	word = strings.ToLower(word)
	held := l.state
	answer, err := l.run(word, rest)
	if errors.Is(err, stopwatch.ErrEnded) {
		err = fmt.Errorf("%w; new, then start, begins another", err)
	}
	if err != nil {
		l.refuse(err)
		return
	}
	if l.unsaved > 0 {
		l.say("not saved: %s: %s; kept, and written with a later line", answer, l.trouble)
	} else if answer != "" {
		l.say("ok %s %s", l.at.Wall.Format("15:04:05"), answer)
	}
	for i := len(held.Warnings); i < len(l.state.Warnings); i++ {
		l.say("note: %s", l.state.Warnings[i].Text)
	}
	l.sayNews()
	if l.toJudge != "" && !l.late {
		l.say("   what is usual is still being read from the logs")
	}
	l.late = l.toJudge != ""
	l.sayChange(len(held.Changes))
	if word == "end" {
		l.afterEnd()
	}
	l.ofLacking(held)
	l.question()
}

// refuse answers a line that is not obeyed.
func (l *lineFace) refuse(why error) {
	l.refused++
	l.say("no: %s", why)
}

// lastVerdict waits a little for what could not be said before.
func (l *lineFace) lastVerdict() {
	if l.late {
		l.logs.Latest(maxWait)
		l.sayNews()
	}
}

// sayNews does and says what is left to be once a line is answered.
func (l *lineFace) sayNews() {
	before := l.verdicts
	if news := l.afterwards(); news != "" {
		l.say("note: %s", news)
	}
	v := l.verdict
	if l.verdicts == before || v.reading == "" {
		return
	}
	l.say("   %s; %s", v.reading, v.usual)
	if v.standsOut != "" {
		l.say("   this one stands out: %s", v.standsOut)
	}
}

// question asks once of a count whether it is right, and of a reading whether it was
// forgotten.
func (l *lineFace) question() {
	if r, why := l.odd(); why != "" {
		l.isRight(r)
		l.say("? %s: is that right? Else: %s", why, l.countAgain(r))
	}
	r, runs := l.state.Running()
	if !runs || l.asked[r.ID] {
		return
	}
	if q := l.state.Question(l.at, l.usualNow); q != "" {
		l.asked[r.ID] = true
		l.say("? %s Answer: ended 14:05, or ended 12 for minutes ago", q)
	}
}

// countAgain is the command that gives another count.
func (l *lineFace) countAgain(r stopwatch.Reading) string {
	of, runs := l.state.Running()
	if !runs {
		of, _ = l.last()
	}
	if of.ID == r.ID {
		return "count N"
	}
	i := slices.IndexFunc(l.state.Readings, func(o stopwatch.Reading) bool { return o.ID == r.ID })
	return fmt.Sprintf("amend %d count N", i+1)
}

func (l *lineFace) run(word, rest string) (string, error) {
	var names []string
	for _, o := range orders() {
		if o.name == word {
			if o.args == "" && rest != "" {
				return "", fmt.Errorf("%s takes nothing behind it, not %q%s", word, rest, countMeant(rest))
			}
			return o.run(l, rest)
		}
		names = append(names, o.name)
	}
	if step, ok := study.SameName(strings.TrimSpace(word+" "+rest), l.study.StepNames()); ok {
		return "", fmt.Errorf("%q is a step: start %s begins it", step, step)
	}
	if word == "quit" { // alone it ends the lines
		return "", fmt.Errorf("quit takes nothing behind it, not %q", rest)
	}
	if n, bare := parseNumber(word); bare && rest == "" {
		return "", fmt.Errorf("%s is a number: count %s gives it as a count", word, words.UpTo(n.Value, 2))
	}
	return "", study.UnknownName{Kind: "command", Name: word, Known: append(names, "quit")}
}

// countMeant asks whether a number behind a command was meant for a count.
func countMeant(rest string) string {
	if _, err := strconv.ParseFloat(rest, 64); err != nil {
		return ""
	}
	return fmt.Sprintf(": is it a count? count %s gives it", rest)
}
