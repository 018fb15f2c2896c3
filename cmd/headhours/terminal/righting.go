package terminal

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

// void takes a reason in words. A number alone is meant as that of a reading, which
// is amend's to void.
func (l *lineFace) void(why string) (string, error) {
	if why == "" {
		return "", errors.New("void needs a reason: void tray dropped")
	}
	if _, bare := parseNumber(why); bare {
		return "", fmt.Errorf("void %s gives no reason: void WHY is of what runs, else of the last reading; amend N void WHY is of reading N, such as amend %s void tray dropped", why, why)
	}
	return texted(stopwatch.Void)(l, why)
}

func (l *lineFace) ended(text string) (string, error) {
	r, runs := l.state.Running()
	if !runs {
		last, ok := l.last()
		if !ok {
			return "", errors.New("there is no reading yet")
		}
		r = last
	}
	answer, err := l.endedOf(r, text)
	if why := errors.Unwrap(err); why != nil { // it speaks of the event that the line becomes
		err = fmt.Errorf("ended: %w", why)
	}
	return answer, err
}

func (l *lineFace) endedOf(r stopwatch.Reading, text string) (string, error) {
	end, ok := parseWhen(text, r.Began, l.at.Wall)
	if !ok {
		return "", fmt.Errorf("%q: a time of day such as 14:05 is needed, or minutes", text)
	}
	return r.Step + " ended " + end.Format("15:04:05"), l.press(stopwatch.Event{Kind: stopwatch.Amend, Of: r.ID, End: end})
}

func (l *lineFace) show(string) (string, error) {
	for i, r := range l.state.Readings {
		l.say("%2d  %s", i+1, l.line(r))
	}
	if r, runs := l.state.Running(); runs {
		at := l.at
		state := "running"
		if l.state.Paused {
			state = "paused " + clock(math.Floor(l.state.Interrupted(at).Seconds()))
		}
		l.say("%s: %s %s, %s", state, r.Step, clock(math.Floor(l.state.Elapsed(at).Seconds())), l.countWord(r))
		return "", nil
	}
	l.say("nothing runs")
	return "", nil
}

func (l *lineFace) amend(rest string) (string, error) {
	which, more := firstWord(rest)
	field, value := firstWord(more)
	field = strings.ToLower(field)
	n, ok := parseNumber(which)
	if i := int(n.Value); value == "" || !ok || n.Value != math.Trunc(n.Value) || i < 1 || i > len(l.state.Readings) {
		return "", fmt.Errorf("amend %q: a number that show gives, a field and a value are needed, such as amend 2 count 40", rest)
	}
	r := l.state.Readings[int(n.Value)-1]
	e := stopwatch.Event{Kind: stopwatch.Amend, Of: r.ID}
	texts := map[string]*string{"step": &e.Step, "grow": &e.Grow, "workflow": &e.Workflow, "worker": &e.Worker}
	figures := map[string]*study.Maybe{"count": &e.Count, "setups": &e.Setups, "people": &e.People}
	switch {
	case texts[field] != nil:
		var err error
		if *texts[field], err = l.knownAs(field, value); err != nil {
			return "", err
		}
	case figures[field] != nil:
		n, err := numberIn(value)
		if err != nil {
			return "", err
		}
		*figures[field] = n
		if err := l.barred(r.Step, figures[field].Value); field == "count" && err != nil {
			return "", err
		}
	case field == "ended":
		return l.endedOf(r, value)
	case field == "note" || field == "void":
		e = stopwatch.Event{Kind: stopwatch.EventKind(field), Of: r.ID, Text: value}
	default:
		return "", fmt.Errorf("amend has no field %q: it puts right step, grow, workflow, worker, count, setups, people, ended, note, void", field)
	}
	return "amend " + rest, l.press(e)
}

// knownAs holds steps and workflows to those of the study.
func (l *lineFace) knownAs(kind, name string) (string, error) {
	switch kind {
	case "step":
		return nameOf(kind, name, l.study.StepNames())
	case "workflow":
		return nameOf(kind, name, l.study.WorkflowNames())
	}
	return name, nil
}
