package main

import (
	"io"
	"os"

	"golang.org/x/term"
)

// terminal tells the width to write in and whether colour is welcome: only on a
// terminal, and not where NO_COLOR is set (no-color.org) or TERM is dumb.
func terminal(w io.Writer) (width int, colour bool) {
	const usual = 80
	if !isTerminal(w) {
		return usual, false
	}
	columns, _, err := term.GetSize(int(w.(*os.File).Fd()))
	if err != nil || columns <= 0 {
		columns = usual
	}
	return min(columns, usual), os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
