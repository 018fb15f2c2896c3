package condense

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// With more readings is as if all had been there, time and again, and leaves what it began
// with as it was.
func TestWithIsAllAtOnce(t *testing.T) {
	t.Parallel()
	for seed := range uint64(3) {
		readings := ofAll(450, seed)
		for _, at := range []int{0, 1, 255, 380} {
			c := gather(t, twoChanges(), Filter{}, readings[:at])
			before := described(c)
			more, again := c.With(readings[at:]), c.With(readings[at:])
			alike(t, gather(t, twoChanges(), Filter{}, readings), more)
			require.Equal(t, described(more), described(again))
			alike(t, gather(t, twoChanges(), Filter{}, readings), c.With(readings[at:400]).With(readings[400:]))
			require.Equal(t, before, described(c))
		}
	}
}

// Two continuations of one do not see each other.
func TestWithTwoWays(t *testing.T) {
	readings := ofAll(900, 3)
	c := gather(t, twoChanges(), Filter{}, readings[:400])
	left := c.With(readings[400:600])
	said := described(left)
	right := c.With(readings[600:])
	require.Equal(t, said, described(left))
	alike(t, gather(t, twoChanges(), Filter{}, readings[:400], readings[600:]), right)
	require.Same(t, c, c.With(nil))
}

// What goes through readings again finds those that came later behind the others, and the
// filter holds for them too.
func TestWithGoesThroughAllAgain(t *testing.T) {
	readings := ofAll(120, 4)
	c := gather(t, twoChanges(), Filter{Grow: "g1"}, readings[:70]).With(readings[70:])
	var want, got []int
	steps := []string{"sow", "thin", "pick"}
	for _, r := range readings {
		if r.Grow == "g1" && r.Void == "" && slices.Contains(steps, r.Step) {
			want = append(want, r.Place.Line)
		}
	}
	line := func(b *Batch, row int) int { return b.Place(b.Rows.At(row)).Line }
	require.NoError(t, c.Each(func(_ int, b *Batch, row int) { got = append(got, line(b, row)) }))
	require.Equal(t, want, got)
	some := func(_ int, b *Batch, row int) bool { return line(b, row)%3 == 1 }
	got = nil
	require.NoError(t, c.EachThat(some, func(_ int, b *Batch, row int) { got = append(got, line(b, row)) }))
	require.Equal(t, slices.DeleteFunc(want, func(line int) bool { return line%3 != 1 }), got)
	require.NotEmpty(t, got)
}

// Readings of a step that the study lacks are passed over; without a study they begin it.
func TestStepsUnheardOf(t *testing.T) {
	c := gather(t, twoChanges(), Filter{}, []study.Reading{plainReading("weed"), plainReading("sow")})
	require.NotContains(t, c.Index, "weed")
	require.Len(t, c.Study.Steps, 3)
	c = gather(t, nil, Filter{}, []study.Reading{plainReading("weed"), plainReading("sow"), plainReading("weed"), plainReading("")})
	require.Equal(t, map[string]int{"weed": 0, "sow": 1}, c.Index)
	require.Equal(t, []string{"weed", "sow"}, c.Study.StepNames())
	require.Equal(t, []int{2, 1}, []int{c.Steps[0].Readings, c.Steps[1].Readings})
	require.Equal(t, study.DefaultConfidence, c.Study.Confidence)
}

// A reading that is named as a stage before a change is of no step: the study names none so.
func TestStageNamesAreNoSteps(t *testing.T) {
	stages := []study.Reading{plainReading("thin (before 2027-03-20)"), plainReading("thin (before 2027-04-09)"), plainReading("sow")}
	c := gather(t, twoChanges(), Filter{}, onDays(1, 25, 50), stages)
	alike(t, c, gather(t, twoChanges(), Filter{}, onDays(1, 25, 50)).With(stages))
	require.Equal(t, []int{1, 1, 1}, c.Stages[1].Readings)
	require.Equal(t, 1, c.Steps[0].Readings)
}
