package terminal

import (
	"bufio"
	"io"
	"strings"
	"time"

	"headhours/timing/stopwatch"
)

// stamped is a line and when it was read.
type stamped struct {
	text string
	at   stopwatch.Instant
	long int // the number of a line that was too long to be read; 0 of others
}

const (
	maxLines = 4096     // that may wait to be obeyed, each with its time
	maxBytes = 64 << 10 // of a line
)

// stampedLines reads lines and stamps each before anything else is done. The channel is
// closed at the end of the input, after which wrong gives the error, or at "quit". Blank
// lines and remarks are passed over. Lines that come at once are read a millisecond apart:
// what takes no time would be no reading.
func stampedLines(in io.Reader, now func() stopwatch.Instant) (lines <-chan stamped, wrong func() error) {
	read := make(chan stamped, maxLines)
	buffer := bufio.NewReaderSize(in, maxBytes)
	var err error
	go func() {
		defer close(read)
		var last stopwatch.Instant
		for n := 1; err == nil; n++ {
			var line stamped
			if line.text, line.long, err = nextLine(buffer, n); err != nil && line.text == "" && line.long == 0 {
				return
			}
			line.at = now()
			if line.at.Boot == last.Boot && line.at.Mono == last.Mono {
				time.Sleep(time.Millisecond)
				line.at = now()
			}
			last = line.at
			if strings.EqualFold(line.text, "quit") {
				return
			}
			if line.long > 0 || line.text != "" && !strings.HasPrefix(line.text, "#") {
				read <- line
			}
		}
	}()
	return read, func() error {
		if err == io.EOF {
			return nil
		}
		return err
	}
}

// nextLine is the line of number n without blanks about it, or that number where it is too
// long, and then it is passed over.
func nextLine(in *bufio.Reader, n int) (text string, long int, err error) {
	line, err := in.ReadSlice('\n')
	for ; err == bufio.ErrBufferFull; _, err = in.ReadSlice('\n') {
		line, long = nil, n
	}
	return strings.TrimSpace(string(line)), long, err
}
