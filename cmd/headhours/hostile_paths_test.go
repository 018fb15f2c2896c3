package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func hostilePaths() []hostile {
	const one = header + "sow,10,60\n"
	path := func(name, why string, files map[string]string, build func(*testing.T, string)) hostile {
		return hostile{name: name, why: why, files: files, build: build, args: []string{"fit"}}
	}
	with := func(name, text string) map[string]string {
		return map[string]string{"study.toml": small, name: text}
	}
	none := map[string]string{"study.toml": small}
	folder := func(name string) func(*testing.T, string) {
		return func(t *testing.T, dir string) { require.NoError(t, os.MkdirAll(name, 0o755)) }
	}
	return []hostile{
		path("folder for a log", "a folder with the name of a log", none, folder("timings/x.csv")).fails("timings/x.csv: is a folder, not a task log"),
		path("folder for the study", "a folder with the name of the study", nil, folder("study.toml")).fails("study.toml: is a folder, want a file"),
		path("file for the logs", "a file where the folder of logs belongs", with("timings", "x"), nil).fails("timings: cannot be read"),
		path("file for the journals", "a file where the folder of journals belongs", with("journal", "x"), nil).fails("journal: cannot be read"),
		path("log that links to itself", "a link to itself", none, symlink("a.csv", "timings/a.csv")).fails("timings/a.csv: cannot be read"),
		path("study that links to itself", "a link to itself", nil, symlink("study.toml", "study.toml")).fails("study.toml: cannot be read"),
		path("logs that link to themselves", "a folder that is a link to itself", none, symlink("timings", "timings")).fails("timings: cannot be read"),
		path("logs that link to the study", "a folder that holds itself: what is in it is said not to be read", none, symlink(".", "timings")).
			warns("timings/study.toml: is not read", "timings/timings: is not read").gives("sow 0 never - - unit"),
		path("link to nothing", "a link to a file that is gone", none, symlink("gone.csv", "timings/a.csv")).fails("timings/a.csv: cannot be read"),
		path("device for a log", "a log that never ends", none, symlink("/dev/zero", "timings/a.csv")).fails("timings/a.csv: is a pipe or a device"),
		path("device for the study", "a study that never ends", nil, symlink("/dev/zero", "study.toml")).fails("study.toml: is a pipe or a device"),
		{name: "device for cues", why: "cues that never end", files: none, args: []string{"film", "/dev/zero"}, status: badData, says: []string{"/dev/zero: is not read: holds more than 16 MiB"}, big: true, alloc: 24},
		path("name of orders", "a log whose name clears the screen, turns text about and breaks the line", with("timings/a\x1b[2J\u202e\n.csv", header+"sow,x,1\n"), nil).fails(`timings/a\x1b[2J\u202e\n.csv:2:5: `),
		path("one log twice", "a log and a link to it: its rows would count twice", with("timings/a.csv", one), symlink("a.csv", "timings/b.csv")).fails("timings/b.csv: is the same file as timings/a.csv"),
		path("log of another kind", "a log under a name that is not read is not passed over in silence", with("timings/a.txt", one), nil).
			warns("timings/a.txt: is not read").gives("sow 0 never - - unit"),
		path("log without leave", "a file that may not be read", with("timings/a.csv", one), func(t *testing.T, dir string) {
			require.NoError(t, os.Chmod(filepath.Join(dir, "timings", "a.csv"), 0))
			if _, err := os.ReadFile(filepath.Join("timings", "a.csv")); err == nil {
				t.Skip("this user may read every file")
			}
		}).fails("timings/a.csv: cannot be read"),
	}
}
