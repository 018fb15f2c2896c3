package cues

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// formats holds cases of the W3C standard, WebVTT: The Web Video Text Tracks
// Format: timestamps, timing lines and files, with what its reading steps make
// of them.
type formats struct {
	WebVTT struct {
		Timestamps []struct {
			Text    string
			Seconds *float64
		}
		Lines []struct {
			Text   string
			Parsed *struct {
				Start float64 `json:"start_s"`
				End   float64 `json:"end_s"`
			}
		} `json:"timing_lines"`
	}
	Files []struct {
		Name, Text string
		Cues       []struct {
			Start float64 `json:"start_s"`
			End   float64 `json:"end_s"`
			Text  string
		}
	} `json:"webvtt_files"`
}

func readFormats(t testing.TB) (f formats) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/reference/formats.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &f))
	require.NotEmpty(t, f.WebVTT.Timestamps)
	require.NotEmpty(t, f.WebVTT.Lines)
	require.NotEmpty(t, f.Files)
	return f
}

func TestTimestamps(t *testing.T) {
	for _, c := range readFormats(t).WebVTT.Timestamps {
		start, end, ok := timingLine(webvttTiming(), c.Text+" --> 2000:00:00.000")
		assert.Equal(t, c.Seconds != nil, ok, "%q", c.Text)
		if c.Seconds != nil {
			assert.Equal(t, *c.Seconds, float64(start)/1e9, "%q", c.Text)
			assert.Equal(t, 2000*time.Hour, end)
		}
		_, end, ok = timingLine(webvttTiming(), "00:00.000 --> "+c.Text)
		assert.Equal(t, c.Seconds != nil, ok, "end %q", c.Text)
		if c.Seconds != nil {
			assert.Equal(t, *c.Seconds, float64(end)/1e9, "%q", c.Text)
		}
	}
}

func TestTimingLines(t *testing.T) {
	for _, c := range readFormats(t).WebVTT.Lines {
		start, end, ok := timingLine(webvttTiming(), c.Text)
		require.Equal(t, c.Parsed != nil, ok, "%q", c.Text)
		if c.Parsed != nil {
			assert.Equal(t, c.Parsed.Start, float64(start)/1e9, "%q", c.Text)
			assert.Equal(t, c.Parsed.End, float64(end)/1e9, "%q", c.Text)
		}
	}
}

// Whole files: the standard's reader finds these cues. Ours finds the same ones,
// and has a problem where there is none to find or the reader passes one over.
func TestFiles(t *testing.T) {
	for _, c := range readFormats(t).Files {
		t.Run(c.Name, func(t *testing.T) {
			lines := split([]byte(c.Text))
			require.Equal(t, c.Cues != nil, isWebVTT(lines[0].text))
			if c.Cues == nil {
				_, err := Read(strings.NewReader(c.Text), "monday.vtt", Options{})
				assert.ErrorContains(t, err, "a WebVTT file begins with the line WEBVTT")
				return
			}
			var r reader
			blocks := r.webvtt(lines)
			require.Len(t, blocks, len(c.Cues))
			for i, want := range c.Cues {
				assert.Equal(t, want.Start, float64(blocks[i].start)/1e9)
				assert.Equal(t, want.End, float64(blocks[i].end)/1e9)
				var text []string
				for _, l := range blocks[i].text {
					text = append(text, l.text)
				}
				assert.Equal(t, want.Text, strings.Join(text, "\n"))
			}
			assert.Equal(t, strings.Contains(c.Name, "broken"), len(r.problems) == 1)
		})
	}
}
