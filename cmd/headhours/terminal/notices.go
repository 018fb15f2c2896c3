package terminal

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// notice is what is to be said first: what is wrong with logs, and which journals cannot be
// read.
func (r *recorder) notice() string {
	var parts []string
	if len(r.latest.Problems) > 0 {
		parts = append(parts, r.latest.Problems[0])
	}
	if text := r.strangers(); text != "" {
		parts = append(parts, text)
	}
	if len(r.unread) > 0 {
		text := strings.ReplaceAll(r.unread[0].Error(), filepath.Dir(r.dir)+string(filepath.Separator), "")
		if more := r.unread.Count() - 1; more > 0 {
			text += fmt.Sprintf(" (and %d more: headhours check lists them)", more)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// strangers says which steps of journals the study lacks, once it is known which of its own
// they may stand for.
func (r *recorder) strangers() string {
	if r.latest.Ours == nil {
		return ""
	}
	var names []string
	readings := 0
	for _, s := range r.sessions {
		for _, o := range s.Readings {
			step := r.ours(o.Reading).Step
			if slices.Contains(r.study.StepNames(), step) {
				continue
			}
			readings++
			if !slices.Contains(names, step) {
				names = append(names, step)
			}
		}
	}
	if readings == 0 {
		return ""
	}
	return fmt.Sprintf("%s of journals %s in no answer, of steps that the study lacks: %s; %s check says what to write",
		words.Many(readings, "reading"), words.Agree(readings, "is", "are"), words.QuoteList(names, 8), r.command)
}

// afterwards does, once a press is answered, what rests on logs and on models: see judge.
// It says what is new to be told, "" where nothing is.
func (r *recorder) afterwards() (news string) {
	before := r.latest.Problems
	if r.read(0) {
		if r.watch == nil && r.names == r.offers {
			r.offers = r.offered()
			r.names = r.offers
			r.read(0)
		}
		if len(before) == 0 && len(r.latest.Problems) > 0 {
			news = r.latest.Problems[0]
		} else if r.latest.Ready {
			news = r.strangers()
		}
	}
	r.judge()
	return news
}

// described is an event in the words in which it is taken back.
func (r *recorder) described(e stopwatch.Event) string {
	switch e.Kind {
	case stopwatch.Start, stopwatch.Next:
		return "start of " + e.Step
	case stopwatch.Stop:
		for _, o := range slices.Backward(r.watch.State().Readings) {
			if !o.Ended.IsZero() {
				return "stop of " + o.Step
			}
		}
	case stopwatch.Lot:
		return "next lap"
	case stopwatch.Resume:
		return "going on"
	case stopwatch.Count, stopwatch.Setups, stopwatch.People:
		for _, n := range []study.Maybe{e.Count, e.Setups, e.People} {
			if n.Known {
				return fmt.Sprintf("%s %s", e.Kind, words.UpTo(n.Value, 2))
			}
		}
	case stopwatch.Mark:
		return "change " + e.Text
	case stopwatch.Amend:
		return "putting right"
	case stopwatch.End:
		return "end of the session"
	}
	return string(e.Kind)
}
