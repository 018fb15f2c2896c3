package folder

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/study"
)

const longRows = 100_000

// longLog writes a log that is too long to be kept in memory.
func longLog(t *testing.T, name string) {
	t.Helper()
	var text strings.Builder
	text.WriteString("step,count,time,note\n")
	for i := range longRows {
		fmt.Fprintf(&text, "sow,%d,%d,%s\n", 4+i%40, 60+10*(i%40)+i*7%11, strings.Repeat("x", 40))
	}
	require.Greater(t, text.Len(), maxKept)
	require.NoError(t, os.WriteFile(name, []byte(text.String()), 0o644))
}

func rewrite(t *testing.T, name, text string, flags int) {
	t.Helper()
	f, err := os.OpenFile(name, os.O_WRONLY|flags, 0)
	require.NoError(t, err)
	_, err = f.WriteString(text)
	require.NoError(t, err)
	require.NoError(t, f.Close())
}

// counted is how many readings are gone through again.
func counted(o Opened) (readings int, err error) {
	err = o.again(nil, func(b *condense.Batch) error { readings += b.Rows.Len(); return nil })
	return readings, err
}

// Readings that are added while a command reads, the first time or again, come with the
// next command: this one's answers are all of the same readings.
func TestReadingsAddedMeanwhile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "monday.csv")
	longLog(t, name)
	added := false
	add := func(int64, int64) {
		if !added {
			added = true
			rewrite(t, name, "sow,5,half a r", os.O_APPEND)
		}
	}
	o, err := Open(t.TempDir(), []string{name}, How{Progress: add})
	require.NoError(t, err)
	require.True(t, added)
	assert.Equal(t, longRows, o.Readings.Steps[0].Readings)
	rewrite(t, name, "ow\nsow,5,90,\n", os.O_APPEND)
	again, err := counted(o)
	require.NoError(t, err)
	assert.Equal(t, longRows, again)
}

// A log that is changed or cut while it is read is an error that says so, whatever it then seems to hold.
func TestLogChangedAtFirst(t *testing.T) {
	for name, change := range map[string]func(t *testing.T, log string){
		"cut": func(t *testing.T, log string) { require.NoError(t, os.Truncate(log, 3000)) },
		"written over": func(t *testing.T, log string) {
			rewrite(t, log, "count,step,time,note\n", 0)
			later := time.Now().Add(time.Hour)
			require.NoError(t, os.Chtimes(log, later, later))
		},
	} {
		t.Run(name, func(t *testing.T) {
			log := filepath.Join(t.TempDir(), "monday.csv")
			longLog(t, log)
			changed := false
			_, err := Open(t.TempDir(), []string{log}, How{Progress: func(int64, int64) {
				if !changed {
					changed = true
					change(t, log)
				}
			}})
			require.True(t, changed)
			assert.EqualError(t, err, log+": changed while it was read: run the command again")
		})
	}
}

// So is one that another program changes or takes away between two readings of it: an answer is never a mixture of the two.
func TestLogChangedMeanwhile(t *testing.T) {
	for name, change := range map[string]func(t *testing.T, log string){
		"written anew": func(t *testing.T, log string) {
			require.NoError(t, WriteFile(log, func(w io.Writer) error { return nil }))
		},
		"written over": func(t *testing.T, log string) { rewrite(t, log, "STEP", 0) },
		"cut short":    func(t *testing.T, log string) { require.NoError(t, os.Truncate(log, 100)) },
		"longer and spoilt": func(t *testing.T, log string) {
			rewrite(t, log, "step;count;", 0)
			rewrite(t, log, "x", os.O_APPEND)
		},
	} {
		t.Run(name, func(t *testing.T) {
			log := filepath.Join(t.TempDir(), "monday.csv")
			longLog(t, log)
			o, err := Open(t.TempDir(), []string{log}, How{})
			require.NoError(t, err)
			change(t, log)
			_, err = counted(o)
			assert.ErrorIs(t, err, errChanged)
			assert.ErrorContains(t, err, log)
			_, err = o.everyReading()
			assert.ErrorIs(t, err, errChanged)
		})
	}
	log := filepath.Join(t.TempDir(), "gone", "monday.csv")
	require.NoError(t, os.Mkdir(filepath.Dir(log), 0o755))
	longLog(t, log)
	o, err := Open(t.TempDir(), []string{log}, How{})
	require.NoError(t, err)
	require.NoError(t, os.RemoveAll(filepath.Dir(log)))
	_, err = counted(o)
	assert.ErrorIs(t, err, os.ErrNotExist)
}

// Two commands that write the same report leave one of the two, whole.
func TestTwoWriteTheSameFile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "report.html")
	texts := []string{strings.Repeat("a", 100_000), strings.Repeat("b", 50_000)}
	require.NoError(t, WriteFile(name, filling(texts[0])))
	var writers sync.WaitGroup
	for _, text := range texts {
		writers.Go(func() {
			for range 50 {
				assert.NoError(t, WriteFile(name, filling(text)))
			}
		})
	}
	for range 200 {
		found, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Contains(t, texts, string(found))
	}
	writers.Wait()
	left, err := os.ReadDir(filepath.Dir(name))
	require.NoError(t, err)
	assert.Len(t, left, 1)
}

// A folder that is removed midway, and a disk that is full, are errors; the old file is
// as it was.
func TestDiskFailsMidway(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "reports")
	require.NoError(t, os.Mkdir(dir, 0o755))
	name := filepath.Join(dir, "report.html")
	require.NoError(t, WriteFile(name, filling("old")))
	full := &os.PathError{Op: "write", Path: name, Err: syscall.ENOSPC}
	assert.ErrorIs(t, WriteFile(name, func(w io.Writer) error {
		_, _ = io.WriteString(w, "half")
		return full
	}), syscall.ENOSPC)
	found, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, "old", string(found))
	assert.Error(t, WriteFile(name, func(w io.Writer) error { return os.RemoveAll(dir) }))
	if _, err := os.Stat("/dev/full"); err == nil {
		assert.ErrorIs(t, WriteFile("/dev/full", filling("x")), syscall.ENOSPC)
	}
}

// A file system that cannot sync, as some in the cloud, is written to all the same; one
// that fails to is an error.
func TestFileSystemWithoutSync(t *testing.T) {
	r, w, err := os.Pipe() // what cannot be synced
	require.NoError(t, err)
	defer r.Close()
	defer w.Close()
	err = w.Sync()
	require.Error(t, err)
	assert.True(t, cannotSync(err), err)
	assert.True(t, cannotSync(&os.PathError{Err: syscall.ENOSYS}))
	assert.False(t, cannotSync(&os.PathError{Err: syscall.EIO}))
	assert.False(t, cannotSync(errors.New("any other")))
}

// The models are the same to the last digit for any number of cores.
func TestModelsOnAnyCores(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for what, log := range map[string]func(*testing.T, string){"long": longLog, "of many kinds": manyKinds} {
		name := filepath.Join(t.TempDir(), "monday.csv")
		log(t, name)
		for _, filter := range []condense.Filter{{}, {Worker: "w3"}} {
			var one [2]answer.Fits
			for _, cores := range []int{1, 2, 5} {
				runtime.GOMAXPROCS(cores)
				o, err := Open(t.TempDir(), []string{name}, How{Filter: filter})
				require.NoError(t, err)
				require.Equal(t, what != "long" && filter.Worker == "", o.Readings.Steps[0].Kinds.Joined, what)
				models := answer.NewModels(o.Readings, answer.Options{})
				apart, err := models.Apart("worker")
				require.NoError(t, err)
				var fits [2]answer.Fits
				for i, m := range []*answer.Models{models, apart} {
					fits[i], err = m.Fits(nil)
					require.NoError(t, err)
				}
				if cores == 1 {
					one = fits
				}
				require.Equal(t, one, fits, what)
			}
		}
	}
}

// manyKinds writes a log with more kinds of readings than are told apart, each grow with
// other steps first and by other workers.
func manyKinds(t *testing.T, name string) {
	t.Helper()
	r := rand.New(rand.NewPCG(7, 8))
	var text strings.Builder
	text.WriteString("date,grow,workflow,step,worker,count,time,void,setups\n")
	for i := range 37_000 {
		void := ""
		if r.IntN(200) == 0 {
			void = "phone rang"
		}
		count, step := 4+r.IntN(60), r.IntN(5)*r.IntN(5)
		fmt.Fprintf(&text, "2026-%02d-%02d,g%d,way %d,step %d,w%d,%d,%.1f,%s,%s\n", 1+i/3600, 1+i/40%28, i/9, i/9%2, step, r.IntN(12),
			count, 20+float64(step)+float64(count)*(3+r.Float64()), void, []string{"", "1", "2"}[r.IntN(3)])
	}
	require.NoError(t, os.WriteFile(name, []byte(text.String()), 0o644))
}

// A log of many chunks is taken in as its readings at hand are, also apart by worker.
func TestLongLogIsItsReadings(t *testing.T) {
	name := filepath.Join(t.TempDir(), "monday.csv")
	manyKinds(t, name)
	o, err := Open(t.TempDir(), []string{name}, How{})
	require.NoError(t, err)
	readings, err := o.everyReading()
	require.NoError(t, err)
	models := answer.NewModels(o.Readings, answer.Options{})
	at := answer.Fit(models.Study, readings, answer.Options{})
	apart, err := models.Apart("worker")
	require.NoError(t, err)
	apartAt, err := at.Apart("worker")
	require.NoError(t, err)
	for _, pair := range [][2]*answer.Models{{models, at}, {apart, apartAt}} {
		got, want := pair[0].Steps, pair[1].Steps
		require.Len(t, got, len(want))
		for i := range want {
			require.Equal(t, want[i].Step.Name, got[i].Step.Name)
			require.Equal(t, [3]int{want[i].Readings, want[i].Voided, want[i].Guessed}, [3]int{got[i].Readings, got[i].Voided, got[i].Guessed}, want[i].Step.Name)
			require.InDelta(t, want[i].Model.UnitSec, got[i].Model.UnitSec, 1e-9, want[i].Step.Name)
			require.InDelta(t, want[i].Model.SetupSec, got[i].Model.SetupSec, 1e-7, want[i].Step.Name)
		}
	}
}

// Chunks without a reading, as a tail of blank lines makes them, take nothing away from
// what is gone through again, on one core or more.
func TestBlankTailKeepsReadings(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, cores := range []int{1, 2} {
		runtime.GOMAXPROCS(cores)
		for _, tail := range []int{0, 1000, 3_000_000} {
			dir := studyIn(t, map[string]string{"a.csv": sowings + strings.Repeat("\n", tail)})
			o, err := Open(dir, []string{filepath.Join(dir, "a.csv")}, How{})
			require.NoError(t, err)
			for range 2 {
				n, err := counted(o)
				require.NoError(t, err)
				assert.Equal(t, 2, n, "%d cores, %d blank lines", cores, tail)
			}
		}
	}
}

// everyReading is all that is known of every reading, voided ones too: of logs, then of
// journals, in order of file name, then line. They are held in memory. The error is
// that of reading the logs again.
func (o *Opened) everyReading() ([]study.Reading, error) {
	var readings []study.Reading
	for _, l := range o.logs {
		some, err := o.readAgain(l)
		if err != nil {
			return nil, err
		}
		readings = append(readings, some...)
	}
	return append(readings, o.recorded...), nil
}

// Readings that look mistyped are found in a log that is read again, in the order of its lines.
func TestDoubtfulInALongLog(t *testing.T) {
	name := filepath.Join(t.TempDir(), "monday.csv")
	var text strings.Builder
	text.WriteString("step,count,time,note\n")
	var want []int
	for i := range longRows {
		seconds := 60 + 10*(i%40) + i*7%11
		if i%9973 == 5000 {
			seconds *= 60
			want = append(want, i+2)
		}
		fmt.Fprintf(&text, "sow,%d,%d,%s\n", 4+i%40, seconds, strings.Repeat("x", 40))
	}
	require.NoError(t, os.WriteFile(name, []byte(text.String()), 0o644))
	o, err := Open("", []string{name}, How{})
	require.NoError(t, err)
	doubts, err := answer.NewModels(o.Readings, answer.Options{}).Doubtful()
	require.NoError(t, err)
	var got []int
	for _, p := range doubts {
		got = append(got, p.Place.Line)
	}
	require.Equal(t, want, got)
}
