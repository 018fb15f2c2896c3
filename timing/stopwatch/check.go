package stopwatch

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"headhours/timing/study"
	"headhours/timing/words"
)

// rule says which fields an event of a kind needs and which it may have.
type rule struct{ needs, may string }

const ofReading = "grow workflow worker count setups people text"

var rules = map[EventKind]rule{
	Begin:  {may: "grow workflow worker people text"},
	Start:  {"step", ofReading},
	Next:   {"step", ofReading},
	Lot:    {may: ofReading},
	Pause:  {may: "text"},
	Resume: {},
	Count:  {"count", "of"},
	Setups: {"setups", "of"},
	People: {needs: "people"},
	Note:   {"text", "of"},
	Void:   {"text", "of"},
	Undo:   {may: "of"},
	Mark:   {needs: "text", may: "step"},
	Amend:  {may: "of step grow workflow worker count setups people end"},
	Stop:   {},
	End:    {},
}

// fieldsGiven lists the fields that an event has beyond those that all have.
func (e Event) fieldsGiven() []string {
	var names []string
	for _, f := range []struct {
		name string
		has  bool
	}{
		{"of", e.Of != ""}, {"step", e.Step != ""}, {"grow", e.Grow != ""}, {"workflow", e.Workflow != ""},
		{"worker", e.Worker != ""}, {"count", e.Count.Known}, {"setups", e.Setups.Known}, {"people", e.People.Known},
		{"end", !e.End.IsZero()}, {"text", e.Text != ""},
	} {
		if f.has {
			names = append(names, f.name)
		}
	}
	return names
}

// check says what is wrong with an event taken by itself: a kind, a name or a
// number that cannot be, a field that its kind lacks or does not take. The error
// is nil where nothing is.
func (e Event) check() error {
	if err := e.checkFields(); err != nil {
		return err
	}
	if err := e.checkStamp(); err != nil {
		return err
	}
	return e.checkValues()
}

func (e Event) checkFields() error {
	rule, ok := rules[e.Kind]
	if !ok {
		kinds := make([]string, len(eventKinds))
		for i, k := range eventKinds {
			kinds[i] = string(k)
		}
		return fmt.Errorf("kind %s: want one of %s", words.Quote(string(e.Kind)), strings.Join(kinds, ", "))
	}
	given, needs := e.fieldsGiven(), strings.Fields(rule.needs)
	for _, name := range needs {
		if !slices.Contains(given, name) {
			return fmt.Errorf("%s without %q: want one", e.Kind, name)
		}
	}
	for _, name := range given {
		if !slices.Contains(needs, name) && !slices.Contains(strings.Fields(rule.may), name) {
			return fmt.Errorf("%s takes no %q", e.Kind, name)
		}
	}
	if e.Kind == Amend && (len(given) == 0 || len(given) == 1 && e.Of != "") {
		return errors.New("amend puts nothing right: want a step, an end, a count or the like")
	}
	return nil
}

// maxMillis bounds sequence numbers and monotonic times: whole numbers that a
// float64 holds exactly, as a phone's page counts with.
const maxMillis = 1 << 53

func (e Event) checkStamp() error {
	if err := checkSession(e.Session); err != nil {
		return err
	}
	for _, id := range []struct{ name, text string }{{"id", e.ID}, {"boot", e.Boot}, {"of", e.Of}} {
		if !identifier().MatchString(id.text) && !(id.name == "of" && id.text == "") {
			return fmt.Errorf("%s %s: want 1 to 64 letters, digits, - and _", id.name, words.Quote(id.text))
		}
	}
	if e.Seq < 1 || e.Seq > maxMillis {
		return fmt.Errorf("seq %d: want the number of the event in its session, from 1", e.Seq)
	}
	if e.Mono < 0 || e.Mono > maxMillis {
		return fmt.Errorf("mono %d: want milliseconds since the boot", e.Mono)
	}
	if err := checkWall("wall", e.Wall); err != nil {
		return err
	}
	if e.End.IsZero() {
		return nil
	}
	return checkWall("end", e.End)
}

func checkWall(field string, t time.Time) error {
	if t.Year() < 1970 || t.Year() > 9999 || t.Nanosecond()%int(time.Millisecond) != 0 {
		return fmt.Errorf("%s %q: want a time of 1970 to 9999 in whole milliseconds", field, t.Format(time.RFC3339Nano))
	}
	return nil
}

func (e Event) checkValues() error {
	for _, name := range []struct{ field, text string }{
		{"step", e.Step}, {"grow", e.Grow}, {"workflow", e.Workflow}, {"worker", e.Worker},
	} {
		if err := checkText(name.field, name.text, ""); err != nil {
			return err
		}
	}
	if err := checkText("text", e.Text, "\n\t"); err != nil {
		return err
	}
	// The bounds are far from any work done by hand; they keep sums finite.
	for _, n := range []struct {
		field       string
		x           study.Maybe
		zero        bool
		least, most float64
	}{
		{"count", e.Count, true, 1e-6, 1e9}, {"setups", e.Setups, true, 1e-6, 1e9}, {"people", e.People, false, 1e-3, 1e6},
	} {
		x := n.x.Value
		if n.x.Known && (x < n.least || x > n.most) && !(n.zero && x == 0) {
			return fmt.Errorf("%s %s: want a number from %s to %s", n.field, words.Short(words.InFull(x)), words.InFull(n.least), words.InFull(n.most))
		}
	}
	return nil
}

// checkText keeps out of names and notes what a task log could not hold.
func checkText(field, text, controls string) error {
	if strings.TrimSpace(text) != text {
		return fmt.Errorf("%s %s: want no blanks about it", field, words.Quote(text))
	}
	for _, r := range text {
		if unicode.IsControl(r) && !strings.ContainsRune(controls, r) {
			return fmt.Errorf("%s %s: want no control characters", field, words.Quote(text))
		}
	}
	return nil
}
