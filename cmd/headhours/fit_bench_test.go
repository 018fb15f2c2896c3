package main

import (
	"io"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkFit is headhours fit on two million readings, start to end. What it spends its
// time on is kept in fit.pgo, by which the compiler chooses what to inline in releases.
func BenchmarkFit(b *testing.B) {
	log := filepath.Join(b.TempDir(), "big.csv")
	out, err := exec.Command("go", "run", "../makelog", "--readings", "2000000", "-o", log).CombinedOutput()
	require.NoError(b, err, string(out))
	for b.Loop() {
		status := run([]string{"fit", "--log", log, "--format", "json"}, strings.NewReader(""), io.Discard, io.Discard)
		require.Equal(b, 0, status)
	}
}
