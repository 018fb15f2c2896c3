package tasklog

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
)

// anyColumns is a log with columns in any order, some of them read and some not, and whatever cells
// those may have; with mistakes, if it is to have such.
func anyColumns(seed uint64, rows int, mistakes bool) string {
	r := rand.New(rand.NewPCG(seed, 9))
	oneOf := func(texts ...string) string { return texts[r.IntN(len(texts))] }
	separator, lineEnd := oneOf(",", ";", "\t"), oneOf("\n", "\r\n")
	columns := []string{"step", "count", "time", "note"}
	for _, name := range []string{"date", "grow", "workflow", "worker", "people", "setups", "source", "rating", "start", "end", "paused", "void"} {
		if r.IntN(3) > 0 {
			columns = append(columns, name)
		}
	}
	for range r.IntN(12) {
		columns = append(columns, fmt.Sprintf("tray %d", len(columns)))
	}
	r.Shuffle(len(columns), func(i, j int) { columns[i], columns[j] = columns[j], columns[i] })
	calm := r.IntN(3) == 0 // nothing ends a stretch
	kinds := 1 + r.IntN(40)
	name := func(short, long string) string {
		switch kind := r.IntN(kinds); {
		case calm || kind%4 == 0:
			return fmt.Sprintf("%s%d", short, kind)
		case kind%4 == 1:
			return fmt.Sprintf("%s beside it %d", long, kind)
		case kind%4 == 2:
			return "\"" + fmt.Sprintf("%s %d", short, kind) + oneOf("", "", "", " ", separator, lineEnd) + "\""
		default:
			return fmt.Sprintf("%s that is so long that words do not hold it %d", long, kind)
		}
	}
	unread := func() string {
		switch n := r.IntN(12); {
		case calm:
			return fmt.Sprint(n)
		case n == 0:
			return "\"a " + separator + " \"\"b\"\"\""
		case n == 1:
			return "\"two" + lineEnd + lineEnd + "lines\""
		case n == 2:
			return strings.Repeat("x", r.IntN(70))
		case n == 3:
			return "\"\""
		case n < 6:
			return "\"" + strings.Repeat("y", r.IntN(20)) + "\""
		case n < 9:
			return ""
		default:
			return fmt.Sprint(r.IntN(2000))
		}
	}
	cell := func(column string, row int) string {
		switch column {
		case "step":
			return name("sow", "weigh and label")
		case "worker":
			return name("w", "the worker")
		case "grow":
			return name("g", "the grow")
		case "workflow":
			return []string{"tray", "direct"}[row/17%2]
		case "date":
			return fmt.Sprintf("2026-%02d-%02d", 1+row/50%12, 1+r.IntN(1+row%28))
		case "count":
			return fmt.Sprint(1 + r.IntN(400))
		case "time":
			return oneOf(fmt.Sprint(60+r.IntN(3000)), fmt.Sprintf("%d:%02d", r.IntN(90), 1+r.IntN(59)))
		case "people":
			return oneOf("1", "1", "2")
		case "setups":
			return fmt.Sprint(1 + row/40%2)
		case "source":
			return []string{"watch", "judged"}[row/23%2]
		case "rating":
			return []string{"", "100", "95"}[row/31%3]
		case "start", "end":
			return oneOf("", "8:00", "09:15:30")
		case "void":
			if calm {
				return ""
			}
			return oneOf("", "", "", "", "", "", "", "", "slipped")
		case "paused":
			return ""
		}
		return unread()
	}
	var text strings.Builder
	text.WriteString(strings.Join(columns, separator) + lineEnd)
	for row := range rows {
		cells := make([]string, len(columns))
		for i, column := range columns {
			cells[i] = cell(column, row)
		}
		if mistakes {
			switch r.IntN(60) {
			case 0:
				cells = cells[:r.IntN(len(cells))]
			case 1:
				cells = append(cells, unread())
			case 2:
				cells[r.IntN(len(cells))] = oneOf("5\" pot", "\"a\"b", "\r", "x\ry", "-")
			case 3:
				cells = nil
			}
		}
		text.WriteString(strings.Join(cells, separator) + lineEnd)
	}
	return text.String()
}

func TestAnyColumns(t *testing.T) {
	for seed := range uint64(60) {
		text := anyColumns(seed, 400, false)
		if !slices.Contains(strings.FieldsFunc(text[:strings.IndexByte(text, '\n')], func(r rune) bool { return strings.ContainsRune(",;\t\r", r) }), "start") {
			_, err := Read(strings.NewReader(text), "monday.csv", Dialect{})
			require.NoError(t, err, seed) // else its rows are not compared
		}
		checkScan(t, text, Dialect{})
		checkScan(t, anyColumns(seed, 60, true), Dialect{})
	}
}

// What looks like the rest of a row, in quotes, is none.
func TestCellsLikeRows(t *testing.T) {
	for _, cell := range []string{"x,5,7,60\ny", "x,5,7,60\n", "\n", ",,,\n,,7,60\n,"} {
		for _, row := range []string{"sow,%s,b,3,50\n", "sow,a,%s,3,50\n", "sow,%[1]s,%[1]s,3,50\n"} {
			row = fmt.Sprintf(row, `"`+cell+`"`)
			checkScan(t, "step,a,b,count,time\n"+row+"sow,a,b,4,70\n"+row+row, Dialect{})
			checkScan(t, "step,a,b,count,time\n"+strings.Repeat("sow,a,b,4,70\n", 300)+row+"sow,a,b,4,70\n", Dialect{})
		}
	}
}

// A chunk knows how many quotes it has when its headings are taken off.
func TestChunkBehind(t *testing.T) {
	text := "\"a\",b\n\"c\",\"d\"\"\"\n"
	whole := new(chunker).lastChunk([]byte(text), 8)
	rest := whole.behind(6)
	require.Equal(t, text[6:], string(rest.data))
	require.Equal(t, 6, rest.quotes)
}

// Cells of blanks name nothing, whatever stands above them.
func TestCellsOfBlanks(t *testing.T) {
	for _, blank := range []string{" ", "\t ", `" "`, `""`} {
		row := "2026-03-02,g1,tray,sow,w1,3,50\n2026-03-02," + blank + "," + blank + ",sow," + blank + ",4,60\n"
		text := "date,grow,workflow,step,worker,count,time\n" + row + row + "2026-03-02,g1," + blank + ",sow,w1,4,60\n2026-03-02,g1,tray,sow," + blank + ",4,60\n" + row
		checkScan(t, text, Dialect{})
		log, err := Read(strings.NewReader(text), "monday.csv", Dialect{})
		require.NoError(t, err)
		require.Equal(t, [3]string{}, [3]string{log.Readings[1].Grow, log.Readings[1].Workflow, log.Readings[1].Worker})
	}
}

// When there are too many names to remember, those that come again are found again, in whatever
// order they do; and a batch has no more of what was done, and of how, than is remembered, and its own.
func TestManyNames(t *testing.T) {
	var text strings.Builder
	text.WriteString("grow,workflow,step,worker,rating,count,time\n")
	r := rand.New(rand.NewPCG(9, 10))
	either := func() int { return r.IntN(2) }
	for i := range 30_000 {
		steps, ratings := 2, 1
		if i < 6000 {
			steps = 60
		}
		if i > 25_000 {
			ratings = 1000
		}
		fmt.Fprintf(&text, "g%d,f%d,s%d,w%d,%d,3,50\n", i, either(), r.IntN(steps), either(), 50+i%ratings)
	}
	log, err := Read(strings.NewReader(text.String()), "monday.csv", Dialect{})
	require.NoError(t, err)
	row := 0
	in := &chunker{r: strings.NewReader(text.String()), dialect: &Dialect{}, size: 4096}
	_, err = scanChunks(in, "monday.csv", nil, func(b *condense.Batch) error {
		require.LessOrEqual(t, len(b.What), maxWhats+b.Rows.Len())
		require.LessOrEqual(t, len(b.How), maxWhats+b.Rows.Len())
		for _, w := range b.What {
			require.Less(t, int(w.Step), len(b.Names[condense.StepNames]))
		}
		for i := range b.Rows.Len() {
			brief, want := b.Rows.At(i), &log.Readings[row]
			for kind, name := range [nameKinds]string{condense.StepNames: want.Step, condense.WorkflowNames: want.Workflow, condense.GrowNames: want.Grow, condense.WorkerNames: want.Worker} {
				require.Equal(t, name, b.Name(brief, kind), row)
			}
			require.Equal(t, want.Rating, b.How[brief.How].Rating, row)
			row++
		}
		return nil
	})
	require.NoError(t, err)
	require.Len(t, log.Readings, row)
}

// How it was done is told by four columns that stand apart, of which each may be one of hundreds.
func TestManyWaysOfHow(t *testing.T) {
	var text strings.Builder
	text.WriteString("people,step,setups,count,rating,time,source\n")
	var want []condense.How
	r := rand.New(rand.NewPCG(12, 30))
	for range 30_000 {
		how := condense.How{HasSetups: true, People: float64(1 + r.IntN(400)), Setups: float64(1 + r.IntN(2)), Rating: float64(1 + r.IntN(400)), Judged: r.IntN(2) == 0}
		fmt.Fprintf(&text, "%g,sow,%g,3,%g,50,%s\n", how.People, how.Setups, how.Rating, map[bool]string{false: "film", true: "judged"}[how.Judged])
		want = append(want, how)
	}
	row := 0
	in := &chunker{r: strings.NewReader(text.String()), dialect: &Dialect{}, size: 1 << 16}
	_, err := scanChunks(in, "monday.csv", nil, func(b *condense.Batch) error {
		for i := range b.Rows.Len() {
			require.Equal(t, want[row], b.How[b.Rows.At(i).How], row)
			row++
		}
		return nil
	})
	require.NoError(t, err)
	require.Len(t, want, row)
}
