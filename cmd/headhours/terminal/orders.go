package terminal

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// order is a command of a line.
type order struct {
	name, args, does string
	run              func(l *lines, rest string) (answer string, err error)
}

// orders are the commands in the order of help.
func orders() []order {
	return []order{
		{"tasks", "", "what the workflow has to do, and how much of it is done", (*lines).listTasks},
		{"start", "[STEP]", "starts a step now, the next of the tasks where none is named", begins(stopwatch.Start)},
		{"next", "[STEP]", "ends what runs and starts a step where that ended", begins(stopwatch.Next)},
		{"lot", "", "ends what runs and starts its step again, the same visit going on", simply(stopwatch.Lot)},
		{"pause", "[WHY]", "an interruption begins", texted(stopwatch.Pause)},
		{"resume", "", "the interruption is over", simply(stopwatch.Resume)},
		{"stop", "", "ends what runs", simply(stopwatch.Stop)},
		{"count", "[N]", "what runs, else the last reading, covered so many; alone, what is due of it", figured(stopwatch.Count)},
		{"setups", "N", "it was got ready for so many times within it", figured(stopwatch.Setups)},
		{"people", "N", "so many are at work from now on", figured(stopwatch.People)},
		{"note", "TEXT", "a note on it", texted(stopwatch.Note)},
		{"change", "NAME [of STEP]", "from now on it, or STEP, is done otherwise; shows what to write in the study", (*lines).change},
		{"void", "WHY", "it does not count, for a reason in words; amend N void WHY of an earlier one", (*lines).void},
		{"ended", "WHEN", "it ended at a time of day such as 14:05, or 5 minutes ago", (*lines).ended},
		{"undo", "", "takes the last press back", (*lines).undo},
		{"show", "", "the readings of the session, numbered", (*lines).show},
		{"amend", "N FIELD VALUE", "puts reading N right: step, grow, workflow, worker, count, setups, people, ended, note, void", (*lines).amend},
		{"grow", "NAME", "of readings to come", nameOrder("grow", func(n *Names) *string { return &n.Grow })},
		{"workflow", "NAME", "of readings to come", nameOrder("workflow", func(n *Names) *string { return &n.Workflow })},
		{"worker", "NAME", "of readings to come", nameOrder("worker", func(n *Names) *string { return &n.Worker })},
		{"take", "N", "goes on with an earlier session that is open", (*lines).take},
		{"new", "", "another session: the next start begins it", (*lines).another},
		{"end", "", "ends the session, and what runs, and says what lacks a count", (*lines).end},
		{"help", "", "this list; quit or the end of input leaves all as it is", (*lines).help},
	}
}

func (l *lines) help(string) (string, error) {
	for _, o := range orders() {
		l.say("   %-21s %s", strings.TrimSpace(o.name+" "+o.args), o.does)
	}
	return "", nil
}

func (l *lines) listTasks(string) (string, error) {
	l.read(maxWait)
	if !l.latest.Ready || !l.doneReady {
		l.say("   the logs are still being read: what they hold of this grow is not ticked yet")
	}
	next, width := l.following(), 78
	for _, t := range l.tasks { // whole, however long their names
		width = max(width, 50+ansi.StringWidth(printed(t.Step)))
	}
	for i, t := range l.tasks {
		l.say("%s", strings.TrimRight(l.taskLine(t, i == next, width, "done", true).String(), " "))
	}
	return "", nil
}

func begins(kind stopwatch.EventKind) func(*lines, string) (string, error) {
	return func(l *lines, step string) (string, error) {
		if step == "" {
			next := l.following()
			if next < 0 {
				return "", errors.New("nothing comes next by the plan: name a step")
			}
			step = l.tasks[next].Step
		}
		step, err := nameOf("step", step, l.study.StepNames())
		if err != nil {
			return "", err
		}
		return string(kind) + " " + step, l.press(l.taskNamed(step).begin(kind))
	}
}

func simply(kind stopwatch.EventKind) func(*lines, string) (string, error) {
	return func(l *lines, _ string) (string, error) {
		return string(kind), l.press(stopwatch.Event{Kind: kind})
	}
}

func texted(kind stopwatch.EventKind) func(*lines, string) (string, error) {
	return func(l *lines, text string) (string, error) {
		if kind == stopwatch.Note && text == "" {
			return "", errors.New("note needs words: note two trays were wet")
		}
		return strings.TrimSpace(string(kind) + " " + text), l.press(stopwatch.Event{Kind: kind, Text: text})
	}
}

// void takes a reason in words. A number alone is meant as that of a reading, which
// is amend's to void.
func (l *lines) void(why string) (string, error) {
	if why == "" {
		return "", errors.New("void needs a reason: void tray dropped")
	}
	if _, bare := parseNumber(why); bare {
		return "", fmt.Errorf("void %s gives no reason: void WHY is of what runs, else of the last reading; amend N void WHY is of reading N, such as amend %s void tray dropped", why, why)
	}
	return texted(stopwatch.Void)(l, why)
}

func figured(kind stopwatch.EventKind) func(*lines, string) (string, error) {
	return func(l *lines, text string) (string, error) {
		r, some := l.state.Running()
		if !some {
			r, some = l.last()
		}
		n, err := numberIn(text)
		if kind == stopwatch.Count && text == "" && some {
			if due, ok := l.planned(r); ok {
				n, err = study.Known(due), nil
			}
		}
		if _, ok := parseNumber(text); err != nil && !ok {
			return "", fmt.Errorf("%w: %s", err, map[stopwatch.EventKind]string{stopwatch.Count: "count 40", stopwatch.Setups: "setups 1", stopwatch.People: "people 2"}[kind])
		}
		if err != nil {
			return "", err
		}
		if kind == stopwatch.Count && some {
			if err := l.barred(r.Step, n.Value); err != nil {
				return "", err
			}
		}
		e := stopwatch.Event{Kind: kind}
		*map[stopwatch.EventKind]*study.Maybe{stopwatch.Count: &e.Count, stopwatch.Setups: &e.Setups, stopwatch.People: &e.People}[kind] = n
		answer := string(kind) + " " + words.UpTo(n.Value, 2)
		if some && kind != stopwatch.People {
			answer += " of " + r.Step
		}
		return answer, l.press(e)
	}
}

func (l *lines) undo(string) (string, error) {
	what := l.undoes
	if what == "" {
		return "", errors.New("there is nothing to undo")
	}
	ran, _ := l.state.Running()
	err := l.press(stopwatch.Event{Kind: stopwatch.Undo})
	if r, runs := l.state.Running(); runs && r.ID != ran.ID {
		what += "; " + r.Step + " goes on"
	}
	return "undo: " + what, err
}

func (l *lines) end(string) (string, error) {
	if l.state.Session.Name == "" {
		return "", errors.New("no session has begun")
	}
	err := l.press(stopwatch.Event{Kind: stopwatch.End})
	return "end", err
}

func (l *lines) ended(text string) (string, error) {
	r, runs := l.state.Running()
	if !runs {
		last, ok := l.last()
		if !ok {
			return "", errors.New("there is no reading yet")
		}
		r = last
	}
	return l.endedOf(r, text)
}

func (l *lines) endedOf(r stopwatch.Reading, text string) (string, error) {
	end, ok := parseWhen(text, r.Began, l.at.Wall)
	if !ok {
		return "", fmt.Errorf("%q: a time of day such as 14:05 is needed, or minutes", text)
	}
	return r.Step + " ended " + end.Format("15:04:05"), l.press(stopwatch.Event{Kind: stopwatch.Amend, Of: r.ID, End: end})
}

func (l *lines) show(string) (string, error) {
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

func (l *lines) amend(rest string) (string, error) {
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
func (l *lines) knownAs(kind, name string) (string, error) {
	switch kind {
	case "step":
		return nameOf(kind, name, l.study.StepNames())
	case "workflow":
		return nameOf(kind, name, l.study.WorkflowNames())
	}
	return name, nil
}

func nameOrder(kind string, of func(*Names) *string) func(*lines, string) (string, error) {
	return func(l *lines, name string) (string, error) {
		if name == "" {
			return "", fmt.Errorf("%s needs a name", kind)
		}
		name, err := l.knownAs(kind, name)
		if err != nil {
			return "", err
		}
		*of(&l.names) = name
		if w := l.workflowOf(name); kind == "grow" && w != "" {
			l.names.Workflow = w
		}
		l.read(maxWait)
		l.plan()
		l.say("grow %s, workflow %s, worker %s", orNone(l.names.Grow), orNone(l.names.Workflow), orNone(l.names.Worker))
		return "", nil
	}
}

func (l *lines) take(text string) (string, error) {
	n, ok := parseNumber(text)
	if i := int(n.Value); !ok || n.Value != math.Trunc(n.Value) || i < 1 || i > len(l.sessions) {
		return "", fmt.Errorf("take %q: a number that stands behind an open reading is needed", text)
	}
	if err := l.free(); err != nil {
		return "", err
	}
	session := l.sessions[int(n.Value)-1].Session.Name
	if err := l.takeUp(session); err != nil {
		return "", err
	}
	l.say("at hand: %s", session)
	return l.show("")
}

func (l *lines) another(string) (string, error) {
	if err := l.free(); err != nil {
		return "", err
	}
	l.leave()
	return "new session", nil
}

// free says what keeps the session at hand from being put away.
func (l *lines) free() error {
	if r, runs := l.state.Running(); runs {
		return fmt.Errorf("%s is running: stop it first", r.Step)
	}
	if l.unsaved > 0 {
		return fmt.Errorf("not all is saved: %s", l.trouble)
	}
	return nil
}
