package folder

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"sync"

	"headhours/timing/condense"
	"headhours/timing/tasklog"
)

// logFile is a log, which may be read more than once.
type logFile struct {
	path     string
	info     fs.FileInfo
	keep     bool            // its bytes, for it may be that it can be read only once
	data     []byte          // those, when they have been read to their end
	only     *condense.Batch // all of a log that is kept; nil where it is more than one
	readings int
	counted  string   // the heading of its counts
	mapped   []string // the headings of it that the study names
	held     []tasklog.Held
	unused   []string // its columns that are kept and not used
	clocks   int      // of them, those with a date, a start and an end
	tally    tally    // of them, where there is more than one log
}

// maxKept is how many bytes of logs are kept in memory, so that those of most studies
// are read but once.
const maxKept = 4 << 20

// open opens the log for reading as long as it was when it was first seen: readings may
// be added meanwhile, which come next time.
func (l *logFile) open() (io.ReadCloser, error) {
	if l.data != nil {
		return io.NopCloser(bytes.NewReader(l.data)), nil
	}
	f, err := os.Open(l.path)
	if err != nil {
		return nil, err
	}
	if l.keep {
		return &keeping{file: f, log: l, data: make([]byte, 0, min(max(l.info.Size(), 0), maxKept))}, nil
	}
	return struct {
		*io.SectionReader
		io.Closer
	}{io.NewSectionReader(f, 0, l.info.Size()), f}, nil
}

// keeping keeps what is read of a log, if that is all of it: of a device without end no
// more is read than its first row, which is too long.
type keeping struct {
	file *os.File
	log  *logFile
	data []byte
}

func (k *keeping) Close() error { return k.file.Close() }

func (k *keeping) Read(p []byte) (int, error) {
	n, err := k.file.Read(p)
	k.data = append(k.data, p[:n]...)
	if err == io.EOF {
		k.log.data = k.data
	}
	return n, err
}

// errChanged is the error of a log that another program changed between two readings
// of it. Rows that were added to it meanwhile do no harm.
var errChanged = errors.New("changed while it was read: run the command again")

// same says whether the log is still the one that was read first.
func (l *logFile) same() error {
	if l.data != nil {
		return nil
	}
	info, err := os.Stat(l.path)
	switch {
	case err != nil:
		return err
	case !os.SameFile(l.info, info), info.Size() < l.info.Size(),
		info.Size() == l.info.Size() && !info.ModTime().Equal(l.info.ModTime()):
		return fmt.Errorf("%s %w", l.path, errChanged)
	}
	return nil
}

// scan reads the log, of which a reader is at the beginning.
func (l *logFile) scan(in io.Reader, dialect tasklog.Dialect, digest func(*condense.Batch), take func(*condense.Batch) error) (tasklog.Found, error) {
	found, err := tasklog.Scan(in, l.path, dialect, digest, take)
	if !errors.Is(err, tasklog.ErrQuotes) {
		return found, err
	}
	if l.keep {
		if _, err := io.Copy(io.Discard, in); err != nil { // it may be that it can be read but once
			return found, err
		}
	}
	again, err := l.open()
	if err != nil {
		return found, err
	}
	defer again.Close()
	return tasklog.ScanRowByRow(again, l.path, dialect, digest, take)
}

// counting tells of how much of the logs is read.
type counting struct {
	mu   sync.Mutex
	done int64
	of   int64
	tell func(done, of int64) // may be nil
}

func (c *counting) add(n int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done += int64(n)
	if c.tell != nil {
		c.tell(c.done, c.of)
	}
}

// counted counts what is read of a log, of which several may read parts at once if that may be done with it.
func (c *counting) counted(r io.Reader) io.Reader {
	in := countedReader{r, c}
	if parts, ok := r.(io.ReaderAt); ok {
		return countedParts{in, parts}
	}
	return in
}

type countedReader struct {
	r io.Reader
	c *counting
}

func (r countedReader) Read(p []byte) (int, error) {
	n, err := r.r.Read(p)
	r.c.add(n)
	return n, err
}

type countedParts struct {
	countedReader
	parts io.ReaderAt
}

func (r countedParts) ReadAt(p []byte, from int64) (int, error) {
	n, err := r.parts.ReadAt(p, from)
	r.c.add(n)
	return n, err
}
