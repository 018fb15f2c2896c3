package tasklog

import (
	"cmp"
	"errors"
	"io"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"headhours/timing/condense"
	"headhours/timing/late"
	"headhours/timing/sheets"
	"headhours/timing/study"
)

// Scan reads one task log, as Read does, and hands its readings over a batch at a time,
// in the order of the rows, so that it needs no more memory for a longer log. Rows are
// read on all cores; the batches are the same for any number of them. Each is handed to
// digest first, where that is given, on the core that read it and in no order. Where r is an
// io.ReaderAt too, as a section of a file is, the cores read parts of it at once, and it is to be
// at its beginning.
//
// Batches come until the first problem. The error is study.Problems, no more than
// study.MaxProblems of them and how many more there are; or ErrQuotes; or that of r or of take.
func Scan(r io.Reader, file string, dialect Dialect, digest func(*condense.Batch), take func(*condense.Batch) error) (Found, error) {
	return scanChunks(newChunker(r, &dialect), file, digest, take)
}

// ErrQuotes is of a long log with quotes where CSV has none: ScanRowByRow reads it, from its
// beginning, and tells of them. Batches of it may have come.
var ErrQuotes = errors.New("has quotes where CSV has none")

// ScanRowByRow is Scan for logs in which it met ErrQuotes. It takes several times as long, since
// what ends a row is known only when the rows above it are.
func ScanRowByRow(r io.Reader, file string, dialect Dialect, digest func(*condense.Batch), take func(*condense.Batch) error) (Found, error) {
	in := newChunker(r, &dialect)
	in.careful = true
	return scanChunks(in, file, digest, take)
}

func scanChunks(in *chunker, file string, digest func(*condense.Batch), take func(*condense.Batch) error) (Found, error) {
	first, err := in.begin()
	if err != nil {
		return Found{}, err
	}
	if sheets.Is(file, first.data) {
		data, err := in.wholeFile(first)
		if err != nil {
			return Found{}, err
		}
		return scanWorkbook(data, file, in.dialect, digest, take)
	}
	header := newCSVReader(file, in.dialect, in.separator)
	first, good, err := header.begin(in, first)
	if err != nil {
		return Found{}, err
	}
	found := Found{Unused: header.unused, Mapped: header.mapped, Counted: header.counted(), Warnings: header.log.Warnings}
	if !good {
		header.problems.Sort()
		return found, header.problems.Err()
	}
	from := &condense.Origin{File: cmp.Or(in.dialect.Called, file), Column: 1}
	s := scan{above: header.line - 1, take: take, found: found, whole: in.careful || first.last}
	parts, _ := in.r.(io.ReaderAt)
	err = s.run(&cutter{in: in, parts: parts, next: first, queue: new(queue)}, func() *chunkWorker {
		return &chunkWorker{newParser(header, from), digest}
	})
	if err == nil {
		s.problems = s.problems.And(inWords(s.repeated)...)
		s.problems.Sort()
		err = s.problems.Err()
	}
	return s.found, err
}

// scanWorkbook reads a workbook, which is not longer than a sheet can be.
func scanWorkbook(data []byte, file string, dialect *Dialect, digest func(*condense.Batch), take func(*condense.Batch) error) (Found, error) {
	rows := readWorkbook(data, file, dialect)
	rows.finish()
	found := Found{
		Readings: len(rows.log.Readings), Unused: rows.unused, Mapped: rows.mapped, Counted: rows.counted(), Unordered: rows.unordered,
		Warnings: rows.log.Warnings, Bare: &rows.bare,
	}
	for i := range rows.log.Readings {
		r := &rows.log.Readings[i]
		found.note(r)
		r.Place.File = cmp.Or(dialect.Called, file)
	}
	if err := rows.problems.Err(); err != nil {
		return found, err
	}
	return found, condense.InMemory(rows.log.Readings)(digest, take)
}

// scan puts together what the chunks of a log come to, in their order.
type scan struct {
	take     func(*condense.Batch) error
	above    int  // lines above the chunk in hand
	whole    bool // all chunks begin and end with rows, wherever quotes stand
	found    Found
	problems study.Problems
	repeated []repeated
	full     atomic.Bool // no more warnings are listed: those of chunks that are begun now are counted alone
}

// chunkJob is a chunk on its way.
type chunkJob struct {
	parsed parsed
	err    error
	none   bool // there is nothing in it
	done   bool
	home   chan<- *chunkJob // where it goes when it is taken in
}

const (
	// maxWorkers bounds the memory that chunks take up; what they read is put together by one at a
	// time.
	maxWorkers = 8
	// jobsEach is how many jobs a worker has: one at work, one to be taken in.
	jobsEach = 2
)

// run reads the chunks of a log. The workers do all of it, each on a core of its own as long as none
// has to wait: what one of them has in its cache it finds there again.
func (s *scan) run(cut *cutter, newWorker func() *chunkWorker) error {
	if cut.next.last { // as short as most are
		j := new(chunkJob)
		newWorker().work(cut.next, j)
		s.found.Only = &j.parsed.batch
		return s.takeIn(j)
	}
	var working sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), maxWorkers) {
		w := newWorker()
		w.parser.full = &s.full
		working.Go(func() { w.run(cut, s.takeIn) })
	}
	working.Wait()
	return cut.queue.err
}

// queue is jobs in the order of their chunks, up to the first that is not done.
type queue struct {
	mu     sync.Mutex
	jobs   []*chunkJob
	taking bool  // one takes in what is done
	err    error // then no more is taken in
}

func (q *queue) add(j *chunkJob) {
	q.mu.Lock()
	defer q.mu.Unlock()
	j.done = false
	q.jobs = append(q.jobs, j)
}

// finish takes in a job that is done, with those before it and behind it that are, unless another
// does that; free says that it was taken in, and need not come home.
func (q *queue) finish(j *chunkJob, takeIn func(*chunkJob) error) (free, ok bool) {
	q.mu.Lock()
	defer q.mu.Unlock()
	j.done = true
	if q.taking {
		return false, q.err == nil
	}
	for q.taking = true; len(q.jobs) > 0 && q.jobs[0].done; {
		first, err := q.jobs[0], q.err
		q.jobs = slices.Delete(q.jobs, 0, 1)
		if err == nil {
			q.mu.Unlock()
			err = takeIn(first)
			q.mu.Lock()
		}
		q.err = err
		if free = free || first == j; first != j {
			first.home <- first
		}
	}
	q.taking = false
	return free, q.err == nil
}

// cutter cuts a log into chunks for jobs that it puts in order. Blocks are read at once where they can be;
// what of one is a chunk is known when those before it are cut.
type cutter struct {
	mu     sync.Mutex
	in     *chunker
	parts  io.ReaderAt // nil where a log is to be read in order
	next   chunk       // the first, which is read already
	begun  bool
	ended  atomic.Bool
	before chan struct{} // closed when the blocks that are begun are cut
	queue  *queue
}

// cut cuts a chunk for a job into a worker's buffer, which it makes where there is none; false where there is
// no more.
func (c *cutter) cut(j *chunkJob, buffer *[]byte) (next chunk, more bool) {
	c.mu.Lock()
	if c.ended.Load() {
		c.mu.Unlock()
		return chunk{}, false
	}
	c.queue.add(j)
	if !c.begun {
		c.begun, *buffer = true, c.in.first
		c.ended.Store(c.next.last)
		c.mu.Unlock()
		return c.next, true
	}
	if *buffer == nil {
		*buffer = c.in.buffer()
	}
	before, cut := c.before, make(chan struct{})
	c.before = cut
	var b block
	if from := c.in.offset; c.parts == nil {
		b.read(*buffer, c.in.readFull)
		c.mu.Unlock()
	} else {
		c.in.offset += int64(len(*buffer) - room - spare)
		c.mu.Unlock()
		b.read(*buffer, func(into []byte) (int, error) { return c.parts.ReadAt(into, from) })
	}
	if before != nil {
		<-before
	}
	if !c.ended.Load() {
		next, j.err = c.in.join(&b)
		c.ended.Store(next.last || j.err != nil)
	}
	close(cut)
	return next, true
}

// chunkWorker reads chunks on a core.
type chunkWorker struct {
	parser *parser
	digest func(*condense.Batch)
}

// run reads chunks until there is no more, or what was read could not be taken in.
func (w *chunkWorker) run(cut *cutter, takeIn func(*chunkJob) error) {
	var buffer []byte
	idle := make(chan *chunkJob, jobsEach)
	for range jobsEach {
		idle <- &chunkJob{home: idle}
	}
	for j, free := (*chunkJob)(nil), false; ; late.Collected() {
		if !free { // else what it had in hand is near still
			j = <-idle
		}
		next, more := cut.cut(j, &buffer)
		if !more {
			return
		}
		w.work(next, j)
		ok := false
		if free, ok = cut.queue.finish(j, takeIn); !ok {
			return
		}
	}
}

// work reads a chunk, if it could be cut.
func (w *chunkWorker) work(c chunk, j *chunkJob) {
	if j.none = len(c.data) == 0 && !c.last; j.none || j.err != nil {
		return
	}
	w.parser.parse(c, &j.parsed)
	if w.digest != nil && j.parsed.isGood() && j.parsed.batch.Rows.Len() > 0 {
		w.digest(&j.parsed.batch)
	}
}

// takeIn takes in what a chunk comes to.
func (s *scan) takeIn(j *chunkJob) error {
	if j.none || j.err != nil {
		return j.err
	}
	p := &j.parsed
	if p.strays && !s.whole {
		return ErrQuotes
	}
	for _, list := range []*study.Problems{&p.problems, &p.warnings} {
		for i := range *list {
			(*list)[i].Place.Line += s.above
		}
	}
	for i := range p.found.Held {
		p.found.Held[i].Place.Line += s.above
	}
	for i := range p.repeated {
		p.repeated[i].at.Line += s.above
	}
	s.repeated = merged(s.repeated, p.repeated)
	s.found.Unordered = s.found.Unordered || p.found.Unordered
	p.batch.Line = s.above + 1
	s.above += p.lines
	s.found.Readings += p.batch.Rows.Len()
	s.found.Clocks += p.found.Clocks
	s.found.Held = append(s.found.Held, p.found.Held...)
	p.problems.Sort()
	p.warnings.Sort()
	s.problems = s.problems.And(p.problems...)
	s.found.Warnings = s.found.Warnings.And(p.warnings...)
	s.full.Store(len(s.found.Warnings) >= study.MaxProblems)
	if len(s.problems)+len(s.repeated) > 0 || p.batch.Rows.Len() == 0 {
		return nil
	}
	return s.take(&p.batch)
}
