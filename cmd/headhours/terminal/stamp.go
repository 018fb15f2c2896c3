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
}

// maxLines is how many lines may wait to be obeyed, each with its time.
const maxLines = 4096

// stampedLines reads lines and stamps each before anything else is done. The channel is
// closed at the end of the input, after which wrong gives the error, or at "quit". Blank
// lines and remarks are passed over. Lines that come at once are read a millisecond apart:
// what takes no time would be no reading.
func stampedLines(in io.Reader, now func() stopwatch.Instant) (lines <-chan stamped, wrong func() error) {
	read := make(chan stamped, maxLines)
	scanner := bufio.NewScanner(in)
	go func() {
		defer close(read)
		var last stopwatch.Instant
		for scanner.Scan() {
			at := now()
			if at.Boot == last.Boot && at.Mono == last.Mono {
				time.Sleep(time.Millisecond)
				at = now()
			}
			last = at
			text := strings.TrimSpace(scanner.Text())
			if strings.EqualFold(text, "quit") {
				return
			}
			if text != "" && !strings.HasPrefix(text, "#") {
				read <- stamped{text, at}
			}
		}
	}()
	return read, scanner.Err
}
