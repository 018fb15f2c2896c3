package folder

import (
	"fmt"
	"os"
	"strings"

	"headhours/timing/words"
)

// NoStudy is an ErrNoStudy of a folder, which names the file that may be the one that is
// missing, by another name.
func NoStudy(dir string) error {
	err := fmt.Errorf("%w in %q", ErrNoStudy, dir)
	entries, _ := os.ReadDir(dir) // a folder that cannot be read shows none
	for _, e := range entries {
		name := strings.ToLower(e.Name())
		if !e.IsDir() && strings.HasPrefix(name, "study") && (strings.Contains(name, "toml") || name == "study" || name == "study.txt") {
			return fmt.Errorf("%w, but %s: is that meant? Then rename it to %s", err, words.Quote(e.Name()), studyFile)
		}
	}
	return err
}
