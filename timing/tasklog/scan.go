package tasklog

import (
	"io"
	"runtime"

	"headhours/timing"
	"headhours/timing/tasklog/sheets"
)

// Found is what a log was found to hold, beside its readings' figures.
type Found struct {
	Readings int // voided ones too
	Clocks   int // of them, those whose date, start and end are noted
	Held     []Held
	Unused   []string        // the names of columns that are kept and not used
	Warnings timing.Problems // what was read but may have been meant otherwise
}

// Held is a reading that names the journal and number it was exported from.
type Held struct {
	Journal string
	Step    string
	Place   timing.Place
}

// Scan reads one task log, as Read does, and hands its readings over a batch at a time,
// in the order of the rows, so that it needs no more memory for a longer log. Rows are
// read on all cores; the batches are the same for any number of them.
//
// Batches come until the first problem. The error is timing.Problems, no more than
// timing.MostProblems of them and how many more there are; or that of r or of take.
func Scan(r io.Reader, file string, names Names, take func(*timing.Batch) error) (Found, error) {
	return scanChunks(newChunker(r), file, names, take)
}

func scanChunks(in *chunker, file string, names Names, take func(*timing.Batch) error) (Found, error) {
	first, err := in.begin()
	if err != nil {
		return Found{}, err
	}
	if sheets.Is(file, first.data) {
		data, err := in.all(first)
		if err != nil {
			return Found{}, err
		}
		return scanWorkbook(data, file, names, take)
	}
	header := newCSVReader(file, names, in.separator)
	first, good, err := header.begin(in, first)
	if err != nil {
		return Found{}, err
	}
	if !good {
		sortByPlace(header.problems)
		return Found{Warnings: header.log.Warnings}, header.problems.Err()
	}
	s := scan{above: header.line - 1, take: take, found: Found{Unused: header.unused}}
	err = s.run(in, first, func() *parser { return newParser(header, file, names) })
	if err == nil {
		err = s.problems.Err()
	}
	return s.found, err
}

// scanWorkbook reads a workbook, which is not longer than a sheet can be.
func scanWorkbook(data []byte, file string, names Names, take func(*timing.Batch) error) (Found, error) {
	rows := readWorkbook(data, file, names)
	sortByPlace(rows.problems)
	sortByPlace(rows.log.Warnings)
	found := Found{Readings: len(rows.log.Readings), Unused: rows.unused, Warnings: rows.log.Warnings}
	for i := range rows.log.Readings {
		found.note(&rows.log.Readings[i])
	}
	if err := rows.problems.Err(); err != nil {
		return found, err
	}
	return found, timing.InMemory(rows.log.Readings)(take)
}

// note takes note of what a reading says beside its figures.
func (f *Found) note(r *timing.Reading) {
	if _, noted := r.Named(); noted {
		f.Clocks++
	}
	if r.Journal != "" {
		f.Held = append(f.Held, Held{r.Journal, r.Step, r.Place})
	}
}

// scan puts together what the chunks of a log come to, in their order.
type scan struct {
	take     func(*timing.Batch) error
	above    int // lines above the chunk in hand
	found    Found
	problems timing.Problems
}

// job is a chunk on its way.
type job struct {
	chunk  chunk
	buffer []byte
	parsed parsed
	err    error
	done   chan struct{}
}

// mostWorkers bounds the memory that chunks take up; one goroutine puts them
// together and is busy with what so many read.
const mostWorkers = 8

// run reads the chunks of a log, from its first, which is read already.
func (s *scan) run(in *chunker, first chunk, newParser func() *parser) error {
	if first.last { // as short as most are
		j := &job{chunk: first}
		newParser().parse(j.chunk, &j.parsed)
		return s.add(j)
	}
	workers := min(runtime.GOMAXPROCS(0), mostWorkers)
	idle := make(chan *job, workers+2)
	for range cap(idle) {
		idle <- &job{done: make(chan struct{}, 1)}
	}
	todo, order, quit := make(chan *job, cap(idle)), make(chan *job, cap(idle)), make(chan struct{})
	defer close(quit)
	go cut(in, first, idle, todo, order, quit)
	for range workers {
		go func() {
			p := newParser()
			for j := range todo {
				p.parse(j.chunk, &j.parsed)
				j.done <- struct{}{}
			}
		}()
	}
	for j := range order {
		<-j.done
		if err := s.add(j); err != nil {
			return err
		}
		idle <- j
	}
	return nil
}

// cut cuts a log into chunks for as many jobs as are idle.
func cut(in *chunker, next chunk, idle <-chan *job, todo, order chan<- *job, quit <-chan struct{}) {
	defer close(order)
	defer close(todo)
	for fresh := true; ; fresh = false {
		var j *job
		select {
		case j = <-idle:
		case <-quit:
			return
		}
		if fresh {
			j.chunk = next
		} else {
			if j.buffer == nil {
				j.buffer = in.buffer()
			}
			j.chunk, j.err = in.next(j.buffer)
		}
		order <- j
		if j.err != nil {
			j.done <- struct{}{}
			return
		}
		last := j.chunk.last
		todo <- j
		if last {
			return
		}
	}
}

// add takes in what a chunk comes to.
func (s *scan) add(j *job) error {
	if j.err != nil {
		return j.err
	}
	p := &j.parsed
	for _, list := range []*timing.Problems{&p.problems, &p.warnings} {
		for i := range *list {
			(*list)[i].Place.Line += s.above
		}
	}
	for i := range p.found.Held {
		p.found.Held[i].Place.Line += s.above
	}
	p.batch.Line = s.above + 1
	s.above += p.lines
	s.found.Readings += len(p.batch.Rows)
	s.found.Clocks += p.found.Clocks
	s.found.Held = append(s.found.Held, p.found.Held...)
	sortByPlace(p.problems)
	sortByPlace(p.warnings)
	s.problems = s.problems.And(p.problems...)
	s.found.Warnings = s.found.Warnings.And(p.warnings...)
	if len(s.problems) > 0 || len(p.batch.Rows) == 0 {
		return nil
	}
	return s.take(&p.batch)
}
