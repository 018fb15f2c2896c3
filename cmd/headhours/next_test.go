package main

import (
	"bufio"
	"bytes"
	"strings"
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onTerminal runs a command line whose standard error is a terminal, and gives the
// first line that it printed there.
func onTerminal(t *testing.T, args ...string) string {
	t.Helper()
	screen, terminal, err := pty.Open()
	if err != nil {
		t.Skip("no terminal to be had: ", err)
	}
	defer screen.Close()
	defer terminal.Close()
	var out bytes.Buffer
	require.Equal(t, done, run(args, strings.NewReader(""), &out, terminal))
	_, err = terminal.WriteString("no more\n") // so that there is a line to read
	require.NoError(t, err)
	line, err := bufio.NewReader(screen).ReadString('\n')
	require.NoError(t, err)
	return strings.TrimRight(line, "\r\n")
}

func TestNextOnTerminal(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, unpack("demo", "pak choi"))
	assert.Equal(t, "next: headhours --study 'pak choi' improve shows where the time goes", onTerminal(t, "--study", "pak choi", "compare"))
	assert.Equal(t, "no more", onTerminal(t, "--study", "pak choi", "compare", "--format", "csv", "--table", "pairs"))
	t.Chdir("pak choi")
	assert.Equal(t, "next: headhours compare puts ways side by side", onTerminal(t, "fit"))
	assert.Equal(t, "no more", onTerminal(t, "completion", "bash"))
}

// A sheet is for paper: on a screen it is refused.
func TestNoSheetOnTerminal(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, unpack("demo", "."))
	screen, terminal, err := pty.Open()
	if err != nil {
		t.Skip("no terminal to be had: ", err)
	}
	defer screen.Close()
	defer terminal.Close()
	var errs bytes.Buffer
	assert.Equal(t, badUsage, run([]string{"sheet"}, strings.NewReader(""), terminal, &errs))
	assert.Contains(t, errs.String(), "give -o sheet.html")
	assert.Equal(t, done, run([]string{"sheet", "-o", "sheet.html"}, strings.NewReader(""), terminal, &errs))
	assert.FileExists(t, "sheet.html")
}
