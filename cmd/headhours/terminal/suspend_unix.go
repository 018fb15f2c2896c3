//go:build unix

package terminal

import (
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	tea "charm.land/bubbletea/v2"
)

// suspend hands the terminal back to the shell until that continues the process.
func suspend() tea.Cmd {
	return tea.Exec(suspension{}, func(error) tea.Msg { return tea.ClearScreen() })
}

// suspension stops the process as ctrl-z does where the terminal is not raw.
//
// Note: bubbletea's own suspending waits for SIGCONT for ever, where no shell
// stands behind that could send it.
type suspension struct{}

// stopping is how long a process may take to be stopped by its own signal; where
// nothing could continue it, it is not.
const stopping = 200 * time.Millisecond

func (suspension) Run() error {
	continued := make(chan os.Signal, 1)
	signal.Notify(continued, syscall.SIGCONT)
	defer signal.Stop(continued)
	if err := syscall.Kill(0, syscall.SIGTSTP); err != nil {
		return err
	}
	select {
	case <-continued:
	case <-time.After(stopping):
	}
	return nil
}

func (suspension) SetStdin(io.Reader)  {}
func (suspension) SetStdout(io.Writer) {}
func (suspension) SetStderr(io.Writer) {}
