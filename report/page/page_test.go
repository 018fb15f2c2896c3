package page

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report"
	"headhours/report/plots"
)

// The first screen says the cost per head and what it lacks, as the answers do.
func TestFirstScreen(t *testing.T) {
	w := studies(t)["demo"]
	first, _, _ := strings.Cut(pages(t)["demo"], "<nav")
	cost := w.Cost.Workflows[0]
	require.Equal(t, w.Quickest, cost.Workflow)
	said := strings.Join(strings.Fields(wordsOf(first)), " ")
	assert.Contains(t, said, fmt.Sprintf("≥ %.2f EUR a head costs %.2f to %.2f", cost.PerHead.Value, cost.PerHeadLow.Value, cost.PerHeadHigh.Value))
	assert.Contains(t, said, fmt.Sprintf("≤ %.2f EUR left a head %.2f to %.2f", cost.LeftPerHead.Value, cost.LeftPerHeadLow.Value, cost.LeftPerHeadHigh.Value))
	assert.Contains(t, said, fmt.Sprintf("≥ %.2f minutes a head", w.Compare.Workflows[0].MinutesPerHead))
	assert.Contains(t, said, "Not timed: weigh and label.")
	assert.Contains(t, said, "tray, one seed ≤", "both ways that are tied have their numbers")
	assert.Contains(t, said, "in place, one seed ≤")
	assert.Contains(t, first, "Why the hours differ", "the figure that says why leads")
	assert.Contains(t, said, `no clear difference between them`)
	assert.Equal(t, 1, strings.Count(first, "<svg"))
}

// Where there are sowings the front says the week's hours, what an hour earns and what to
// charge, in short; else it does not speak of a season.
func TestSeasonOnTheFront(t *testing.T) {
	demo := studies(t)["demo"]
	front, _, _ := strings.Cut(pages(t)["demo"], "<nav")
	said := strings.Join(strings.Fields(wordsOf(front)), " ")
	assert.Contains(t, said, "The whole place: a week of the steady part takes at least 2.87 hours on average, in weeks of 2.64 to 3.09; the busiest, week 6")
	assert.Contains(t, said, fmt.Sprintf("An hour of your own earns at most %.2f EUR", demo.Season.PerOwnHour.Value))
	assert.Contains(t, said, fmt.Sprintf(`For 18.30 EUR an hour charge at least %.2f EUR a head of "tray, three seeds" (now 1.60)`, demo.Season.Sowings[0].PriceNeeded.Value))
	assert.Contains(t, markdownOf(t, demo), "The whole place: a week of the steady part takes")
	assert.Contains(t, pages(t)["demo"], "table of 1 row<")
	assert.NotContains(t, pages(t)["demo"], "table of 1 rows")
	chard := pages(t)["chard"]
	assert.NotContains(t, chard, "The whole place")
	assert.NotContains(t, chard, "#season")
}

// What is sold, bought and sown is explained where the study has it.
func TestPlaceIsExplained(t *testing.T) {
	starter := wordsOf(pages(t)["starter"])
	for _, want := range []string{"Young plants that are bought are one a cell", "A unit that is sold", "A price that is needed", "A cell of k seeds"} {
		assert.Contains(t, starter, want)
	}
	chard := wordsOf(pages(t)["chard"])
	assert.Contains(t, chard, "A cell of k seeds")
	for _, absent := range []string{"Young plants", "A unit that is sold", "A price that is needed"} {
		assert.NotContains(t, chard, absent)
	}
}

// With several crops the front is for the quickest way of the first that has several.
func TestFrontOfSeveralCrops(t *testing.T) {
	w := studies(t)["starter"]
	assert.Equal(t, "chard, bought in", w.Quickest)
	assert.Equal(t, "in place, one seed", w.Front())
	first, _, _ := strings.Cut(pages(t)["starter"], "<nav")
	assert.Regexp(t, `<p class="for">in place, one seed</p>`, first)
	assert.Contains(t, wordsOf(first), `Quickest for 24 heads of "lettuce": "in place, one seed".`)
}

// What is not known is said, and nothing of it is counted as zero in silence.
func TestUnknownIsSaid(t *testing.T) {
	demo := wordsOf(pages(t)["demo"])
	for _, want := range []string{
		"judged, not timed: carry trays to the pond",
		"they are taken to vary as the other steps and handwork do",
		"always timed at about the same count",
		"Stands out: harvest", "It is counted all the same",
		"3 readings were kept and not counted", "watch not stopped", "a visitor came",
	} {
		assert.Contains(t, demo, want)
	}
	assert.Equal(t, 1, strings.Count(strings.ToLower(demo), "not timed: weigh and label"), "once, then only as ≥")
	assert.NotContains(t, demo, "label was not timed")
	assert.NotContains(t, demo, "label, not timed")
	for name, page := range pages(t) {
		if name == "hostile" {
			continue
		}
		words := wordsOf(page)
		for _, flag := range []string{" --", "[labour]", "[[", "sow_every_days", "study.toml;", "study.toml."} {
			assert.NotContains(t, words, flag, "no flags or files on the page of %s", name)
		}
	}
	once := wordsOf(pages(t)["once"])
	assert.Contains(t, once, "every step was timed once: each is taken to vary by about a fifth, as handwork does (an assumption)")
	assert.Contains(t, once, "the study gives no wage")
	never := pages(t)["never"]
	assert.Contains(t, wordsOf(never), "nothing that it needs was timed or judged yet")
	assert.NotContains(t, never, "<svg", "an empty figure says nothing")
	assert.Contains(t, wordsOf(pages(t)["starter"]), "That is from judged times alone")
}

// Cautions are those of the hazards that the study's steps have, and those of
// pace and fairness always.
func TestCautions(t *testing.T) {
	all := wordsOf(pages(t)["demo"])
	for _, want := range []string{"NIOSH", "OSHA", "21 CFR 112.32", "29 CFR 785.18", "residual-current device", "2001-111", "Acid into water"} {
		assert.Contains(t, all, want)
	}
	few := wordsOf(pages(t)["once"])
	assert.Contains(t, few, "2001-111")
	assert.Contains(t, few, "set no pace from the quickest reading")
	for _, absent := range []string{"OSHA", "lifting equation", "residual-current", "21 CFR"} {
		assert.NotContains(t, few, absent)
	}
}

// Every table of the steps has as many readings as were taken, and every figure
// of the steps as many points.
func TestAsManyPointsAsReadings(t *testing.T) {
	w := studies(t)["demo"]
	points := 0
	for _, svg := range regexp.MustCompile(`(?s)<svg.*?</svg>`).FindAllString(pages(t)["demo"], -1) {
		if !strings.Contains(svg, "Time of each reading") {
			continue
		}
		marks := regexp.MustCompile(`fill:none;stroke:(#[0-9A-F]{6});stroke-width:1\.3`).FindAllStringSubmatch(svg, -1)
		points += len(marks)
		for _, kind := range []string{"one setup", "a lap, no setup", "several setups"} {
			points -= strings.Count(svg, ">"+kind+"<") // one of each stands in the key
		}
	}
	readings, drawn := 0, 0
	for _, c := range w.Curves {
		readings += c.Readings
		if !plots.Single(c) { // those of visits have a table alone
			drawn += c.Readings
		}
	}
	for _, earlier := range w.Fit.Earlier { // of a step as it was before a change
		readings += earlier.Readings
	}
	assert.Equal(t, 90, readings)
	assert.Equal(t, drawn, points)
	assert.Equal(t, readings, w.Readings)
}

func TestSameBytes(t *testing.T) {
	first, second := studies(t), freshStudies(t)
	for name, html := range pages(t) {
		assert.True(t, html == htmlOf(t, second[name]), name)
		assert.True(t, markdownOf(t, first[name]) == markdownOf(t, second[name]), name)
	}
}

// Nothing but the file itself is asked for, and nothing runs.
func TestSelfContained(t *testing.T) {
	for name, html := range pages(t) {
		assert.NotRegexp(t, `(?i)<(script|iframe|object|embed|img|base|form|video|audio)\b`, html, name)
		assert.NotRegexp(t, `(?i)(url\(|@import|\bsrcset=|\bsrc=|xlink:href=)`, strings.ReplaceAll(html, "&lt;img src=", ""), name)
		for _, link := range regexp.MustCompile(`href="([^"]*)"`).FindAllStringSubmatch(html, -1) {
			assert.True(t, strings.HasPrefix(link[1], "#") || link[1] == "data:,", "%s: %s", name, link[1])
		}
		assert.False(t, strings.Contains(html, os.TempDir()), name)
		for _, s := range sections(studies(t)[name]) {
			assert.Contains(t, html, `<section id="`+s.ID+`"`, name)
			assert.Contains(t, html, `<a href="#`+s.ID+`"`, name)
		}
	}
}

// Names that are HTML, Markdown or a formula do nothing in any format.
func TestNamesAreHarmless(t *testing.T) {
	w := studies(t)["hostile"]
	html := pages(t)["hostile"]
	assert.True(t, strings.Contains(html, "&lt;b&gt;x&lt;/b&gt;"))
	for _, absent := range []string{bad, "<script>", "<img", "<i>y", "<u>", "</style><b>", "\u202e"} {
		assert.False(t, strings.Contains(html, absent), absent)
	}
	text := markdownOf(t, w)
	for _, absent := range []string{bad, "<script>", "<img", "<i>y", "<u>", "\u202e"} {
		assert.False(t, strings.Contains(text, absent), absent)
	}
	assert.False(t, regexp.MustCompile(`[^\\]\]\(http`).MatchString(text), "a link")
	for _, table := range w.Tables() {
		var b bytes.Buffer
		require.NoError(t, report.Write(&b, "csv", report.Of(table.Table), nil, report.Style{}))
		rows, err := csv.NewReader(&b).ReadAll()
		require.NoError(t, err, table.Name)
		for _, row := range rows {
			for _, cell := range row {
				assert.False(t, strings.HasPrefix(cell, "="), "%s: %q", table.Name, cell)
			}
		}
	}
}

func TestMarkdown(t *testing.T) {
	w := studies(t)["demo"]
	text := markdownOf(t, w)
	assert.True(t, strings.HasPrefix(text, "# pak choi on floating rafts (invented)\n"))
	level := 0
	for _, line := range strings.Split(text, "\n") {
		if !strings.HasPrefix(line, "#") {
			continue
		}
		now := len(line) - len(strings.TrimLeft(line, "#"))
		assert.LessOrEqual(t, now, level+1, line)
		level = now
	}
	for _, s := range sections(w) {
		assert.Contains(t, text, "\n## "+s.Title+"\n")
	}
	assert.Contains(t, text, fmt.Sprintf("≥ %.2f EUR a head costs", w.Cost.Workflows[0].PerHead.Value))
	assert.Equal(t, 1, strings.Count(text, "\n# ")+1)
}

// Markdown has six levels of headings; what stands deeper is in bold.
func TestMarkdownHeadings(t *testing.T) {
	deep := 0
	for name, w := range studies(t) {
		for _, line := range strings.Split(markdownOf(t, w), "\n") {
			assert.False(t, strings.HasPrefix(line, "#######"), "%s: %s", name, line)
			if strings.HasPrefix(line, "**") {
				deep++
				assert.Regexp(t, `^\*\*[^*]+\*\*$`, line, name)
			}
		}
	}
	assert.NotZero(t, deep)
	assert.Equal(t, "###### Days\n", heading("###### Days\n"))
	assert.Equal(t, "**Days**\n", heading("####### Days\n"))
}

// The JSON holds every answer, and is JSON.
func TestJSON(t *testing.T) {
	for name, w := range studies(t) {
		text, err := json.Marshal(w)
		require.NoError(t, err, name)
		var back map[string]any
		require.NoError(t, json.Unmarshal(text, &back), name)
		for _, key := range []string{"compare", "scale", "cost", "workflows", "fit", "measured", "voided", "settings", "files", "notes"} {
			assert.NotNil(t, back[key], "%s: %s", name, key)
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestWriteError(t *testing.T) {
	w := studies(t)["once"]
	assert.ErrorIs(t, WriteHTML(full{}, w), io.ErrShortWrite)
	assert.ErrorIs(t, WriteMarkdown(full{}, w), io.ErrShortWrite)
}
