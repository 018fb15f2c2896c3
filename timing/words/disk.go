package words

import (
	"errors"
	"io/fs"
	"syscall"
)

// WhyNotWritten says in plain words why the disk refused to write, "" where it is none of the usual reasons.
func WhyNotWritten(err error) string {
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return "the disk is full, make room on it"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "its folder or disk is read-only to you"
	}
	return ""
}
