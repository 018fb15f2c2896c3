package condense

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// Both days of a range are in it, a reading without a day is in none, and a filter asks for
// all that it names.
func TestFilterByTable(t *testing.T) {
	for _, c := range []struct {
		name   string
		filter Filter
		day    int // 0 is none
		worker string
		want   bool
	}{
		{"none", Filter{}, 0, "", true},
		{"worker", Filter{Worker: "ab"}, 0, "ab", true},
		{"another worker", Filter{Worker: "ab"}, 0, "cd", false},
		{"no worker", Filter{Worker: "ab"}, 0, "", false},
		{"since that day", Filter{Since: day(5)}, 5, "", true},
		{"the day before", Filter{Since: day(5)}, 4, "", false},
		{"until that day", Filter{Until: day(5)}, 5, "", true},
		{"the day after", Filter{Until: day(5)}, 6, "", false},
		{"undated, since", Filter{Since: day(5)}, 0, "", false},
		{"undated, until", Filter{Until: day(5)}, 0, "", false},
		{"one day", Filter{Since: day(5), Until: day(5)}, 5, "", true},
		{"all of it", Filter{Since: day(1), Until: day(9), Worker: "ab", Grow: "g1"}, 5, "ab", true},
		{"but for the grow", Filter{Since: day(1), Until: day(9), Worker: "ab", Grow: "g2"}, 5, "ab", false},
	} {
		r := plainReading("pick")
		r.Worker, r.Grow = c.worker, "g1"
		if c.day > 0 {
			r.Date = day(c.day)
		}
		b := batchOf([]study.Reading{r})
		require.Equal(t, c.want, c.filter.Takes(b, b.Rows.At(0)), c.name)
		want := 0
		if c.want {
			want = 1
		}
		require.Equal(t, want, gather(t, twoChanges(), c.filter, []study.Reading{r}).Steps[2].Readings, c.name)
	}
}

// Names are listed whether or not the filter takes them: they are what may be asked for.
func TestFilteredNamesAreListed(t *testing.T) {
	a, b := plainReading("sow"), plainReading("sow")
	a.Worker, a.Grow, b.Worker, b.Grow = "ab", "g1", "cd", "g2"
	c := gather(t, twoChanges(), Filter{Worker: "cd"}, []study.Reading{a, b})
	require.Equal(t, []string{"ab", "cd"}, c.Workers)
	require.Equal(t, []string{"g1", "g2"}, c.Grows)
	require.Equal(t, 1, c.Steps[0].Readings)
}

// Voided readings are listed with their reasons, in order, those that the filter takes.
func TestVoidedAreListed(t *testing.T) {
	readings := ofAll(300, 12)
	for _, filter := range []Filter{{}, {Worker: "ab"}, {Since: day(10)}} {
		c := gather(t, twoChanges(), filter, readings)
		got, err := c.Voided()
		require.NoError(t, err)
		var want []VoidedReading
		for _, r := range readings {
			if r.Void != "" && (filter.Worker == "" || r.Worker == filter.Worker) && (filter.Since.IsZero() || !r.Date.Before(filter.Since)) {
				want = append(want, VoidedReading{r.Step, r.Place.File, r.Place.Line, study.Known(r.Count), r.Basic(), r.Void})
			}
		}
		require.NotEmpty(t, want)
		require.Equal(t, want, got)
	}
	gone := errors.New("gone")
	c := gather(t, twoChanges(), Filter{}, readings)
	c.Again = func(func(*Batch), func(*Batch) error) error { return gone }
	_, err := c.Voided()
	require.Equal(t, gone, err)
	require.Equal(t, gone, c.Each(nil))

	c = gather(t, twoChanges(), Filter{}, onDays(1)) // none are voided: nothing is read again
	c.Again = func(func(*Batch), func(*Batch) error) error { return gone }
	list, err := c.Voided()
	require.NoError(t, err)
	require.Equal(t, []VoidedReading{}, list)
}

// What readings say of a grow that the study lists: laps begin no visit, voided ones say
// nothing, and those under another way are counted apart.
func TestGrow(t *testing.T) {
	var readings []study.Reading
	add := func(step string, change func(*study.Reading)) {
		r := plainReading(step)
		r.Grow, r.Workflow = "g1", "tray"
		change(&r)
		readings = append(readings, r)
	}
	add("sow", func(*study.Reading) {})
	add("sow", func(r *study.Reading) { r.Setups = study.Known(0) })
	add("pick", func(r *study.Reading) { r.Setups = study.Known(2); r.People = 2 })
	add("pick", func(r *study.Reading) { r.Void = "dropped" })
	add("pick", func(r *study.Reading) { r.Workflow = "plug" })
	add("pick", func(r *study.Reading) { r.Workflow = "" })
	add("pick", func(r *study.Reading) { r.Grow = "g2" })
	add("weed", func(*study.Reading) {})
	c := gather(t, twoChanges(), Filter{}, readings[:3], readings[3:])
	require.Equal(t, growTally{"tray", 5, 1, 360, map[int]int{0: 1, 2: 3}}, c.Grow("g1"))
	require.Equal(t, growTally{workflow: "tray", Visits: map[int]int{}}, c.Grow("g9"))
	require.Equal(t, growTally{}, c.Grow("g2"))
	require.Equal(t, 0, gather(t, twoChanges(), Filter{Since: day(1)}, readings).Grow("g1").Readings)
}
