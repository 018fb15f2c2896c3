package main

import (
	"fmt"
	"io"
	"runtime/debug"
)

func printVersion(w io.Writer) error {
	_, err := fmt.Fprintf(w, "headhours %s\n", version())
	return err
}

// version is that of this build.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "unreleased"
}
