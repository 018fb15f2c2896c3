//go:build !unix

package terminal

import tea "charm.land/bubbletea/v2"

// suspend does nothing where a process cannot be stopped from its terminal.
func suspend() tea.Cmd { return nil }
