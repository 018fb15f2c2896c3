package condense

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// A batch has of a reading what a fit needs: its names, its place, what it says of setups,
// hands and pace.
func TestBatchOfHasAllOfAReading(t *testing.T) {
	readings := ofAll(200, 11)
	var at int
	require.NoError(t, InMemory(readings)(nil, func(b *Batch) error {
		voids := b.Voids
		for i := range b.Rows.Len() {
			r, row := readings[at], b.Rows.At(i)
			at++
			what, how := b.What[row.What], b.How[row.How]
			require.Equal(t, r.Place, b.Place(row))
			require.Equal(t, []string{r.Step, r.Workflow, r.Grow, r.Worker}, []string{b.Name(row, StepNames), b.Name(row, WorkflowNames), b.Name(row, GrowNames), b.Name(row, WorkerNames)})
			require.Equal(t, []any{r.Count, r.Seconds, r.Basic()}, []any{row.Count, row.Seconds, how.Basic(row.Seconds)})
			require.Equal(t, r.Setups.Known, how.HasSetups)
			require.Equal(t, r.Setups.Value, how.Setups)
			require.Equal(t, r.Source == study.ByJudgement, how.Judged)
			require.True(t, r.Date.Equal(row.Day.Date()))
			if what.Voided {
				require.Equal(t, r.Void, voids[0])
				voids = voids[1:]
			} else {
				require.Empty(t, r.Void)
			}
		}
		require.Empty(t, voids)
		return nil
	}))
	require.Equal(t, len(readings), at)
}

// Readings of another file, sheet or column begin another batch.
func TestBatchesByFile(t *testing.T) {
	places := []study.Place{{File: "a"}, {File: "a"}, {File: "b"}, {File: "b", Sheet: "May"}, {File: "b", Sheet: "May", Column: 3}, {File: "a"}}
	var readings []study.Reading
	for _, p := range places {
		r := plainReading("sow")
		r.Place = p
		readings = append(readings, r)
	}
	var sizes []int
	require.NoError(t, InMemory(readings)(nil, func(b *Batch) error { sizes = append(sizes, b.Rows.Len()); return nil }))
	require.Equal(t, []int{2, 1, 1, 1, 1}, sizes)
	stop := errors.New("full")
	calls := 0
	require.Equal(t, stop, InMemory(readings)(nil, func(*Batch) error { calls++; return stop }))
	require.Equal(t, 1, calls)
	require.NoError(t, InMemory(nil)(nil, func(*Batch) error { return stop }))
}

// A day is that of its date, before 1970 and in leap years too, and back.
func TestDays(t *testing.T) {
	for _, date := range []string{"1970-01-01", "1969-12-31", "1900-03-01", "2024-02-29", "2027-12-31", "9999-12-31", "0001-01-02"} {
		d, err := time.Parse(time.DateOnly, date)
		require.NoError(t, err)
		require.Equal(t, date, DayOf(d).Date().Format(time.DateOnly))
		require.Equal(t, DayOf(d)+1, DayOf(d.AddDate(0, 0, 1)), date)
	}
	require.Equal(t, Day(0), DayOf(time.Unix(0, 0).UTC()))
	require.Equal(t, NoDay, DayOf(time.Time{}))
	require.True(t, NoDay.Date().IsZero())
}

// A number is a value's for good, until all are forgotten.
func TestIndex(t *testing.T) {
	var x Index[string]
	require.Equal(t, []uint32{0, 1, 0, 2, 2, 1}, []uint32{x.Of("b"), x.Of("a"), x.Of("b"), x.Of(""), x.Of(""), x.Of("a")})
	require.Equal(t, []string{"b", "a", ""}, x.List)
	x.clear()
	require.Equal(t, uint32(0), x.Of("a"))
	require.Equal(t, uint32(1), x.Of("b"))
}

// What readings say of days: the first, the last, and how many say none.
func TestDaysOfKinds(t *testing.T) {
	readings := onDays(9, 0, 3, 12, 0, 3)
	for i := range readings {
		readings[i].Step = "pick"
	}
	for _, c := range []*Condensed{gather(t, twoChanges(), Filter{}, readings), gather(t, twoChanges(), Filter{}, readings[:2], readings[2:4], readings[4:])} {
		k := c.Steps[2].Kinds.inOrder(0)
		require.Equal(t, dateRange{First: DayOf(day(3)), Last: DayOf(day(12)), Undated: 2}, k.dateRange)
	}
	k := gather(t, twoChanges(), Filter{}, []study.Reading{plainReading("pick")}).Steps[2].Kinds.inOrder(0)
	require.Equal(t, dateRange{First: NoDay, Last: NoDay, Undated: 1}, k.dateRange)
}

// How many setups a reading held: what it says, else as its step's setup covers.
func TestLoadOf(t *testing.T) {
	for _, c := range []struct {
		says   study.Maybe
		covers float64
		count  float64
		want   float64
	}{
		{study.Maybe{}, 0, 50, 1}, {study.Maybe{}, 20, 50, 3}, {study.Maybe{}, 20, 40, 2}, {study.Maybe{}, 20, 40.1, 3}, {study.Maybe{}, 20, 1, 1},
		{study.Known(0), 20, 50, 0}, {study.Known(4), 0, 50, 4}, {study.Known(1), 20, 50, 1},
	} {
		r := plainReading("sow")
		r.Setups, r.Count = c.says, c.count
		b := batchOf([]study.Reading{r})
		step := study.Step{Name: "sow", SetupCovers: c.covers}
		require.Equal(t, c.want, LoadOf(&step, &b.How[0], c.count).Setups)
		require.Equal(t, c.want, b.Timed(&step, b.Rows.At(0)).Setups)
		st := &study.Study{Steps: []study.Step{step}}
		load, _ := gather(t, st, Filter{}, []study.Reading{r}).Steps[0].Sums.Totals()
		require.Equal(t, c.want, load.Setups, "%+v", c)
	}
}
