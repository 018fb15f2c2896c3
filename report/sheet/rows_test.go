package sheet

import (
	"fmt"
	"strings"
	"testing"

	"headhours/timing/study"

	"github.com/stretchr/testify/assert"
)

// Days of a task as they go into the corner of a box.
func TestDaysOfATask(t *testing.T) {
	t.Parallel()
	upTo := func(n int) (days []int) {
		for i := range n {
			days = append(days, 2*i)
		}
		return days
	}
	for want, all := range map[string][]int{
		"": nil, "0": {0}, "0 14": {0, 14}, "0 2 4 6 8 10 12": upTo(7), "0 … 14 (8×)": upTo(8), "0 … 398 (200×)": upTo(200),
	} {
		assert.Equal(t, want, days(all))
	}
}

// Each task has a row with what it is counted by, of as many steps as the study has: none
// has another's.
func TestEachTaskHasItsCount(t *testing.T) {
	t.Parallel()
	for _, n := range []int{0, 1, 2, 4, 30} {
		var st study.Study
		var workflow study.Workflow
		for i := range n {
			step := study.Step{Name: fmt.Sprintf("step %d", i), Per: fmt.Sprintf("unit %d", i), SetupCovers: float64(i % 3)}
			st.Steps = append([]study.Step{step}, st.Steps...) // in another order than the tasks
			workflow.Tasks = append(workflow.Tasks, study.Task{Step: step.Name, Days: []int{i}})
		}
		page := written(t, st, workflow)
		steps, boxes := found(`<td class="step">([^<]*)</td>`, page), found(`<td class="box">([^<]*)</td>`, page)
		for i := range n {
			assert.Equal(t, fmt.Sprintf("step %d", i), steps[i])
			assert.Equal(t, []string{fmt.Sprintf("day %d", i), fmt.Sprintf("unit %d", i), []string{"", "1 for 1", "1 for 2"}[i%3]}, boxes[3*i:3*i+3])
		}
		assert.Equal(t, n > 1, strings.Contains(page, "1 if left blank, or 1 for each so many as stands in its box; 0 for a lap"), "%d tasks", n)
		blank := 0
		for _, s := range steps {
			if s == "" {
				blank++
			}
		}
		assert.GreaterOrEqual(t, blank, spareRows, "%d tasks", n)
		numbers := found(`<td class="number">(\d+)</td>`, page)
		for i, number := range numbers {
			assert.Equal(t, fmt.Sprint(i+1), number)
		}
	}
}

// Names of any alphabet and length stand on the sheet as they are; none ends an element.
func TestNamesOfAnyKind(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"種まき", "🌱🌱", "זריעה", strings.Repeat("Langwort", 30), "a|b", `"x"`, "</td></table>", "{{.Study}}", "=1+1"} {
		st := study.Study{Name: name, Steps: []study.Step{{Name: name, Per: name}}}
		page := written(t, st, study.Workflow{Name: name, Tasks: []study.Task{{Step: name}}})
		assert.Equal(t, 1, strings.Count(page, "</body>"), name)
		assert.Equal(t, strings.Count(written(t, study.Study{}, study.Workflow{Tasks: []study.Task{{}}}), "</td>"), strings.Count(page, "</td>"), name)
		escaped := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "+", "&#43;").Replace(name)
		assert.GreaterOrEqual(t, strings.Count(page, escaped), 4, name)
	}
}
