package sheet

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
	"headhours/timing/tasklog"
)

func written(t *testing.T, st study.Study, workflow study.Workflow) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, Write(&b, st, workflow))
	return b.String()
}

// found is what stands in every place that a pattern with one group finds.
func found(pattern, text string) (all []string) {
	for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(text, -1) {
		all = append(all, m[1])
	}
	return all
}

// tasks is a workflow of so many tasks.
func tasks(n int) study.Workflow {
	w := study.Workflow{Name: "tray, three seeds"}
	for i := range n {
		w.Tasks = append(w.Tasks, study.Task{Step: fmt.Sprintf("step %d", i+1), Days: []int{0, 7, i + 10}})
	}
	return w
}

func TestTasksInOrder(t *testing.T) {
	st := study.Study{Steps: []study.Step{{Name: "sow", Per: "seed"}, {Name: "top up", Per: "litre"}, {Name: "look over"}}}
	page := written(t, st, study.Workflow{Tasks: []study.Task{
		{Step: "sow", Days: []int{0}},
		{Step: "top up", Days: []int{19, 24, 28}},
		{Step: "sow", Days: []int{3}},
		{Step: "look over", Days: []int{1, 3, 5, 7, 9, 11, 13, 15}},
	}})
	blank := make([]string, 17)
	assert.Equal(t, append([]string{"sow", "top up", "sow", "look over"}, blank...), found(`<td class="step">([^<]*)</td>`, page))
	boxes := found(`<td class="box">([^<]*)</td>`, page)
	assert.Equal(t, []string{"day 0", "seed", "", "day 19 24 28", "litre", "", "day 3", "seed", "", "day 1 … 15 (8×)"}, boxes[:10])
	numbers := found(`<td class="number">(\d+)</td>`, page)
	assert.Equal(t, []string{"1", "21"}, []string{numbers[0], numbers[20]})
}

// However many the tasks, some rows stay blank.
func TestRows(t *testing.T) {
	for n, want := range map[int]int{0: 21, 17: 21, 18: 22, 40: 44} {
		assert.Len(t, found(`<td class="(number)">`, written(t, study.Study{}, tasks(n))), want)
	}
}

// What was written on a sheet is a task log when it is typed in: its boxes and
// its head bear the names of the log's columns.
func TestBoxesAreColumns(t *testing.T) {
	page := written(t, study.Study{}, study.Workflow{Name: "tray"})
	columns := found(`<th scope="col">([^<]*)</th>`, page)[:10]
	columns = append(columns, found(`<div[^>]*><b>(grow|source)</b>`, page)...)
	columns = append(columns, found(`<small>(workflow)</small>`, page)...)
	typed := strings.Join(columns, ",") + "\nsow,2026-03-02,w1,2,9:05,9:15,1:30,3:07,24,0,g1,watch,tray\n"
	log, err := tasklog.Read(strings.NewReader(typed), "typed.csv", tasklog.Dialect{})
	require.NoError(t, err)
	r := log.Readings[0]
	assert.Equal(t, []any{"sow", "w1", 2.0, 90.0, 187.0, 24.0, 0.0, "g1", study.Watch, "tray"},
		[]any{r.Step, r.Worker, r.People, r.Paused, r.Seconds, r.Count, r.Setups.Value, r.Grow, r.Source, r.Workflow})
	assert.True(t, r.Start.Known && r.End.Known && !r.Date.IsZero())
}

func TestNamesAreEscaped(t *testing.T) {
	const name = `<b>Ana</b> & "co"`
	st := study.Study{Name: name, Steps: []study.Step{{Name: name, Per: name}}}
	page := written(t, st, study.Workflow{Name: name, Tasks: []study.Task{{Step: name, Days: []int{1}}}})
	assert.NotContains(t, page, "<b>Ana")
	assert.Equal(t, 5, strings.Count(page, "&lt;b&gt;Ana&lt;/b&gt; &amp; &#34;co&#34;")) // the title too
}

// Nothing on the page comes from elsewhere or runs.
func TestSelfContained(t *testing.T) {
	page := written(t, study.Study{}, tasks(3))
	for _, word := range []string{"<script", "<link", "<img", "src=", "href=", "url(", "@import", "http", "javascript", "onload"} {
		assert.NotContains(t, page, word)
	}
}

func TestWriteGivesTheErrorOfItsTarget(t *testing.T) {
	assert.ErrorIs(t, Write(full{}, study.Study{}, study.Workflow{}), errFull)
}

var errFull = errors.New("no room left")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }
