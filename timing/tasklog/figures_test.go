package tasklog

import (
	"fmt"
	"iter"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/notation"
)

// amiss are texts, and each with any byte in any place.
func amiss(texts ...string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for _, text := range texts {
			if !yield(text) {
				return
			}
			for at := range text {
				for b := range 256 {
					if b != ';' && !yield(text[:at]+string([]byte{byte(b)})+text[at+1:]) {
						return
					}
				}
			}
		}
	}
}

// A figure is the same in rows side by side and by itself, whatever byte is amiss, as packages that read no rows say
// it; nearly all forms are read where they stand.
func TestUsualFigures(t *testing.T) {
	f := form{comma: true}
	seconds := &unit{}
	for name, c := range map[string]struct {
		decoder
		want  func(string) (float64, bool, error)
		texts []string
		most  int // of these have the usual forms
	}{
		"numbers": {&numbers{form: &f}, func(text string) (float64, bool, error) {
			x, err := sane(notation.Number(text, true))
			return x, false, err
		}, []string{"7", "48", "1234567", "12345678", "6.5", "6,5", "12.25", "0.125", "1234567.1234567", "1.12345678", "007", ".5", "123456789012",
			"6.", "", "0", "1234567890123456", "1.2.3", "-3", "1e3", ".", "0.0", "00000000000000"}, 13},
		"counts": {&numbers{form: &f, doubts: true}, func(text string) (float64, bool, error) {
			x, err := sane(notation.Number(text, true))
			return x, err == nil && f.mayBeThousands(text), err
		}, []string{"7", "1,200", "0.125", "0.200", ".200", "12.25", "1.200", "12.345", "123.456"}, 6},
		"of sheets": {&numbers{form: &form{comma: true, groups: true}}, func(text string) (float64, bool, error) {
			if err := (&form{comma: true, groups: true}).grouped(text); err != nil {
				return 0, false, err
			}
			x, err := sane(notation.Number(text, true))
			return x, false, err
		}, []string{"7", "12.25", "1,2", "1,23", "1,234", "123,456", "1.234"}, 4},
		"times": {&durations{form: &f, unit: seconds}, func(text string) (float64, bool, error) { return notation.Duration(text, true) },
			[]string{"101.5", "6,5", "10.00", "12.345", "3:07", "12:34", "187:07", "1:03:07", "100:00:00", "12345.67",
				"0009.755", "1.30", "9.99", "00000009.99", "3:60", "1:3:07", "3:07.5", "3m7s", "12345:00", "0:00", "12345,", ""}, 10},
		"clocks": {&clocks{&f}, func(text string) (float64, bool, error) {
			x, err := notation.Clock(text, true)
			return x, false, err
		}, []string{"9:05", "19:05", "9:05:07", "23:59:59", "", "9", "9:", "9:0", "009:05", "9:05:", "9:05:0", "24:00", "30:00", "9:05:07.5"}, 4},
	} {
		usual := map[string]bool{}
		for text := range amiss(c.texts...) {
			want, doubtful, err := c.want(text)
			row := []byte(text + ";" + strings.Repeat("7", padding))
			cells := abreast{at: []uint32{0}, into: []float64{0}, stop: lowest * ';', beyond: 1}
			if c.usual(row, &cells); cells.n == 1 {
				usual[text] = true
				require.NoError(t, err, "%s %q", name, text)
				require.False(t, doubtful, "%s %q", name, text)
				require.Equal(t, want, cells.into[0], "%s %q", name, text)
				require.Equal(t, uint32(len(text)+1), cells.at[0], "%s %q", name, text)
			}
			if text == "" {
				continue
			}
			one := figures{decoder: c.decoder}
			for range 2 { // met or not
				got, doubt, wrong := one.of(text)
				require.Equal(t, err == nil, wrong == nil, "%s %q", name, text)
				if err == nil {
					require.Equal(t, want, got, "%s %q", name, text)
					require.Equal(t, doubtful, doubt, "%s %q", name, text)
				}
			}
		}
		for i, text := range c.texts {
			require.Equal(t, i < c.most, usual[text], "%s %q", name, text)
		}
	}
}

// Every second of a day is read where it stands, in all usual forms.
func TestUsualClocks(t *testing.T) {
	var k clocks
	for second := range 24 * 60 * 60 {
		hours, minutes := second/3600, second/60%60
		texts := []string{fmt.Sprintf("%d:%02d:%02d", hours, minutes, second%60)}
		if second%60 == 0 {
			texts = append(texts, fmt.Sprintf("%02d:%02d:%02d", hours, minutes, 0), fmt.Sprintf("%d:%02d", hours, minutes), fmt.Sprintf("%02d:%02d", hours, minutes))
		}
		for _, text := range texts {
			cells := abreast{at: []uint32{0}, into: []float64{0}, stop: lowest * ';', beyond: 1}
			k.usual([]byte(text+";"+strings.Repeat("7", padding)), &cells)
			require.Equal(t, 1, cells.n, text)
			require.Equal(t, float64(second), cells.into[0], text)
		}
	}
}

// Figures in quotes and among blanks are read as plain ones are, in whatever order they come, and wrong ones told of.
func TestFiguresInQuotesAndAmongBlanks(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 30))
	styles := []string{"%s", `"%s"`, " %s", "%s ", "  %s  ", `" %s "`, `"%s  "`}
	for _, wrong := range []string{"", `"3"3`, `"3" `, ` "3"`, `3"`, `" 3 4 "`, "3 4", "\t3", `"-3"`, `""3""`} {
		for _, separator := range []string{",", ";", "\t"} {
			for _, end := range []string{"\n", "\r\n"} {
				text := strings.Join([]string{"step", "start", "end", "count", "paused", "time"}, separator) + end
				at := r.IntN(600)
				for row, style := 0, 0; row < 600; row++ {
					if r.IntN(1+row/40) == 0 {
						style = r.IntN(len(styles))
					}
					cells := []string{"sow", "9:05", "12:10:30", "4", []string{"", "0", "2", "1:30"}[r.IntN(4)],
						[]string{"", "90", "12.5", "187.25", "12345", "1234.567", "3:07", "1:02:03", "3m7s"}[r.IntN(9)]}
					for i := range cells {
						if cells[i] != "" || r.IntN(3) == 0 {
							cells[i] = fmt.Sprintf(styles[style], cells[i])
						}
					}
					if row == at && wrong != "" {
						cells[3+r.IntN(3)] = wrong
					}
					text += strings.Join(cells, separator) + end
				}
				checkScan(t, text, Dialect{})
				require.True(t, checkPlainly(t, text))
			}
		}
	}
}

// A quote that is not closed is not passed over with what stands behind it.
func TestQuoteThatIsNotClosed(t *testing.T) {
	for _, cell := range []string{`" 3 ,,`, `"3,,`, `" 3 ",`} {
		text := "step,time,count,paused\n" + strings.Repeat("sow,60,\" 3 \",\n", 30) + "sow,60," + cell + "\nsow,60,3,\"\"\n"
		checkScan(t, text, Dialect{})
		require.True(t, checkPlainly(t, text))
	}
}

// A return before a line end is a part of it; any other is not passed over.
func TestReturnsInNumbers(t *testing.T) {
	for _, row := range []string{"sow,1,12\r5\r\n", "sow,1,12\rsow,1,13\r\n", "sow,1,12\r5\n"} {
		text := "step,count,time\r\nsow,1,20\r\nsow,2,21.5\r\n" + row + "sow,3,22\n"
		_, err := Read(strings.NewReader(text), "monday.csv", Dialect{})
		assert.Error(t, err, "%q", row)
		checkScan(t, text, Dialect{})
	}
}
