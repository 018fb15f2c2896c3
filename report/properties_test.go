package report

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"headhours/timing/answer"
	"headhours/timing/study"
	"headhours/timing/words"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// figures are numbers as answers may hold them, odd ones first.
var figures = []float64{0, 1, -1, 0.004, -0.004, 1e-5, 1e12, 0.5, 2, 48, 60, 61.7, 1.0 / 3, 119.6 / 60}

// fill puts figures, names and unknowns into all of an answer, at random: lists of none, one,
// two and four things, what may be missing missing every other time.
func fill(r *rand.Rand, v reflect.Value, field string) {
	switch v.Kind() {
	case reflect.Struct:
		if m, ok := v.Addr().Interface().(*study.Maybe); ok {
			if *m = (study.Maybe{}); r.IntN(3) > 0 {
				*m = known(figures[r.IntN(len(figures))])
			}
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(r, v.Field(i), v.Type().Field(i).Name)
			}
		}
	case reflect.Slice:
		n := []int{0, 1, 2, 4}[r.IntN(4)]
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			fill(r, v.Index(i), field)
		}
	case reflect.Pointer:
		if v.Type().Elem().Kind() != reflect.Struct && r.IntN(2) > 0 {
			v.Set(reflect.New(v.Type().Elem()))
			fill(r, v.Elem(), field)
		}
	case reflect.String:
		if v.Type().Name() != "string" || slices.Contains(ownWords, field) {
			v.SetString("2026-03-02")
			return
		}
		for v.String() == "" || strings.TrimSpace(v.String()) != v.String() { // as no name of a study is
			v.SetString(awkward[r.IntN(len(awkward))])
		}
	case reflect.Bool:
		v.SetBool(r.IntN(2) > 0)
	case reflect.Int:
		v.SetInt(int64([]int{1, 1, 2, 7, 48}[r.IntN(5)]))
	case reflect.Float64:
		v.SetFloat(figures[r.IntN(len(figures))])
	}
}

// ownWords are fields whose words are the program's own, such as dates: no names.
var ownWords = []string{"Date", "Since", "PaybackOn", "Start", "Form", "How"}

// filled is an answer of a kind, filled at random.
func filled[T any](r *rand.Rand) (v T) {
	fill(r, reflect.ValueOf(&v).Elem(), "")
	return v
}

// atLeastOne is a list with something in it.
func atLeastOne[T any](r *rand.Rand, list []T) []T {
	if len(list) == 0 {
		return []T{filled[T](r)}
	}
	return list
}

// anyDocs are documents of answers of every kind, filled at random.
func anyDocs(r *rand.Rand) map[string]Doc {
	c := filled[answer.Comparison](r)
	c.Workflows = atLeastOne(r, c.Workflows)
	c.Pairs = nil
	for i, h := range c.Workflows { // ways have names of their own
		c.Workflows[i].Workflow = fmt.Sprintf("%d %s", i, h.Workflow)
		for j := range h.Steps {
			h.Steps[j].Step = fmt.Sprintf("%d %s", j, h.Steps[j].Step)
		}
		for _, before := range c.Workflows[:i] {
			p := filled[answer.Pair](r)
			p.A, p.B = before.Workflow, c.Workflows[i].Workflow
			c.Pairs = append(c.Pairs, p)
		}
	}
	costs := filled[answer.Costs](r)
	for i := range costs.Ranks {
		costs.Ranks[i].Dearer = atLeastOne(r, costs.Ranks[i].Dearer)
	}
	season := DatedCalendar{Calendar: filled[answer.Calendar](r)}
	if season.EveryDays == nil { // which alone has a steady week
		season.Weekdays = nil
	}
	plan := filled[answer.SeasonPlan](r)
	plan.Weeks, plan.Busiest.Week, plan.Over = atLeastOne(r, plan.Weeks), 0, &[]int{3}
	for i := range plan.Weeks {
		plan.Weeks[i].Week = i
	}
	plan.Start = nil
	seeding := filled[answer.Seeding](r)
	seeding.Choices = atLeastOne(r, seeding.Choices)
	improve := filled[answer.Improvement](r)
	fits := filled[answer.Fits](r)
	for _, s := range append(fits.Steps, fits.Earlier...) {
		for i := range s.StandsOut { // a model has one of the two at least
			s.StandsOut[i].Unit = known(2)
		}
	}
	over := filled[answer.FitsOverGrows](r)
	over.Fits = fits
	plans := answer.Plans{Plan: filled[answer.Plan](r)}
	scale := filled[answer.Scale](r)
	measured := filled[answer.Measured](r)
	docs := map[string]Doc{
		"compare": Compare(c), "cost": Cost(costs), "scale": Scale(scale), "improve": Improve(improve), "seeding": Seeding(seeding), "calendar": Calendar(season),
		"place": Season(SeasonAnswer{SeasonPlan: plan}), "readings": Readings(plans), "fit": Fit(fits), "check": Check(filled[answer.Check](r)),
		"trial": ChangeTrial(filled[answer.ChangeTrial](r)), "sensitivity": Sensitivity(filled[answer.Sensitivity](r)), "measured": Measured(MeasuredComparison{Comparison: c, Measured: measured}), "over grows": FitOverGrows(over),
	}
	return docs
}

var (
	notWords = regexp.MustCompile(`NaN|Inf|%!|<nil>|<no value>`)
	plurals  = regexp.MustCompile(`(^|[^0-9.,-])1 (heads|readings|grows|weeks|days|cells|plants|steps|ways|hours|minutes|seconds|problems|things|files|spells|units|seeds)\b`)
)

// Whatever is in an answer, its document is sound: words without a slip of the pen, sections
// that are told apart, tables whose rows are as wide as their heads.
func TestAnyAnswerMakesASoundDocument(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 5))
	for range 60 {
		for name, doc := range anyDocs(r) {
			ids := map[string]bool{}
			for _, s := range doc.Sections {
				assert.NotEmpty(t, s.ID, name)
				assert.False(t, ids[s.ID], "%s has %s twice", name, s.ID)
				ids[s.ID] = true
			}
			for _, words := range append(doc.Words(), doc.Title) {
				assert.True(t, utf8.ValidString(words), "%s: %q", name, words)
				assert.NotRegexp(t, notWords, words, name)
				assert.NotRegexp(t, plurals, words, name)
				assert.NotRegexp(t, `[\x00-\x09\x0b-\x1f\x{202a}-\x{202e}]`, words, name)
				assert.NotRegexp(t, ` [.;,]|\.\.( |$)|\( |\(\)`, strings.ReplaceAll(words, "  ", " "), name)
			}
			for _, table := range doc.Tables() {
				for _, row := range table.Rows {
					require.Len(t, row, len(table.Columns), "%s: %s", name, table.Title)
					for _, cell := range row {
						assert.NotRegexp(t, notWords, cell.Text, "%s: %s", name, table.Title)
						assert.NotRegexp(t, `[\x00-\x1f\x{202a}-\x{202e}]`, cell.Text, "%s: %s", name, table.Title)
					}
				}
			}
		}
	}
}

// A spreadsheet that reads any table back has its figures, to six digits.
func TestAnyTableReadsBack(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 11))
	for range 20 {
		for name, doc := range anyDocs(r) {
			for _, id := range doc.TableIDs() {
				table := doc.Section(id).Table
				rows, err := csv.NewReader(strings.NewReader(written(t, "csv", doc.Only(id), nil))).ReadAll()
				require.NoError(t, err, "%s: %s", name, id)
				require.Len(t, rows, len(table.Rows)+1)
				for i, row := range table.Rows {
					column := 0
					for j, cell := range row {
						if table.Columns[j].Key == "" {
							continue
						}
						text := rows[i+1][column]
						assert.Equal(t, table.Columns[j].Key, rows[0][column])
						column++
						x, known := figureOf(cell.Value)
						if !known {
							continue
						}
						back, err := strconv.ParseFloat(text, 64)
						require.NoError(t, err, "%s: %s of %v", name, table.Columns[j].Key, cell.Value)
						assert.InDelta(t, x, back, 1e-5*math.Abs(x)+1e-300)
					}
				}
			}
		}
	}
}

// figureOf is a cell's value where it is a known number.
func figureOf(value any) (float64, bool) {
	switch v := value.(type) {
	case study.Maybe:
		return v.Value, v.Known
	case float64:
		return v, true
	case int:
		return float64(v), true
	}
	return 0, false
}

// numbersOf are all the numbers of an answer that are known, in order.
func numbersOf(v reflect.Value) (all []float64) {
	switch v.Kind() {
	case reflect.Struct:
		if m, ok := v.Interface().(study.Maybe); ok {
			if m.Known {
				all = append(all, m.Value)
			}
			return all
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				all = append(all, numbersOf(v.Field(i))...)
			}
		}
	case reflect.Slice:
		all = append(all, float64(v.Len()))
		for i := range v.Len() {
			all = append(all, numbersOf(v.Index(i))...)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			all = numbersOf(v.Elem())
		}
	case reflect.Int, reflect.Int64:
		all = append(all, float64(v.Int()))
	case reflect.Float64:
		all = append(all, v.Float())
	}
	return all
}

// supports says whether a figure in words is one of some numbers, in hours, minutes, seconds
// or percent, rounded as it is written, or to two or three digits; or half of a range.
func supports(numbers []float64, text string) bool {
	want, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return false
	}
	_, fraction, _ := strings.Cut(text, ".")
	half := 0.5000001 * math.Pow10(-len(fraction))
	for i, n := range numbers {
		candidates := []float64{n}
		if i > 0 {
			candidates = append(candidates, (n-numbers[i-1])/2)
		}
		for _, c := range candidates {
			for _, scale := range []float64{1, 60, 3600, 100, 0.1, 6} {
				x := math.Abs(c * scale)
				if math.Abs(x-want) <= half || words.Rounded(x, 2) == want || words.Rounded(x, 3) == want {
					return true
				}
			}
		}
	}
	return false
}

// No figure stands in the words that the answer does not have.
func TestWordsHaveNoFigureOfTheirOwn(t *testing.T) {
	t.Parallel()
	constants := map[string]bool{"10000": true, "10": true, "2": true, "50": true, "5": true, "100": true, "75": true, "78": true, "80": true} // the last three are labour's shares of a cost
	figure := regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?`)
	date := regexp.MustCompile(`[0-9]{4}-[0-9]{2}-[0-9]{2}`)
	made := improvementOf(2)
	made.Made = []answer.Made{madeOf("dibber")}
	plan, season, calendar := plannedOf(), seasonOf(2), everyWeek()
	for name, c := range map[string]struct {
		of  any
		doc Doc
	}{
		"compare": {comparisonOf(3), Compare(comparisonOf(3))}, "cost": {costsOf(3), Cost(costsOf(3))}, "scale": {scaleOf(2), Scale(scaleOf(2))}, "improve": {made, Improve(made)},
		"seeding": {seedingOf(), Seeding(seedingOf())}, "readings": {plan, Readings(answer.Plans{Plan: plan})}, "trial": {trialOf(), ChangeTrial(trialOf())},
		"place": {season, Season(SeasonAnswer{SeasonPlan: season})}, "calendar": {calendar.Calendar, Calendar(calendar)}, "sensitivity": {inputsOf(2), Sensitivity(inputsOf(2))},
		"measured": {measuredOf(), MeasuredGrows(measuredOf())},
	} {
		numbers := numbersOf(reflect.ValueOf(c.of))
		for _, words := range append(c.doc.Words(), c.doc.Title) {
			words = strings.ReplaceAll(date.ReplaceAllString(words, ""), "input 1", "")
			for _, text := range figure.FindAllString(words, -1) {
				assert.True(t, constants[text] || supports(numbers, text), "%s: %s in %q", name, text, words)
			}
		}
	}
}

// Each note of an answer stands once in its document.
func TestEachNoteOnce(t *testing.T) {
	t.Parallel()
	own := []string{"a note of the answer"}
	c, costs, in, season, s := comparisonOf(4), costsOf(4), improvementOf(2), seasonOf(2), seedingOf()
	c.Notes, costs.Notes, in.Notes, season.Notes, s.Notes = own, own, own, own, own
	for i := range c.Workflows {
		c.Workflows[i].Rests.Judged, c.Workflows[i].Rests.Bracketed = []string{"sow"}, []string{"harvest"}
		costs.Workflows[i].Lines = costs.Workflows[i].Lines[:1]
	}
	for name, doc := range map[string]Doc{"compare": Compare(c), "cost": Cost(costs), "improve": Improve(in), "place": Season(SeasonAnswer{SeasonPlan: season}), "seeding": Seeding(s)} {
		seen := map[string]bool{}
		for _, note := range doc.Notes {
			assert.False(t, seen[note], "%s: %s", name, note)
			seen[note] = true
		}
		assert.True(t, seen[own[0]], name)
		assert.Equal(t, 1, strings.Count(written(t, "markdown", doc, nil), own[0]), name)
	}
	assert.Equal(t, []string{"a note of the answer"}, own)
}
