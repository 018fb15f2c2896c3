package plots

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/crop"
	"headhours/timing/study"
)

func TestFormatOf(t *testing.T) {
	for file, want := range map[string]string{
		"a.svg": "svg", "dir.pdf/b.PNG": "png", "c.d.Pdf": "pdf",
		"a.jpg": "", "svg": "", "": "", "a.svg/b": "", ".": "",
	} {
		format, ok := FormatOf(file)
		assert.Equal(t, want != "", ok, file)
		if ok {
			assert.Equal(t, want, format, file)
		}
	}
}

// Each format begins as its standard says, and is the same every time.
func TestWrite(t *testing.T) {
	magic := map[string]string{"svg": "<?xml", "png": "\x89PNG\r\n\x1a\n", "pdf": "%PDF-1."}
	for name, f := range answersOf(t, modelsOf(t, chard), 48).figures() {
		for _, format := range fileFormats {
			var first, second bytes.Buffer
			require.NoError(t, f.Write(&first, format))
			require.NoError(t, f.Write(&second, format))
			assert.True(t, strings.HasPrefix(first.String(), magic[format]), "%s %s", name, format)
			assert.True(t, bytes.Equal(first.Bytes(), second.Bytes()), "%s %s", name, format)
			if format == "pdf" {
				assert.Contains(t, first.String(), "/CreationDate (D:19700101000000")
			}
		}
	}
	assert.ErrorContains(t, Figure{}.Write(io.Discard, "jpg"), `"jpg": svg, png, pdf`)
	assert.NoError(t, Figure{}.Write(io.Discard, "svg"))
}

// A figure made anew from the same study is the same.
func TestSameStudySameBytes(t *testing.T) {
	first, second := answersOf(t, modelsOf(t, demo), 48).figures(), answersOf(t, modelsOf(t, demo), 48).figures()
	for name := range first {
		assert.Equal(t, svg(t, first[name]), svg(t, second[name]), name)
		assert.Equal(t, first[name].Alt(), second[name].Alt(), name)
	}
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriteError(t *testing.T) {
	f := PerHead(answer.Comparison{Heads: 1}, nil)
	for _, format := range fileFormats {
		assert.ErrorIs(t, f.Write(full{}, format), errFull, format)
	}
}

func TestReadable(t *testing.T) {
	for _, dir := range []string{demo, chard} {
		for name, f := range answersOf(t, modelsOf(t, dir), 48).figures() {
			t.Run(dir+" "+name, func(t *testing.T) { readable(t, f) })
		}
	}
}

// Names are drawn as text, whatever stands in them, and change nothing else.
func TestNamesAreHarmless(t *testing.T) {
	const bad = "<b>x</b> & \"y\" \x1b[31m\u202e" + `style="font-family:Liberation Sans;`
	m := invented(2, 2, func(s *study.Study) {
		s.Steps[0].Name, s.Workflows[0].Name, s.Currency, s.Steps[0].Per = bad, bad, bad, bad
		s.Workflows[0].Tasks[0].Step, s.Workflows[1].Tasks[0].Step = bad, bad
	})
	for name, f := range answersOf(t, m, 20).figures() {
		text := svg(t, f)
		assert.Contains(t, text, "&lt;b&gt;x&lt;/b&gt;", name)
		assert.NotContains(t, text, "<b>", name)
		assert.NotContains(t, text, "\x1b", name)
		assert.NotContains(t, f.Alt(), "\x1b", name)
		decoder := xml.NewDecoder(strings.NewReader(text))
		for {
			token, err := decoder.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, name)
			if start, ok := token.(xml.StartElement); ok {
				assert.Contains(t, []string{"svg", "g", "path", "text"}, start.Name.Local)
			}
		}
	}
}

// Phones lack the typeface that figures are measured in; those that stand in for
// it are as wide.
func TestTypefaces(t *testing.T) {
	text := svg(t, PerHead(answer.Comparison{Heads: 1}, nil))
	assert.Equal(t, strings.Count(text, "font-family:"), strings.Count(text, "Liberation Sans,Arimo,Arial,Helvetica,sans-serif;"))
}

// invented is a study of so many steps and ways of working, each step of each
// way, with readings at unlike counts.
func invented(steps, ways int, change func(*study.Study)) *answer.Models {
	st := study.Study{
		Heads: 20, Confidence: 0.9, Currency: "EUR",
		Germination: crop.Germination{Share: 0.9}, Labour: &study.Labour{Wage: 12},
		SpacePrice: study.Known(0.1),
	}
	for i := range steps {
		st.Steps = append(st.Steps, study.Step{Name: fmt.Sprintf("step number %d", i), Per: "plant"})
	}
	for w := range ways {
		way := study.Workflow{Name: fmt.Sprintf("way number %d", w), SeedsPerCell: 1}
		for i := range steps {
			way.Tasks = append(way.Tasks, study.Task{
				Step: st.Steps[i].Name, Days: []int{i}, Count: crop.Plants, Each: 1 + float64(w%7)/10, SharedBy: 1,
			})
		}
		st.Workflows = append(st.Workflows, way)
	}
	if change != nil {
		change(&st)
	}
	var readings []study.Reading
	for i := range steps {
		for j, count := range []float64{5, 12, 20, 31} {
			readings = append(readings, study.Reading{
				Place: study.Place{File: "a.csv", Line: len(readings) + 2}, Step: st.Steps[i].Name,
				Count: count, Seconds: 20 + float64(i) + (3+float64(i%5))*count + float64(j%2), People: 1, Rating: 100,
			})
		}
	}
	return answer.Fit(st, readings, answer.Options{})
}

// What is rare is drawn all the same.
func TestDegenerate(t *testing.T) {
	long := strings.Repeat("a name that is much too long ", 30)
	unbroken := strings.Repeat("Langwort", 60)
	reading := func(count, seconds float64) []study.Reading {
		return []study.Reading{{Step: "sow", Count: count, Seconds: seconds, People: 1, Rating: 100}}
	}
	one := func(readings []study.Reading, heads int) *answer.Models {
		s := study.Study{
			Confidence: 0.95, Heads: heads, Germination: crop.Germination{Share: 1}, Steps: []study.Step{{Name: "sow"}},
			Workflows: []study.Workflow{{Name: "only", SeedsPerCell: 1, Tasks: []study.Task{{Step: "sow", Days: []int{0}, Count: crop.Plants, Each: 1, SharedBy: 1}}}},
		}
		return answer.Fit(s, readings, answer.Options{})
	}
	alike := append(reading(10, 60), append(reading(10, 61), reading(10, 64)...)...)
	huge := append(reading(1, 0.001), append(reading(1e6, 3e9), reading(1e9, 1e12)...)...)
	falling := append(reading(5, 900), append(reading(20, 500), reading(30, 100)...)...)
	cases := map[string]*answer.Models{
		"one reading":              one(reading(24, 600), 24),
		"no reading":               one(nil, 24),
		"alike counts":             one(alike, 24),
		"a huge range":             one(huge, 1e6),
		"one head":                 one(reading(1, 1), 1),
		"a time that falls":        answer.Fit(one(nil, 24).Study, falling, answer.Options{Form: "setup+unit"}),
		"no step, no wage":         invented(0, 2, func(s *study.Study) { s.Labour = nil }),
		"forty ways":               invented(3, 40, nil),
		"sixty steps":              invented(60, 2, nil),
		"more than can be drawn":   invented(70, 45, nil),
		"long names":               invented(2, 3, func(s *study.Study) { rename(s, long) }),
		"long words":               invented(2, 3, func(s *study.Study) { rename(s, unbroken) }),
		"letters that we lack":     invented(2, 2, func(s *study.Study) { rename(s, "栽培 水耕 栽培") }),
		"a way with nothing to do": invented(2, 2, func(s *study.Study) { s.Workflows[1].Tasks = nil }),
	}
	for name, m := range cases {
		t.Run(name, func(t *testing.T) {
			for figure, f := range answersOf(t, m, max(m.Study.Heads, 1)).figures() {
				t.Run(figure, func(t *testing.T) {
					readable(t, f)
					assert.Less(t, float64(f.height()), 14400.0, "the most that a PDF page can be")
					assert.NotContains(t, says(f)+f.Alt(), "NaN")
					assert.NotContains(t, says(f)+f.Alt(), "Inf")
					text := svg(t, f)
					assert.NotContains(t, text, "NaN")
					assert.NotContains(t, text, "Inf")
					if name == "a huge range" || name == "a time that falls" {
						assert.NoError(t, f.Write(io.Discard, "png"))
						assert.NoError(t, f.Write(io.Discard, "pdf"))
					}
				})
			}
		})
	}
}

// rename gives all steps and ways of working a name, told apart by their first
// letter.
func rename(s *study.Study, name string) {
	for i := range s.Steps {
		s.Steps[i].Name = fmt.Sprintf("%c%s", 'A'+i, name)
		s.Steps[i].Per = name
	}
	for w := range s.Workflows {
		s.Workflows[w].Name = fmt.Sprintf("%c%s", 'K'+w, name)
		for i := range s.Workflows[w].Tasks {
			s.Workflows[w].Tasks[i].Step = s.Steps[i].Name
		}
	}
}

func TestNothing(t *testing.T) {
	for name, f := range map[string]Figure{
		"steps": StepTimes(nil, nil), "per head": PerHead(answer.Comparison{Heads: 5}, nil),
		"growth": Growth(answer.Scale{}, nil), "cost": CostPerHead(answer.Costs{Heads: 5}),
		"a line without points": Growth(answer.Scale{Workflows: []answer.ScaleLine{{Workflow: "x"}}}, nil),
	} {
		readable(t, f)
		assert.NotEmpty(t, f.Alt(), name)
		for _, format := range fileFormats {
			assert.NoError(t, f.Write(io.Discard, format), name)
		}
	}
}
