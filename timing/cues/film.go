package cues

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"hash"
	"io"
	"path/filepath"
	"strings"

	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// Film is a cue file as a log remembers it: in the column film of every row that
// came from it stand its name and a digest of what was in it. Readers of logs
// keep that column and ignore it.
type Film struct{ Name, Checksum string }

const (
	filmColumn = "film"
	digestWord = " sha256:" // between name and digest
	digestSize = 16         // hex digits, enough to tell a grower's films apart
)

// NewFilm is the cue file of a path whose bytes a digest has taken in.
func NewFilm(path string, digest Checksum) Film {
	return Film{clean(filepath.Base(path)), hex.EncodeToString(digest.Sum(nil))[:digestSize]}
}

// Checksum takes in the bytes of a film as they are read.
type Checksum struct{ hash.Hash }

// NewChecksum begins to take in.
func NewChecksum() Checksum { return Checksum{sha256.New()} }

// stem is the name without its ending.
func (f Film) stem() string { return strings.TrimSuffix(f.Name, filepath.Ext(f.Name)) }

// same says whether two films are one: by their bytes, or by a name that gives
// them the same log.
func (f Film) same(g Film) bool { return f.Checksum == g.Checksum || f.stem() == g.stem() }

// film is what a cell of the column says; zero where it is not a film's.
func film(cell string) Film {
	at := strings.LastIndex(cell, digestWord)
	if at < 0 {
		return Film{}
	}
	return Film{cell[:at], cell[at+len(digestWord):]}
}

// WriteLog writes the film's readings as a task log that remembers the film, for a study
// whose bare times are what tasklog.Form's Times says. The error is that of w.
func (f Film) WriteLog(w io.Writer, readings []study.Reading, times string) error {
	var log bytes.Buffer
	if err := tasklog.Write(&log, readings, times, false); err != nil {
		return err
	}
	rows, err := csv.NewReader(&log).ReadAll()
	if err != nil {
		return err
	}
	for i := range rows {
		rows[i] = append(rows[i], f.Name+digestWord+f.Checksum)
	}
	rows[0][len(rows[0])-1] = filmColumn
	out := csv.NewWriter(w)
	out.UseCRLF = true
	return out.WriteAll(rows)
}
