package answer

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"headhours/timing/study"
	"headhours/timing/words"
)

// Reconciliation is how much of a worker's wall clock, from the first start to
// the last end of a session or a spell of work, has a name.
type Reconciliation struct {
	Worker   string   `json:"worker"`
	Session  string   `json:"session"` // "" for a spell that a log tells of
	Date     string   `json:"date"`
	Minutes  float64  `json:"minutes"` // of wall clock
	Named    float64  `json:"named_share"`
	Nameless float64  `json:"nameless_minutes"`
	Overlaps []string `json:"overlaps"` // stretches of the worker's that lie over each other
}

// Unnamed says that too much of the wall clock has no name: more than 2 %, the
// usual bound of a time study form (common practice, no source).
func (r Reconciliation) Unnamed() bool { return r.Named < 0.98 }

// overlapSeconds is how long two stretches may lie over each other before it is
// said: clocks noted to the minute meet in the same minute.
const overlapSeconds = 60

// Reconcile holds the stretches that have a name against the wall clock, for
// each worker and session, in order of date, worker and session.
func Reconcile(stretches []study.Stretch) []Reconciliation {
	type key struct {
		date            time.Time
		worker, session string
	}
	by := map[key][]study.Stretch{}
	var keys []key
	for _, n := range stretches {
		k := key{n.Date, n.Worker, n.Session}
		if by[k] == nil {
			keys = append(keys, k)
		}
		by[k] = append(by[k], n)
	}
	slices.SortFunc(keys, func(a, b key) int {
		return cmp.Or(a.date.Compare(b.date), cmp.Compare(a.worker, b.worker), cmp.Compare(a.session, b.session))
	})
	found := []Reconciliation{}
	for _, k := range keys {
		slices.SortStableFunc(by[k], func(a, b study.Stretch) int { return cmp.Compare(a.Start, b.Start) })
		spells := [][]study.Stretch{by[k]}
		if k.session == "" {
			spells = spellsOf(by[k])
		}
		for _, spell := range spells {
			r := reconcile(spell)
			r.Worker, r.Session, r.Date = k.worker, k.session, k.date.Format(time.DateOnly)
			found = append(found, r)
		}
	}
	return found
}

// betweenSpells is a time without any reading, in seconds, after which a log is
// taken to go on with another spell of work rather than to have left one out.
const betweenSpells = 3600

// spellsOf splits the stretches of a day, in order of start, into spells of work.
func spellsOf(day []study.Stretch) [][]study.Stretch {
	var spells [][]study.Stretch
	end := 0.0
	for i, n := range day {
		if i == 0 || n.Start-end > betweenSpells {
			spells = append(spells, nil)
		}
		spells[len(spells)-1] = append(spells[len(spells)-1], n)
		end = max(end, n.End)
	}
	return spells
}

// reconcile works out one spell, its stretches in order of start.
func reconcile(stretches []study.Stretch) Reconciliation {
	r := Reconciliation{Overlaps: []string{}}
	reached := stretches[0] // the one that has reached furthest
	var named float64
	end := stretches[0].Start
	for i, n := range stretches {
		if i > 0 && reached.End-n.Start > overlapSeconds {
			r.Overlaps = append(r.Overlaps, fmt.Sprintf("%s (%s) and %s (%s) overlap by %s minutes",
				reached.What, reached.Place, n.What, n.Place, words.Fixed((min(reached.End, n.End)-n.Start)/60, 0)))
		}
		if n.End > end {
			named += n.End - max(n.Start, end)
			end = n.End
		}
		if n.End >= reached.End {
			reached = n
		}
	}
	wall := end - stretches[0].Start
	r.Minutes, r.Named = wall/60, 1
	if wall > 0 {
		r.Named = named / wall
	}
	r.Nameless = (wall - named) / 60
	return r
}
