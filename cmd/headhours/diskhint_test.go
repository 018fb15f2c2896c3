package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What keeps a file from being written or read is said in plain words.
func TestDiskHint(t *testing.T) {
	there := filepath.Join(t.TempDir(), "there")
	require.NoError(t, os.WriteFile(there, nil, 0o644))
	missing := there + " not"
	for _, c := range []struct {
		op, path string
		err      error
		want     string
	}{
		{"write", there, syscall.ENOSPC, "the disk is full, make room on it"},
		{"write", there, syscall.EDQUOT, "the disk is full, make room on it"},
		{"mkdir", missing, syscall.EACCES, "its folder or disk is read-only to you"},
		{"open", missing, syscall.EPERM, "its folder or disk is read-only to you"},
		{"open", there, syscall.EROFS, "its folder or disk is read-only to you"},
		{"write", there, syscall.EACCES, "its folder or disk is read-only to you"},
		{"open", there, syscall.EACCES, "it is there, but you may not read it"},
		{"open", missing, syscall.ENOENT, ""},
	} {
		assert.Equal(t, c.want, diskHint(fmt.Errorf("about: %w", &fs.PathError{Op: c.op, Path: c.path, Err: c.err})), c)
	}
	assert.Empty(t, diskHint(fmt.Errorf("said already: %w", syscall.ENOSPC)))
	assert.Empty(t, diskHint(errors.New("else")))
}
