package folder

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func filling(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

func TestWriteFileIsWholeOrNotAtAll(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "answer.txt")
	require.NoError(t, WriteFile(name, filling("old")))
	failed := errors.New("no more")
	err := WriteFile(name, func(w io.Writer) error { _, _ = io.WriteString(w, "half"); return failed })
	assert.ErrorIs(t, err, failed)
	found, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, "old", string(found))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1, "no temporary file is left")
	assert.Error(t, WriteFile(filepath.Join(dir, "no", "answer.txt"), filling("x")))
}

// What cannot be written is told by the name that was asked for, and leaves nothing behind.
func TestWriteFileSaysWhere(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "file"), []byte("mine"), 0o644))
	for name, want := range map[string]string{
		"folder":     "write " + dir + "/folder: is a folder, want a file",
		"file/x.txt": "write " + dir + "/file/x.txt: not a directory",
		"no/x.txt":   "write " + dir + "/no/x.txt: no such file or directory",
	} {
		assert.EqualError(t, WriteFile(filepath.Join(dir, filepath.FromSlash(name)), filling("x")), want)
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 2)
}

func TestWriteFileFollowsALink(t *testing.T) {
	dir := t.TempDir()
	target, link := filepath.Join(dir, "target.txt"), filepath.Join(dir, "link.txt")
	require.NoError(t, os.WriteFile(target, []byte("old"), 0o644))
	if err := os.Symlink(target, link); err != nil {
		t.Skip("no links here: ", err)
	}
	require.NoError(t, WriteFile(link, filling("new")))
	found, err := os.ReadFile(target)
	require.NoError(t, err)
	assert.Equal(t, "new", string(found))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink)
}

// A device stays what it is.
func TestWriteFileWritesThroughADevice(t *testing.T) {
	before, err := os.Stat(os.DevNull)
	if err != nil {
		t.Skip("no null device here: ", err)
	}
	require.NoError(t, writeThrough(os.DevNull, filling("gone")))
	after, err := os.Stat(os.DevNull)
	require.NoError(t, err)
	assert.Equal(t, before.Mode(), after.Mode())
}

// What goes wrong with the temporary file is told of the file that was asked for.
func TestErrorsNameTheFileAskedFor(t *testing.T) {
	name := filepath.Join(t.TempDir(), "report.html")
	err := WriteFile(name, func(w io.Writer) error {
		require.NoError(t, w.(io.Closer).Close())
		_, err := w.Write([]byte("x"))
		return fmt.Errorf("page: %w", err)
	})
	require.EqualError(t, err, "write "+name+": file already closed")
	other := errors.New("not of the file")
	require.Equal(t, other, WriteFile(name, func(io.Writer) error { return other }))
}
