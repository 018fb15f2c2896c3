package main

import (
	"headhours/timing/folder"
	"headhours/timing/words"
)

// sparesInputs refuses to write an answer over what the study is read from, or to where it
// would be read from: what stands there cannot be made again.
func (c *call) sparesInputs(cmd command) error {
	for _, flag := range []string{"output", "plot", "ics"} {
		file := c.set.Lookup(flag).Value.String()
		if file == "" || file == "-" {
			continue
		}
		what := folder.Input(c.study, c.logs, file)
		if what == "" || cmd.name == exportCommand.name && what == "a task log" {
			continue // export looks itself at what would be lost
		}
		return usagef("--%s %s: that is %s, which is read and never written over: give another file", flag, words.Quote(file), what)
	}
	return nil
}
