package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"headhours/timing/study"
)

// tooMany tells of more arguments than a command takes, and of the flag that the first
// of those left over may have been meant for.
func (c *call) tooMany(cmd command) string {
	spare := c.args[cmd.maxArgs]
	text := fmt.Sprintf("%s does not take %q", cmd.name, spare)
	if cmd.maxArgs > 0 {
		text = fmt.Sprintf("%s takes one argument, %s, and not %q beside it", cmd.name, cmd.args, spare)
	}
	if flag, value := c.flagFor(spare); slices.Contains(cmd.flags, flag) || slices.Contains(anywhere, flag) {
		text += fmt.Sprintf(": is --%s %s meant?", flag, shellWord(value))
	}
	return text
}

// flagFor is the flag that an argument may be the value of, and that value; "" where it
// looks like none.
func (c *call) flagFor(arg string) (flag, value string) {
	if _, err := strconv.Atoi(arg); err == nil {
		return "heads", arg
	}
	if isLogName(arg) {
		return "log", arg
	}
	if _, err := os.Stat(filepath.Join(arg, "study.toml")); err == nil {
		return "study", arg
	}
	st, err := c.onlyStudy()
	if err != nil {
		return "", ""
	}
	names := st.WorkflowNames()
	if same, ok := study.SameName(arg, names); ok {
		return "workflow", same
	}
	if near := study.Nearest(arg, names); near != "" {
		return "workflow", near
	}
	return "", ""
}
