package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"

	"github.com/spf13/pflag"

	"headhours/timing/answer"
	"headhours/timing/folder"
	"headhours/timing/stepfit"
	"headhours/timing/study"
)

// suggestion is what a word may become, and what that is.
type suggestion struct{ word, about string }

// What a shell completes by itself.
const (
	files   = ":files"
	folders = ":folders"
)

// typedLine is a command line as far as it was typed.
type typedLine struct {
	flags
	words   []string    // those that are no flags
	waiting *pflag.Flag // the flag whose value the last word is
	last    string      // the word in hand
}

// suggestTo prints what the last of the words may become: a line each, with a tab
// before what it is, or a line that leaves it to the shell. Shells call it.
func suggestTo(w io.Writer, words []string) error {
	t := typing(words)
	suggestions, shell := t.suggest()
	for _, s := range suggestions {
		if !strings.HasPrefix(s.word, t.last) || strings.ContainsFunc(s.word, unicode.IsControl) {
			continue
		}
		if s.about != "" {
			s.about = "\t" + s.about
		}
		if _, err := fmt.Fprintf(w, "%s%s\n", s.word, s.about); err != nil {
			return err
		}
	}
	if shell == "" {
		return nil
	}
	_, err := fmt.Fprintln(w, shell)
	return err
}

// typing reads the words of a command line, the last of which is not finished.
func typing(words []string) *typedLine {
	t := &typedLine{}
	t.define()
	if len(words) == 0 {
		return t
	}
	for _, word := range words[:len(words)-1] {
		t.take(word)
	}
	t.last = words[len(words)-1]
	switch name, value, found := strings.Cut(t.last, "="); {
	case t.waiting != nil && t.last == "=": // bash has it as a word of its own
		t.last = ""
	case t.waiting == nil && found && strings.HasPrefix(name, "--"):
		t.waiting, t.last = t.set.Lookup(name[2:]), value
	}
	return t
}

// take takes a word that is finished. Values that are wrong are left out.
func (t *typedLine) take(word string) {
	switch {
	case t.waiting != nil && word == "=":
	case t.waiting != nil:
		_ = t.set.Set(t.waiting.Name, word)
		t.waiting = nil
	case len(word) < 2 || word[0] != '-':
		t.words = append(t.words, word)
	default:
		t.takeFlag(word)
	}
}

func (t *typedLine) takeFlag(word string) {
	name, value, found := strings.Cut(strings.TrimLeft(word, "-"), "=")
	flag := t.set.Lookup(name)
	if !strings.HasPrefix(word, "--") {
		flag, value, found = t.set.ShorthandLookup(word[1:2]), word[2:], len(word) > 2
	}
	switch {
	case flag == nil || flag.NoOptDefVal != "":
	case found:
		_ = t.set.Set(flag.Name, value)
	default:
		t.waiting = flag
	}
}

// suggest is what the word in hand may become, or who else knows.
func (t *typedLine) suggest() ([]suggestion, string) {
	switch {
	case t.waiting != nil:
		return t.valuesTyped()
	case strings.HasPrefix(t.last, "-"):
		return t.flagNames(), ""
	case len(t.words) == 0:
		return append(commandNames(), suggestion{"help", "of a command or a topic"}), ""
	case len(t.words) == 1 && t.words[0] == "help":
		return append(commandNames(), plainly(topics)...), ""
	}
	cmd, err := find(t.words[0])
	switch {
	case err != nil || len(t.words) > cmd.maxArgs:
		return nil, ""
	case cmd.choices != nil:
		return plainly(cmd.choices), ""
	case strings.Contains(cmd.args, "DIR"):
		return nil, folders
	}
	return nil, files
}

func commandNames() []suggestion {
	var names []suggestion
	for _, c := range allCommands() {
		names = append(names, suggestion{c.name, c.does})
	}
	return names
}

func plainly(words []string) []suggestion {
	var plain []suggestion
	for _, word := range words {
		plain = append(plain, suggestion{word: word})
	}
	return plain
}

// commandTyped is the one that was typed; before it is, none with the flags of all.
func (t *typedLine) commandTyped() command {
	if len(t.words) == 0 {
		return command{}
	}
	cmd, _ := find(t.words[0])
	return cmd
}

func (t *typedLine) flagNames() []suggestion {
	var names []suggestion
	flagsOf(t.commandTyped()).VisitAll(func(f *pflag.Flag) {
		_, usage := pflag.UnquoteUsage(f)
		names = append(names, suggestion{"--" + f.Name, usage})
	})
	return names
}

// valuesTyped are those of the flag that waits for one.
func (t *typedLine) valuesTyped() ([]suggestion, string) {
	switch t.waiting.Name {
	case "workflow":
		return plainly(t.theStudy().WorkflowNames()), ""
	case "change":
		var names []string
		for _, change := range t.theStudy().Changes {
			names = append(names, change.Name)
		}
		return plainly(names), ""
	case "try":
		return plainly(trials(t.theStudy())), ""
	case "worker", "grow":
		return plainly(t.valuesOf(t.waiting.Name)), ""
	case "format":
		return plainly(t.commandTyped().answersIn()), ""
	case "form":
		return plainly(namesOf(stepfit.Forms)), ""
	case "spread":
		return plainly([]string{"0", "1", "2"}), ""
	case "grouping":
		return plainly(namesOf(answer.Groupings)), ""
	case "separate":
		return plainly(namesOf(answer.Separations)), ""
	case "scatter":
		return plainly(namesOf(answer.Scatters)), ""
	case "days-off":
		return weekdayNames(), ""
	}
	switch holds, _ := pflag.UnquoteUsage(t.waiting); holds {
	case "DIR":
		return nil, folders
	case "FILE":
		return nil, files
	}
	return nil, ""
}

// trials are plans to begin from: each way of working as it is sown, or as it might be.
func trials(s study.Study) []string {
	var plans []string
	for _, name := range s.WorkflowNames() {
		heads, every := float64(max(s.Heads, 1)), 7
		for _, sowing := range s.Sowings {
			if sowing.Workflow == name && sowing.Heads.Known && sowing.EveryDays > 0 {
				heads, every = sowing.Heads.Value, sowing.EveryDays
				break
			}
		}
		plans = append(plans, fmt.Sprintf("%s=%g/%d", name, heads, every))
	}
	return plans
}

func weekdayNames() []suggestion {
	var days []suggestion
	for w := time.Sunday; w <= time.Saturday; w++ {
		days = append(days, suggestion{strings.ToLower(w.String()[:3]), w.String()})
	}
	return days
}

// theStudy is the study that the command line is about, as far as it is right.
func (t *typedLine) theStudy() study.Study {
	st, _ := (&call{flags: t.flags}).onlyStudy()
	return st
}

// valuesOf are the workers or the grows of the readings, in order of the alphabet.
func (t *typedLine) valuesOf(what string) []string {
	opened, err := folder.Open(t.study, t.logs, folder.How{})
	if err != nil {
		return nil
	}
	names := opened.Readings.Workers
	if what == "grow" {
		names = opened.Readings.Grows
	}
	return slices.Sorted(slices.Values(names))
}
