package answer

import "headhours/timing/condense"

// ByDate is a step's readings by date beside what its model expects, with the changes made
// to it.
type ByDate struct {
	Step   string
	Points []DatedPoint  // the first maxDated
	Left   int           // readings with a date beyond those
	Parts  []DatedPart   // between changes, those with a dated reading
	Lines  []DatedChange // in order of their days
}

// DatedPoint is a reading's time as a multiple of what the step's model as it is now expects.
type DatedPoint struct {
	Day   condense.Day
	Ratio float64
}

// DatedPart is the time of all dated readings between changes, over what is expected of
// them.
type DatedPart struct {
	First, Last condense.Day
	Ratio       float64
}

// DatedChange is a change that was made to a step.
type DatedChange struct {
	Day  condense.Day
	Name string
}

// maxDated is how many readings a step are drawn by date.
const maxDated = 2000

// ByDates are the steps that were changed, with their readings by date. The error is that of
// reading them again.
func (m *Models) ByDates() ([]ByDate, error) {
	at := make([]int, len(m.Steps)) // the place of a step's or stage's answer, from 1
	var all []ByDate
	var models []*StepModel
	var sums [][][2]float64
	for step, s := range m.Stages {
		if s == nil || m.Steps[step].isGap() {
			continue
		}
		d := ByDate{Step: m.Study.Steps[step].Name}
		for i, change := range s.Changes {
			d.Lines = append(d.Lines, DatedChange{s.Since[i], m.Study.Made[change].Name})
		}
		d.Parts = make([]DatedPart, len(s.At))
		for i := range d.Parts {
			d.Parts[i] = DatedPart{First: condense.NoDay, Last: condense.NoDay}
		}
		all, models, sums = append(all, d), append(models, &m.Steps[step]), append(sums, make([][2]float64, len(s.At)))
		for _, stage := range s.At {
			at[stage] = len(all)
		}
		at[step] = len(all)
	}
	if len(all) == 0 {
		return nil, nil
	}
	err := m.Each(func(step int, b *condense.Batch, row int) {
		r := b.Rows.At(row)
		day := r.Day
		if at[step] == 0 || day == condense.NoDay {
			return
		}
		i := at[step] - 1
		d, t := &all[i], b.Timed(&m.Steps[step].Step, r)
		expected := models[i].Model.At(t.Load)
		if expected <= 0 {
			return
		}
		d.add(DatedPoint{day, t.Seconds / expected})
		stage := m.Stages[m.Index[d.Step]].Of(day)
		sums[i][stage][0] += t.Seconds
		sums[i][stage][1] += expected
		part := &d.Parts[stage]
		if part.First == condense.NoDay || day < part.First {
			part.First = day
		}
		part.Last = max(part.Last, day)
		part.Ratio = sums[i][stage][0] / sums[i][stage][1]
	})
	return all, err
}

func (d *ByDate) add(p DatedPoint) {
	if len(d.Points) == maxDated {
		d.Left++
		return
	}
	d.Points = append(d.Points, p)
}
