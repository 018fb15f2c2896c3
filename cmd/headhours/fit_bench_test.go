package main

import (
	"io"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkFit is headhours fit on two million readings, start to end.
func BenchmarkFit(b *testing.B) { benchmarkFit(b, 2_000_000) }

// BenchmarkFitHundred is what a log of a hundred readings takes beyond the program's start.
func BenchmarkFitHundred(b *testing.B) { benchmarkFit(b, 100) }

func benchmarkFit(b *testing.B, readings int) {
	log := filepath.Join(b.TempDir(), "log.csv")
	out, err := exec.Command("go", "run", "../makelog", "--readings", strconv.Itoa(readings), "-o", log).CombinedOutput()
	require.NoError(b, err, string(out))
	b.ReportAllocs()
	for b.Loop() {
		status := run([]string{"fit", "--log", log, "--format", "json"}, strings.NewReader(""), io.Discard, io.Discard)
		require.Equal(b, 0, status)
	}
}
