package answer

import (
	"fmt"
	"slices"
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// notes say what a season does not hold, and what could be done otherwise.
func (l *seasonLayout) notes() []string {
	var workflows []study.Workflow
	var spaceless []string
	var notes []string
	for _, g := range l.grows {
		if slices.ContainsFunc(workflows, func(w study.Workflow) bool { return w.Name == g.workflow.Name }) {
			continue
		}
		workflows = append(workflows, g.workflow)
		if g.workflow.Space == nil && (l.models.Study.SpacePrice.Known || l.models.Study.SpaceM2.Known) {
			spaceless = append(spaceless, g.workflow.Name)
		}
	}
	for k, g := range l.grows {
		if l.sown[k].CutShort > 0 {
			notes = append(notes, l.lastHarvest(g, l.sown[k]))
		}
	}
	notes = append(notes, l.models.seasonNotes(workflows)...)
	if spaceless != nil {
		notes = append(notes, "space not counted, since these ways have no space in the study (space = [] says that one takes none): "+shortList(spaceless))
	}
	spared := make(linear, len(l.models.Steps))
	for day := range l.days {
		for i, load := range l.apart[day] {
			if load.Setups > 0 {
				spared[i].Setups += l.models.Study.Steps[i].Spared(load) * 7 / float64(l.days)
			}
		}
	}
	return append(notes, l.models.hints(spared)...)
}

// lastHarvest names the last day of sowing that still harvests all within the season.
func (l *seasonLayout) lastHarvest(g sowingGrows, s SownInAll) string {
	ripe := g.workflow.HarvestDay()
	for _, c := range g.workflow.Cuts {
		ripe = max(ripe, c.Day)
	}
	last := -1
	for _, start := range g.starts {
		if start+ripe < l.days {
			last = start
		}
	}
	name := words.Quote(g.workflow.Name)
	if last < 0 {
		return name + " is sown too late to harvest all of it within the season; what falls beyond its end is not counted"
	}
	day := fmt.Sprintf("day %d", last)
	if date := l.models.Study.Season.Date(last); date != nil {
		day = *date
	}
	if last == g.starts[len(g.starts)-1] { // what is cut short is not the harvest
		return fmt.Sprintf("%s: %s would run beyond the season's end, what falls there is not counted", name, words.Many(s.CutShort, "grow"))
	}
	return fmt.Sprintf("%s: %s would run beyond the season's end, what falls there is not counted; the last sowing that is still harvested within it is that of %s (until = %s)",
		name, words.Many(s.CutShort, "grow"), day, strings.TrimPrefix(quotedDate(day), "day "))
}

// quotedDate is a date as study.toml has it, or a day as its number.
func quotedDate(day string) string {
	if strings.HasPrefix(day, "day ") {
		return day
	}
	return `"` + day + `"`
}
