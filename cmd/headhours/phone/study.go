package phone

import (
	"net/http"
	"slices"
	"time"

	"headhours/report/look"
	"headhours/timing/answer"
	"headhours/timing/stepfit"
	"headhours/timing/study"
	"headhours/timing/words"
)

// described is a study as far as the page needs it.
type described struct {
	Name      string     `json:"name"`
	Workflows []workflow `json:"workflows"`
	Steps     []step     `json:"steps"`
	Grows     []string   `json:"grows"`
	Ways      grownIn    `json:"ways"`
	Report    bool       `json:"report"`   // there is one to show
	Problems  []string   `json:"problems"` // what is wrong with logs and journals: usual times are without them
	Page      string     `json:"page"`     // the version of the page
	Reading   bool       `json:"reading"`  // logs are being read: usual times may change
}

// grownIn is the way that each grow is of, of those of which that is known.
type grownIn map[string]string

type workflow struct {
	Name  string `json:"name"`
	Tasks []task `json:"tasks"` // a step each, in order of first use
}

type task struct {
	Step string      `json:"step"`
	Due  study.Maybe `json:"due"` // its count, where every doing has the same
	// Fixed is the count where it is the same however many heads: nobody is asked.
	Fixed study.Maybe `json:"fixed"`
	Days  []dueDay    `json:"doings"` // by day
}

// dueDay is what is due of a task on a day from sowing.
type dueDay struct {
	Day   int         `json:"day"`
	Count study.Maybe `json:"count"`
}

type step struct {
	Name   string      `json:"name"`
	Per    string      `json:"per"`
	Pers   string      `json:"pers"`    // more than one
	Whole  bool        `json:"whole"`   // what a plan foresees of it is a whole number of things
	UsualS study.Maybe `json:"usual_s"` // seconds of a reading
	Fixed  study.Maybe `json:"fixed"`   // as a task's, of work outside the workflow in hand
	Look   stepLook    `json:"look"`
}

// stepLook is the colour of a step in figures, what is written on it, and the letter.
type stepLook struct {
	Fill   string `json:"fill"`
	Ink    string `json:"ink"`
	Letter string `json:"letter"`
}

// looks are those of a study's steps, by name.
func looks(st study.Study) map[string]stepLook {
	looks := map[string]stepLook{}
	for i, name := range st.StepsToTellApart() {
		s := look.StepAt(i)
		looks[name] = stepLook{look.Hex(s.Fill), look.Hex(look.Onto(s.Fill)), s.Letter}
	}
	return looks
}

// maxUsualWait is how long a page waits for logs that are being read.
const maxUsualWait = 300 * time.Millisecond

// answerStudy answers with the study. Where its file has problems they are the
// error: the page then goes on with what it knows.
func (d *desk) answerStudy(w http.ResponseWriter, r *http.Request) {
	study, err := d.study()
	if err != nil {
		http.Error(w, err.Error(), http.StatusConflict)
		return
	}
	latest := d.usual.Latest(maxUsualWait)
	models := latest.Models
	if models == nil { // the usual times are judged ones
		models = answer.Fit(study, nil, answer.Options{})
	}
	page := describe(models, grows(models), isFile(d.reportFile()))
	page.Problems, page.Reading, page.Page = latest.Problems, !latest.Ready, newAssets().version
	reply(w, page)
}

func describe(models *answer.Models, grows []string, report bool) described {
	page := described{Name: models.Study.Name, Workflows: []workflow{}, Steps: []step{}, Grows: grows, Ways: grownIn{}, Report: report}
	ways := models.WaysOfGrows()
	for _, grow := range grows {
		if way := models.WayOf(grow, ways); slices.Contains(models.Study.WorkflowNames(), way) {
			page.Ways[grow] = way
		}
	}
	due, all := map[string]study.Maybe{}, chores(models.Study)
	for _, w := range models.Study.Workflows {
		days, _ := models.Due(w.Name, "") // the name is the study's own
		to := workflow{Name: w.Name, Tasks: tasks(w, days)}
		for _, t := range to.Tasks {
			if !due[t.Step].Known {
				due[t.Step] = t.Due
			}
		}
		page.Workflows = append(page.Workflows, to)
		all = append(all, days...)
	}
	colours := looks(models.Study)
	for _, s := range models.Steps[:len(models.Study.Steps)] { // behind are stages before changes
		name := s.Step.Name
		given := fixed(all, name)
		page.Steps = append(page.Steps, step{
			name, s.Step.Per, words.Plural(s.Step.Per), !given.Known && !words.IsMeasure(s.Step.Per), usualTime(models, s, due[name].Value), given, colours[name],
		})
	}
	return page
}

// chores are the doings that belong to the place, whose counts the study gives.
func chores(st study.Study) []answer.Due {
	var days []answer.Due
	for _, c := range st.Chores {
		days = append(days, answer.Due{Step: c.Step, Count: study.Known(c.Count), Fixed: true})
	}
	return days
}

// tasks lists the steps of a workflow. Those that there is nothing to do of, such
// as thinning at one seed a cell, are tasks all the same: life differs from plans.
func tasks(w study.Workflow, days []answer.Due) []task {
	list, seen := []task{}, map[string]bool{}
	for _, t := range w.Tasks {
		if !seen[t.Step] {
			list = append(list, task{t.Step, alike(days, t.Step), fixed(days, t.Step), due(days, t.Step)})
		}
		seen[t.Step] = true
	}
	return list
}

// due lists what is due of a step, by day.
func due(days []answer.Due, step string) []dueDay {
	list := []dueDay{}
	for _, d := range days {
		if d.Step == step {
			list = append(list, dueDay{d.Day, d.Count})
		}
	}
	return list
}

// fixed is the count of a step where all its doings have the same, however many
// heads there are.
func fixed(days []answer.Due, step string) study.Maybe {
	for _, d := range days {
		if d.Step == step && !d.Fixed {
			return study.Maybe{}
		}
	}
	return alike(days, step)
}

// alike is the count of a step where all its doings have the same.
func alike(days []answer.Due, step string) study.Maybe {
	var count study.Maybe
	for _, d := range days {
		switch {
		case d.Step != step:
		case count.Known && d.Count != count:
			return study.Maybe{}
		default:
			count = d.Count
		}
	}
	return count
}

// usualTime is what a reading of a step usually takes, in seconds: the mean of what
// was timed, else what is judged for the count that is due.
func usualTime(models *answer.Models, s answer.StepModel, due float64) study.Maybe {
	if s.Readings > 0 && s.Model.AtMean() > 0 {
		return study.Known(s.Model.AtMean())
	}
	if u, ok := models.Usual(s.Step.Name, stepfit.Load{Setups: 1, Count: due}); ok {
		return study.Known(u.Seconds)
	}
	return study.Maybe{}
}

// grows lists the grows that the study or a reading names, the latest last.
func grows(m *answer.Models) []string {
	names := []string{}
	add := func(name string) {
		if name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, g := range m.Study.Grows {
		add(g.Name)
	}
	for _, grow := range m.Grows {
		add(grow)
	}
	return names
}
