package tasklog

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"headhours/timing/condense"
	"headhours/timing/study"
)

// row is a reading as a batch has it, its names and place written out.
type row struct {
	condense.Day
	condense.How
	count, seconds float64
	names          [nameKinds]string
	place          study.Place
	void           string
}

// scanned is the readings of a log by Scan, with chunks of a size, or by ScanRowByRow.
func scanned(text string, size int, dialect Dialect) (rows []row, found Found, err error) {
	return scannedFrom(func() io.Reader { return strings.NewReader(text) }, size, dialect)
}

// scannedInOrder is scanned of a log of which no part can be read before those above it.
func scannedInOrder(text string, size int, dialect Dialect) (rows []row, found Found, err error) {
	return scannedFrom(func() io.Reader { return struct{ io.Reader }{strings.NewReader(text)} }, size, dialect)
}

func scannedFrom(open func() io.Reader, size int, dialect Dialect) (rows []row, found Found, err error) {
	rows, found, err = scannedIn(&chunker{r: open(), dialect: &dialect, size: size})
	if errors.Is(err, ErrQuotes) {
		return scannedIn(&chunker{r: open(), dialect: &dialect, size: size, careful: true})
	}
	return rows, found, err
}

func scannedIn(in *chunker) (rows []row, found Found, err error) {
	found, err = scanChunks(in, "monday.csv", nil, func(b *condense.Batch) error {
		voids := b.Voids
		for i := range b.Rows.Len() {
			brief := b.Rows.At(i)
			r := row{Day: brief.Day, How: b.How[brief.How], count: brief.Count, seconds: brief.Seconds, place: b.Place(brief)}
			for kind := range r.names {
				r.names[kind] = b.Name(brief, kind)
			}
			if b.What[brief.What].Voided {
				r.void, voids = voids[0], voids[1:]
			}
			rows = append(rows, r)
		}
		return nil
	})
	return rows, found, err
}

// checkScan holds Scan, with chunks of several sizes, to Read.
func checkScan(t *testing.T, text string, dialect Dialect) {
	t.Helper()
	log, want := Read(strings.NewReader(text), "monday.csv", dialect)
	var rows []row
	clocks := 0
	var held []Held
	for i := range log.Readings {
		r := &log.Readings[i]
		if r.Journal != "" {
			held = append(held, Held{r.Journal, r.Place, FiguresOf(r)})
		}
		if _, noted := r.Named(); noted {
			clocks++
		}
		rows = append(rows, row{condense.DayOf(r.Date), condense.HowOf(r), r.Count, r.Seconds, [nameKinds]string{r.Step, r.Workflow, r.Grow, r.Worker}, r.Place, r.Void})
	}
	for _, size := range []int{32, 100, chunkSize} {
		got, found, err := scanned(text, size, dialect)
		inOrder, foundInOrder, errInOrder := scannedInOrder(text, size, dialect)
		require.Equal(t, []any{got, found, err}, []any{inOrder, foundInOrder, errInOrder}, size)
		require.Equal(t, want, err, size)
		require.Equal(t, log.Warnings, found.Warnings, size)
		if err != nil {
			continue
		}
		require.Len(t, got, len(rows), size)
		for i := range rows {
			require.Equal(t, rows[i], got[i], size)
		}
		require.Equal(t, [2]int{len(rows), clocks}, [2]int{found.Readings, found.Clocks}, size)
		require.Equal(t, held, found.Held, size)
	}
}

// What is skipped has to be text too, wherever it stands, in whatever form.
func TestSkippedCellsAreText(t *testing.T) {
	for _, header := range []string{"step,count,time,a,b,c\n", "a,step,count,time,b,c\n", "a,b,c,d,e,f,g,step,count,time\n", "step,a,count,b,c,d,e,f,time,note\n"} {
		columns := strings.Split(strings.TrimSpace(header), ",")
		row := func(cell string, at int) string {
			cells := make([]string, len(columns))
			for i, is := range columns {
				switch is {
				case "step":
					cells[i] = "sow"
				case "count":
					cells[i] = "3"
				case "time":
					cells[i] = "30.5"
				default:
					cells[i] = "bed 4"
					if at--; at == -1 {
						cells[i] = cell
					}
				}
			}
			return strings.Join(cells, ",") + "\n"
		}
		usual := row("", 99)
		for _, cell := range []string{"\xff", "x\x00", "\u00fcber", "eight by\xff", "a longer one, it has room for words\xfe", "a longer one of umlauts: \u00e4\u00f6\u00fc", "said \"so\"\xff", "said \"\u00e4\"", "two\nlines\xff"} {
			if strings.ContainsAny(cell, ",\"\n") {
				cell = `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
			}
			for at := range len(columns) - 3 {
				checkScan(t, header+strings.Repeat(usual, 300)+row(cell, at)+strings.Repeat(usual, 150)+row("\u00e9", 0)+row(cell, at)+usual, Dialect{})
			}
		}
	}
}

// Of times that may have been meant otherwise as many are told of as are listed, and the others are counted.
func TestManyDoubts(t *testing.T) {
	for _, eol := range []string{"\n", "\r\n"} {
		for _, header := range []string{"step,count,time,paused", "paused,count,step,time", "time,step,count,paused"} {
			var text strings.Builder
			text.WriteString(header + eol)
			for i := range 4000 {
				row := header
				for name, cell := range map[string]string{
					"step": "sow", "count": strconv.Itoa(1 + i%9),
					"time":   []string{"9.75", "12.75", "9.755", "9.7", "1:20", "0.25", " 3.35", "9", `"4.25"`}[i%9],
					"paused": []string{"", "1.30", "2", ""}[i%4],
				} {
					row = strings.Replace(row, name, cell, 1)
				}
				text.WriteString(row + eol)
			}
			checkScan(t, text.String(), Dialect{})
			checkScan(t, text.String()+strings.Replace(header, "count", "-1", 1)+eol, Dialect{})
			checkScan(t, amongBlanks(text.String()), Dialect{})
		}
	}
}

// amongBlanks is a log with quotes and blanks about its cells, more about some than about others.
func amongBlanks(text string) string {
	r := rand.New(rand.NewPCG(9, 30))
	lines := strings.SplitAfter(text, "\n")
	for i, line := range lines[1:] {
		cells := strings.Split(strings.TrimRight(line, "\r\n"), ",")
		for k, cell := range cells {
			if style := r.IntN(9); !strings.Contains(cell, `"`) && line != "" {
				cells[k] = fmt.Sprintf([]string{"%s", " %s", "%s ", " %s  ", `"%s"`, `" %s "`, "%s\t", "\t%s", "%s\u00a0"}[style], cell)
			}
		}
		lines[1+i] = strings.Join(cells, ",") + line[len(strings.TrimRight(line, "\r\n")):]
	}
	return strings.Join(lines, "")
}

// texts are logs of every kind that the tests have.
func logTexts(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("testdata/*.?sv")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var texts []string
	for _, name := range files {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		texts = append(texts, string(data))
	}
	header := "date,grow,workflow,step,worker,people,start,end,paused,time,count,setups,source,rating,void,note,journal\n"
	return append(texts,
		header+"2026-03-02,g1,by hand,sow,w1,2,9:05,9:15:30.1,1.25,3m7s,0,2,film,95,\"the \"\"good\"\" tray\",\"a\r\nb\rc\",phone.jsonl:7\n",
		header+"2026-03-02,g1, by hand ,sow,w1,2,,,,187.4,3,2,judged,95.1,,note,\r\n2026-03-02,g1,by hand,a step with a long name,w1,,,,,187.4,3,,FILM,,,\u00fc,\r\n,,,sow,,,,,,5,1,,,,,,",
		"step,count,time,void\r\nsow,1,20,\r\nsow,2,21,lost\r\nsow,2,1.30,\r\nsow,3,1.300,",
		"step;count;time\nsow;1,5;20,25\nsow;1.5;2,25\nsow;.5;5.\n",
		"note,step,count,time\n\"a,\nb\",sow,1,20\nx,sow,1,21\n\"\"\"\",sow,1,22\n5\" pot,sow,1,20\nx,sow,1,2x\n\"un,sow,1,20\n",
		"step,time,count,people\nsow,9999999999999999,1,1\nsow,1,"+strings.Repeat("9", 300)+",1\nsow,20,0,1\nsow,0,1,1\nsow,20,1,0\n\n,,,\n  ,\t,,\nsow,20,1",
		"step,count,time\nsow\rthin,1,20\nsow\r,1,20\n\xff,1,20\na\x00,1,20\n",
		"note,step,count,time,worker\na\x00b,sow,1,20,\n\"a\x00\",sow,1,2,w1\nx,sow,1,2\x00,w1\nx,sow,1,2,w\x00\n\x00,sow,1,2,w1\nx,sow,1,2,w1\n",
		"step,time,count\nsow,3:07,1\nsow,1:03:07.5,1\r\nsow,3:07.25,1\n",
		"step,time,count\nsow,3:60,1\nsow,3:7,1\nsow,1.5:00,1\nsow,1:00:00:00,1\nsow,3:075,1\nsow,:07,1\nsow,3:,1\nsow,0:00,1\nsow,1:62:00,1\nsow,99999999999999999999:00,1\nsow,999999999999999:00,1\nsow,99999999999999999999,1\n",
		"\"step\",\"count\",\"time\",\"worker\"\n\"sow\",\"12\",\"3:07\",\"w1\"\r\n\"sow\",\"1.5\",\"1.30\",\"w\"\"1\"\n\"a,b\",\"1\",\"20\",\" w1 \"\n\"\",\"1\",\"2\",\"\"\n",
		"step,worker,time,count\n\"sow\",\"w1\",\"20\",\"1\"\n\"sow\"x,w1,20,1\nsow,w1,\"20\"x,1\nsow,w1,\"20,1\nsow,w1,20,\"1\"\r\nsow,w1,20,\"1\"",
		"note,step,count,time,more\n\"a\nb\",sow,x,1,\n\"a\n\nb\",sow,1,1,\"\n\"\nx,sow,y,1,\"\"\n",
		"count,time,step\n1,20,sow\n1,20,\n1,20\n1,20,sow,x\n1,20,thin",
	)
}

func TestScanIsRead(t *testing.T) {
	for _, text := range logTexts(t) {
		checkScan(t, text, Dialect{})
		checkScan(t, text, Dialect{Steps: []string{"sow", "thin"}, Workflows: []string{"by hand"}})
	}
}

// FuzzScan: rows side by side, in chunks that end anywhere, are as rows that are told of one by
// one.
func FuzzScan(f *testing.F) {
	for _, text := range logTexts(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		checkScan(t, text, Dialect{})
		checkScan(t, text, Dialect{Steps: []string{"sow", "a"}, Workflows: []string{"by hand"}})
	})
}

// manyRows is a log of many chunks, some of its rows not plain.
func manyRows(rows int) string {
	var text strings.Builder
	text.WriteString("date,grow,workflow,step,worker,time,count,note\n")
	r := rand.New(rand.NewPCG(1, 2))
	for i := range rows {
		note := ""
		switch r.IntN(50) {
		case 0:
			note = "\"a \"\"quote\"\",\nand a line\""
		case 1:
			note = "\"\""
		}
		fmt.Fprintf(&text, "2026-03-%02d,g%d,by hand,%s,w%d,%d.%d,%d,%s\n", i/1000%28+1, i/40,
			[]string{"sow", "thin", "a step of a long name"}[r.IntN(3)], r.IntN(12), 60+r.IntN(200), i%10, 1+r.IntN(60), note)
	}
	return text.String()
}

// The batches are the same for any number of cores.
func TestScanOnAnyCores(t *testing.T) {
	text := manyRows(30_000)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	var one []row
	for _, cores := range []int{1, 2, 7} {
		runtime.GOMAXPROCS(cores)
		rows, found, err := scanned(text, chunkSize, Dialect{})
		require.NoError(t, err)
		require.Equal(t, 30_000, found.Readings)
		if one == nil {
			one = rows
		}
		require.Equal(t, one, rows)
	}
	checkScan(t, text, Dialect{})
}

// Names, notes and the like of more kinds than are remembered, in any order, are read as any.
func TestScanForgets(t *testing.T) {
	var text strings.Builder
	text.WriteString("date,grow,step,worker,count,time,people,source,setups\n")
	r := rand.New(rand.NewPCG(3, 4))
	for range 40_000 {
		fmt.Fprintf(&text, "2026-03-%02d,g%d,%s,w%d,%d,%d.%d,%d,%s,%d\n", 1+r.IntN(28), r.IntN(300),
			[]string{"sow", "thin", "a step of a name that is too long for words"}[r.IntN(3)], r.IntN(900), 1+r.IntN(60),
			60+r.IntN(200), r.IntN(10), 1+r.IntN(9), []string{"watch", "judged", ""}[r.IntN(3)], 1+r.IntN(50))
	}
	checkScan(t, text.String(), Dialect{})
}

// Columns may stand in any order.
func TestScanColumnsInAnyOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	columns := []string{"date", "grow", "workflow", "step", "worker", "people", "count", "time", "setups", "source", "rating", "note", "price", "void", "journal", "start", "end"}
	cell := map[string]func() string{
		"date": func() string { return fmt.Sprintf("2026-03-%02d", 1+r.IntN(3)) }, "grow": func() string { return fmt.Sprintf("g%d", r.IntN(3)) },
		"workflow": func() string { return []string{"by hand", ""}[r.IntN(2)] }, "step": func() string { return []string{"sow", "thin"}[r.IntN(2)] },
		"worker": func() string { return fmt.Sprintf("w%d", r.IntN(3)) }, "people": func() string { return []string{"", "2"}[r.IntN(2)] },
		"count": func() string { return fmt.Sprint(1 + r.IntN(30)) }, "time": func() string { return fmt.Sprint(10 + r.IntN(300)) },
		"setups": func() string { return []string{"", "1", "3"}[r.IntN(3)] }, "source": func() string { return []string{"", "film", "judged"}[r.IntN(3)] },
		"rating": func() string { return []string{"", "90"}[r.IntN(2)] }, "note": func() string { return []string{"", "wet", `"a, b"`}[r.IntN(3)] },
		"price": func() string { return "1" }, "void": func() string { return []string{"", "", "", "spilt", `"fell, and ""slept"""`, "'=1", " "}[r.IntN(7)] },
		"journal": func() string {
			return []string{"", "phone.jsonl:7", fmt.Sprintf("phone.jsonl:%d", r.IntN(1000)), "\"a,\nb:3\"", " ", `""`}[r.IntN(6)]
		},
		"start": func() string { return []string{"", "9:05"}[r.IntN(2)] }, "end": func() string { return []string{"", "9:15"}[r.IntN(2)] },
	}
	for range 60 {
		r.Shuffle(len(columns), func(i, j int) { columns[i], columns[j] = columns[j], columns[i] })
		some := slices.Clone(columns[:8+r.IntN(len(columns)-7)])
		for _, name := range []string{"step", "count", "time"} {
			if !slices.Contains(some, name) {
				some = append(some, name)
			}
		}
		var text strings.Builder
		text.WriteString(strings.Join(some, ",") + "\n")
		for range 200 {
			for i, name := range some {
				if i > 0 {
					text.WriteString(",")
				}
				text.WriteString(cell[name]())
			}
			text.WriteString("\n")
		}
		checkScan(t, text.String(), Dialect{})
	}
}
