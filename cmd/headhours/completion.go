package main

import (
	"embed"
	"fmt"
	"slices"
	"strings"
)

//go:embed shells
var shellScripts embed.FS

// shells are those that completion is written for.
var shells = []string{"bash", "zsh", "fish"}

var completionCommand = command{
	name: "completion", args: "SHELL", maxArgs: 1, choices: shells,
	does: "a script that lets bash, zsh or fish complete what is typed", do: runCompletion,
	examples: []string{
		"headhours completion bash # to be put into ~/.bashrc as: source <(headhours completion bash)",
		"headhours completion fish # to be kept as ~/.config/fish/completions/headhours.fish",
	},
}

// runCompletion prints the script; each asks the hidden command complete.
func runCompletion(c *call) error {
	if len(c.args) == 0 || !slices.Contains(shells, c.args[0]) {
		return usagef("for which shell? One of %s is needed", strings.Join(shells, ", "))
	}
	script, err := shellScripts.ReadFile("shells/completion." + c.args[0])
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(c.stdout, "%s", script)
	return err
}
