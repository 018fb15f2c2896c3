package terminal

import (
	"fmt"
	"math"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"headhours/timing/stopwatch"
)

// order is a command of a line.
type order struct {
	name, args, does string
	run              func(l *lineFace, rest string) (answer string, err error)
}

// orders are the commands in the order of help.
func orders() []order {
	return []order{
		{"tasks", "", "what the workflow has to do, and how much of it is done", (*lineFace).listTasks},
		{"start", "[STEP]", "starts a step now, the next of the tasks where none is named", begins(stopwatch.Start)},
		{"next", "[STEP]", "ends what runs and starts a step where that ended", begins(stopwatch.Next)},
		{"lot", "", "ends what runs and starts its step again, the same visit going on", nextLap},
		{"pause", "[WHY]", "an interruption begins", texted(stopwatch.Pause)},
		{"resume", "", "the interruption is over", simply(stopwatch.Resume)},
		{"stop", "", "ends what runs", simply(stopwatch.Stop)},
		{"count", "[N]", "what runs, else the last reading, covered so many; alone, what is due of it", figured(stopwatch.Count)},
		{"setups", "N", "it was got ready for so many times within it", figured(stopwatch.Setups)},
		{"people", "N", "so many are at work from now on", figured(stopwatch.People)},
		{"note", "TEXT", "a note on it", texted(stopwatch.Note)},
		{"change", "NAME [of STEP]", "from now on it, or STEP, is done otherwise; shows what to write in the study", (*lineFace).change},
		{"void", "WHY", "it does not count, for a reason in words; amend N void WHY of an earlier one", (*lineFace).void},
		{"ended", "WHEN", "it ended at a time of day such as 14:05, or 5 minutes ago", (*lineFace).ended},
		{"undo", "", "takes the last press back", (*lineFace).undo},
		{"show", "", "the readings of the session, numbered", (*lineFace).show},
		{"amend", "N FIELD VALUE", "puts reading N right: step, grow, workflow, worker, count, setups, people, ended, note, void", (*lineFace).amend},
		{"grow", "NAME", "of readings to come", nameOrder("grow", func(n *Names) *string { return &n.Grow })},
		{"workflow", "NAME", "of readings to come", nameOrder("workflow", func(n *Names) *string { return &n.Workflow })},
		{"worker", "NAME", "of readings to come", nameOrder("worker", func(n *Names) *string { return &n.Worker })},
		{"take", "N", "goes on with an earlier session that is open", (*lineFace).take},
		{"new", "", "another session: the next start begins it", (*lineFace).another},
		{"end", "", "ends the session, and what runs, and says what lacks a count", (*lineFace).end},
		{"help", "", "this list; quit or the end of input leaves all as it is", (*lineFace).help},
	}
}

func (l *lineFace) help(string) (string, error) {
	for _, o := range orders() {
		l.say("   %-21s %s", strings.TrimSpace(o.name+" "+o.args), o.does)
	}
	return "", nil
}

func nameOrder(kind string, of func(*Names) *string) func(*lineFace, string) (string, error) {
	return func(l *lineFace, name string) (string, error) {
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

func (l *lineFace) take(text string) (string, error) {
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

func (l *lineFace) another(string) (string, error) {
	if err := l.free(); err != nil {
		return "", err
	}
	l.leave()
	return "new session", nil
}

// free says what keeps the session at hand from being put away.
func (l *lineFace) free() error {
	if r, runs := l.state.Running(); runs {
		return fmt.Errorf("%s is running: stop it first", r.Step)
	}
	if l.unsaved > 0 {
		return fmt.Errorf("not all is saved: %s", l.trouble)
	}
	return nil
}

func (l *lineFace) listTasks(string) (string, error) {
	l.read(maxWait)
	if !l.latest.Ready || !l.doneReady {
		l.say("   the logs are still being read: what they hold of this grow is not ticked yet")
	}
	next, width := l.following(), 78
	for _, t := range l.tasks { // whole, however long their names
		width = max(width, 50+ansi.StringWidth(printable(t.Step)))
	}
	for i, t := range l.tasks {
		l.say("%s", strings.TrimRight(l.taskLine(t, i == next, width, "done", true).String(), " "))
	}
	return "", nil
}
