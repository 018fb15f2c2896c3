package stepfit

import (
	"math"
	"slices"
)

// rows are readings on wider scales than setups, counts and seconds: weighted
// rows with a column for each fixed effect and the times last, condensed as by
// centred.
type rows struct {
	weight float64
	mean   []float64
	about  triangle
}

func newRows(width int) rows {
	return rows{mean: make([]float64, width), about: newTriangle(width)}
}

// add takes in a row, or the mean of many with the weight of all of them.
func (r *rows) add(weight float64, row []float64) {
	total := r.weight + weight
	root := math.Sqrt(r.weight * (weight / total))
	about := make([]float64, len(row))
	for j := range row {
		d := row[j] - r.mean[j]
		r.mean[j] += d * (weight / total)
		about[j] = root * d
	}
	r.weight = total
	r.about.rotateIn(about)
}

// merge takes in readings whose setups, counts and times stand in the columns
// that place names: column j of theirs in each of place[j].
func (r *rows) merge(c centred, place [columns][]int) {
	if c.weight == 0 {
		return
	}
	wide := make([]float64, len(r.mean))
	spread := func(narrow []float64) []float64 {
		clear(wide)
		for j, x := range narrow {
			for _, k := range place[j] {
				wide[k] = x
			}
		}
		return wide
	}
	for i := range columns {
		r.about.rotateIn(spread(c.about[i*columns : (i+1)*columns]))
	}
	r.add(c.weight, spread(c.mean[:]))
}

// mixed is readings in groups, of the model
//
//	t = Xβ + u + e, u ~ N(0, θσ²) one for each group, e ~ N(0, σ²/w)
//
// (Laird and Ware, Biometrics 38, 1982, with one random intercept). Within a
// group of total weight W the covariance of the times is σ²(D + θ11'), D = diag(1/w),
// whose inverse is (C − θ C11'C/(1 + θW))/σ², C = diag(w). So the readings about
// their group's mean count as they are, and that mean with the weight W/(1 + θW).
// No more is kept of the readings than this: what is about the means, all groups
// together, and the means.
type mixed struct {
	effects    int // fixed effects, p; the times are column p
	readings   int // N
	logWeights float64
	within     triangle
	groups     []rows // their weight and mean; about is spent
}

func newMixed(effects, readings int, logWeights float64) *mixed {
	return &mixed{effects: effects, readings: readings, logWeights: logWeights, within: newTriangle(effects + 1)}
}

// add takes in all readings of a group; they are used up.
func (m *mixed) add(group rows) {
	for i := range m.effects + 1 {
		m.within.rotateIn(group.about.row(i))
	}
	m.groups = append(m.groups, rows{weight: group.weight, mean: group.mean})
}

// df is the degrees of freedom of σ² about the fixed effects.
func (m *mixed) df() float64 { return float64(m.readings - m.effects) }

// stacked is the triangular factor of all rows, weighted for a θ.
func (m *mixed) stacked(theta float64) triangle {
	all := m.within.clone()
	row := make([]float64, m.effects+1)
	for _, g := range m.groups {
		root := math.Sqrt(g.weight / (1 + theta*g.weight))
		for j, x := range g.mean {
			row[j] = root * x
		}
		all.rotateIn(row)
	}
	return all
}

// aliased are the columns but for the last, the fixed effects, that in part of the
// readings are, to rounding, a mix of those before them: the factors are of that part and
// of all.
func aliased(part, all triangle) []int {
	var found []int
	for j := range part.width - 1 {
		square := 0.0
		for i := range j + 1 {
			square += all.at(i, j) * all.at(i, j)
		}
		if math.Abs(part.at(j, j)) <= sameRatio*math.Sqrt(square) {
			found = append(found, j)
		}
	}
	return found
}

// without is the same readings without some of the fixed effects.
func (m *mixed) without(effects []int) *mixed {
	if len(effects) == 0 {
		return m
	}
	less := newMixed(m.effects-len(effects), m.readings, m.logWeights)
	less.within = m.within.without(effects)
	for _, g := range m.groups {
		less.groups = append(less.groups, rows{weight: g.weight, mean: without(g.mean, effects)})
	}
	return less
}

// without is the factor without some of its columns.
func (t triangle) without(columns []int) triangle {
	if len(columns) == 0 {
		return t
	}
	less := newTriangle(t.width - len(columns))
	for i := range t.width {
		less.rotateIn(without(t.row(i), columns))
	}
	return less
}

func without(row []float64, columns []int) []float64 {
	kept := make([]float64, 0, len(row))
	for j, x := range row {
		if !slices.Contains(columns, j) {
			kept = append(kept, x)
		}
	}
	return kept
}
