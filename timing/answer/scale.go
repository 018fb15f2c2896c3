package answer

import (
	"slices"

	"headhours/timing/study"
)

// scaleHeads are the numbers of heads that hours are given for where none are
// asked for; the study's own is added.
var scaleHeads = []int{10, 20, 50, 100, 200, 500, 1000, 2000, 5000}

// Scale is hours against heads.
type Scale struct {
	Confidence float64     `json:"confidence"`
	Common     Common      `json:"common"`
	Workflows  []ScaleLine `json:"workflows"`
	Notes      []string    `json:"notes"`
}

// ScaleLine is one workflow's hours at rising numbers of heads.
type ScaleLine struct {
	Workflow string       `json:"workflow"`
	Points   []ScalePoint `json:"points"`
	Gaps     []string     `json:"gaps"`
}

// ScalePoint is what one grow of so many heads takes, in person-hours of
// standard time.
type ScalePoint struct {
	Heads          int         `json:"heads"`
	Hours          float64     `json:"hours_h"`
	Low            study.Maybe `json:"low_h"`
	High           study.Maybe `json:"high_h"`
	MinutesPerHead float64     `json:"minutes_per_head"`
	Extrapolated   bool        `json:"extrapolated"`
	Beyond         []string    `json:"-"` // the steps that make it so
}

// Scale gives the hours of workflows at each number of heads, rising and each
// once; none means scaleHeads and the study's. The errors are those of Compare.
func (m *Models) Scale(names []string, heads []int) (Scale, error) {
	workflows, err := m.Study.Choose(names)
	if err != nil {
		return Scale{}, err
	}
	if len(heads) == 0 {
		heads = slices.Clone(scaleHeads)
		if m.Study.Heads > 0 {
			heads = append(heads, m.Study.Heads)
		}
	}
	heads = slices.Compact(slices.Sorted(slices.Values(heads)))
	scale := Scale{Confidence: m.Confidence, Common: m.common(), Workflows: []ScaleLine{}, Notes: m.notes(workflows...)}
	for _, w := range workflows {
		line := ScaleLine{Workflow: w.Name, Points: []ScalePoint{}, Gaps: []string{}}
		for _, n := range heads {
			h := m.hours(w, n)
			line.Gaps = h.Gaps
			line.Points = append(line.Points, ScalePoint{
				Heads: n, Hours: h.Hours, Low: h.Low, High: h.High,
				MinutesPerHead: h.MinutesPerHead,
				Extrapolated:   h.Extrapolated, Beyond: h.Rests.Beyond,
			})
		}
		scale.Workflows = append(scale.Workflows, line)
	}
	return scale, nil
}
