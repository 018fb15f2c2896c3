package folder

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A program that is broken off while it writes leaves the old file, and no other. It is
// this test, started once more.
func TestInterruptLeavesNoHalfFile(t *testing.T) {
	if name := os.Getenv("WRITE_UNTIL_INTERRUPTED"); name != "" {
		_ = WriteFile(name, func(w io.Writer) error {
			_, _ = io.WriteString(w, "half")
			fmt.Println("writing")
			select {}
		})
		return
	}
	if runtime.GOOS == "windows" {
		t.Skip("a program cannot be interrupted here by another")
	}
	dir := t.TempDir()
	name := filepath.Join(dir, "answer.txt")
	require.NoError(t, os.WriteFile(name, []byte("old"), 0o644))
	writer := exec.Command(os.Args[0], "-test.run", "^TestInterruptLeavesNoHalfFile$")
	writer.Env = append(os.Environ(), "WRITE_UNTIL_INTERRUPTED="+name)
	out, err := writer.StdoutPipe()
	require.NoError(t, err)
	// what was started in the background of a shell ignores interrupts, and so would the
	// writer; one that is waited for here is not ignored there
	interrupts := make(chan os.Signal, 1)
	signal.Notify(interrupts, os.Interrupt)
	defer signal.Stop(interrupts)
	require.NoError(t, writer.Start())
	_, err = bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 2, "the file and its temporary one")
	require.NoError(t, writer.Process.Signal(os.Interrupt))
	var exit *exec.ExitError
	require.ErrorAs(t, writer.Wait(), &exit)
	assert.Equal(t, "signal: interrupt", exit.Error())
	left, err = os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1)
	found, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, "old", string(found))
}
