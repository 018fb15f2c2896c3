package cues

import (
	"errors"
	"math"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/timing/study"
)

// a is a reading of film as it is when nothing is said of it.
func a(line int, step string, seconds, count float64) study.Reading {
	return study.Reading{
		Place: study.Place{File: "monday", Line: line}, Step: step, Seconds: seconds, Count: count,
		People: 1, Source: study.Film, Rating: 100,
	}
}

func with(r study.Reading, change func(*study.Reading)) study.Reading {
	change(&r)
	return r
}

func TestRead(t *testing.T) {
	day := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		name, text string
		opts       Options
		want       []study.Reading
	}{
		{
			name: "WebVTT, all that a cue may say",
			text: "WEBVTT\n\nintro\n00:11.000 --> 00:48.500 align:start\nsow, pelleted\ncount: 24\nSetups : 2\nworker: w1\npeople: 1.5\n" +
				"grow: g3\nworkflow: tray\ndate: 2026-03-02\nnote: a: b\nvoid: tray fell\nreading: r1\n",
			want: []study.Reading{with(a(4, "sow, pelleted", 37.5, 24), func(r *study.Reading) {
				r.Setups, r.Worker, r.People, r.Grow, r.Workflow = study.Known(2), "w1", 1.5, "g3", "tray"
				r.Date, r.Note, r.Void = day, "a: b", "tray fell"
			})},
		},
		{
			name: "defaults where the cue says nothing",
			text: "WEBVTT\n\n00:00.000 --> 00:04.000\nsow\ncount: 2\n\n00:04.000 --> 00:09.000\nsow\ncount: 3\nworker: w2\ngrow: g9\nworkflow: b\ndate: 2026-03-02\n",
			opts: Options{Date: day.AddDate(0, 0, 1), Grow: "g1", Workflow: "a", Worker: "w1"},
			want: []study.Reading{
				with(a(3, "sow", 4, 2), func(r *study.Reading) {
					r.Date, r.Grow, r.Workflow, r.Worker = day.AddDate(0, 0, 1), "g1", "a", "w1"
				}),
				with(a(7, "sow", 5, 3), func(r *study.Reading) {
					r.Date, r.Grow, r.Workflow, r.Worker = day, "g9", "b", "w2"
				}),
			},
		},
		{
			name: "tags and character references",
			text: "WEBVTT\n\n00:00.000 --> 00:04.000\n<v w1><b.loud>cut</b> &amp; <00:01.000>bag\n<i>count</i>: 2&#52;\nnote: pH &lt; 6,&nbsp;5 &lrm;<c\nd>of</c>&notanentity;\n",
			want: []study.Reading{with(a(3, "cut & bag", 4, 24), func(r *study.Reading) { r.Note = "pH < 6, 5 \u200eof¬anentity;" })},
		},
		{
			name: "a tag over two lines keeps the numbers of the lines below",
			text: "WEBVTT\n\n00:00.000 --> 00:04.000\nso<c\nd>w\ncount: 24\n\n00:05.000 --> 00:06.000\nsow\ncount: 1",
			want: []study.Reading{a(3, "sow", 4, 24), a(8, "sow", 1, 1)},
		},
		{
			name: "comments, a style sheet and a region; an arrow begins the next block",
			text: "WEBVTT filmed on Monday\nKind: marks\n\nSTYLE \n::cue { color: red }\n\nREGION\nid:a\n\nNOTE\n\nNOTE a\nb\n\n" +
				"00:00.000-->00:04.000\nsow\ncount: 2\n0:00:04.000 --> 0:00:05.000\nsow\ncount: 1\n\nNOTE\tc",
			want: []study.Reading{a(15, "sow", 4, 2), a(18, "sow", 1, 1)},
		},
		{
			name: "header text ends at a timing line",
			text: "WEBVTT\nKind: marks\n00:00.000 --> 00:04.000\nsow\ncount: 2\n",
			want: []study.Reading{a(3, "sow", 4, 2)},
		},
		{
			name: "setups above 0 and no count: getting ready alone; a lap; spaces alone on a line",
			text: "WEBVTT\n\n00:00.000 --> 00:04.000\n \nsow\n  \ncount: 0\nsetups: 1\n\n00:04.000 --> 00:05.000\nsow\ncount: 12\nsetups: 0\n",
			want: []study.Reading{
				with(a(3, "sow", 4, 0), func(r *study.Reading) { r.Setups = study.Known(1) }),
				with(a(10, "sow", 1, 12), func(r *study.Reading) { r.Setups = study.Known(0) }),
			},
		},
		{
			name: "parts of one reading: times add up, the rest is said once or alike",
			text: "WEBVTT\n\n00:00.000 --> 00:04.000\nsow\nreading: 1\nnote: first\nworker: w1\n\n00:04.000 --> 00:09.000\nthin\ncount: 3\nworker: w1\n\n" +
				"00:09.100 --> 00:09.300\nsow\nreading: 1\ncount: 24\nsetups: 1\nnote: phone\nworker: w1\n\n00:10.000 --> 00:10.100\nsow\ncount: 24\nreading: 1\nnote: first; phone\n",
			want: []study.Reading{
				with(a(3, "sow", 4.3, 24), func(r *study.Reading) {
					r.Setups, r.Worker, r.Note = study.Known(1), "w1", "first; phone"
				}),
				with(a(9, "thin", 5, 3), func(r *study.Reading) { r.Worker = "w1" }),
			},
		},
		{
			name: "unlike workers overlap",
			text: "WEBVTT\n\n00:00.000 --> 00:04.000\nsow\ncount: 2\nworker: w1\n\n00:01.000 --> 00:05.000\nsow\ncount: 3\nworker: w2\n\n00:01.000 --> 00:02.000\nsow\ncount: 3\n",
			want: []study.Reading{
				with(a(3, "sow", 4, 2), func(r *study.Reading) { r.Worker = "w1" }),
				with(a(8, "sow", 4, 3), func(r *study.Reading) { r.Worker = "w2" }),
				a(13, "sow", 1, 3),
			},
		},
		{
			name: "film shown eight times too fast: 10 s on screen are 80 s of work",
			text: "WEBVTT\n\n00:00.000 --> 00:10.000\nsow\ncount: 2\n", opts: Options{Speed: 8},
			want: []study.Reading{a(3, "sow", 80, 2)},
		},
		{
			name: "no digits of rounding",
			text: "0:00 sow x2\n0:10 thin × 1.5\n0:13 stop", opts: Options{Speed: 1.1},
			want: []study.Reading{a(1, "sow", 11, 2), a(2, "thin", 3.3, 1.5)},
		},
		{
			name: "SubRip, with a byte-order mark, CRLF, and a number missing",
			text: "\ufeff1\r\n00:00:11,000 --> 00:00:48,500\r\n<font color=\"red\"><i>sow</i></font>\r\ncount: 24\r\n \r\n100:00:00,000 --> 100:00:01,250 \r\nR & <D> &amp;\r\ncount: 1\r\n\r\n\r\n",
			want: []study.Reading{a(2, "sow", 37.5, 24), a(6, "R & <D> &amp;", 1.25, 1)},
		},
		{
			name: "cues out of order",
			text: "00:01:11,000 --> 00:01:48,500\nsow\ncount: 24\n\n2\n00:00:11,000 --> 00:00:12,000\nsow\ncount: 2",
			want: []study.Reading{a(1, "sow", 37.5, 24), a(6, "sow", 1, 2)},
		},
		{
			name: "marks",
			text: "# hands only\n\n 0:12\tsow x24\n0:52.5 mix x 3 feed X 1.5\n  # the phone\n1:02 -\n2:00 cut and bag×7\n1:02:03 - \n1:02:03 thin  × 24\n61:59:59.25 STOP\n",
			want: []study.Reading{a(3, "sow", 40.5, 24), a(4, "mix x 3 feed", 9.5, 1.5), a(7, "cut and bag", 3603, 7), a(9, "thin", 219476.25, 24)},
		},
		{
			name: "marks with carriage returns", text: "0:00 sow x1\r0:01 stop\r", opts: Options{Worker: " w1\n"},
			want: []study.Reading{with(a(1, "sow", 1, 1), func(r *study.Reading) { r.Worker = "w1" })},
		},
		{
			name: "names of the study", text: "0:00 sow x1\n0:01 stop", opts: Options{Steps: []string{"thin", "sow"}, Workflows: []string{}},
			want: []study.Reading{a(1, "sow", 1, 1)},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Read(strings.NewReader(c.text), "monday", c.opts)
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
		})
	}
}

func TestReadRefusesSpeed(t *testing.T) {
	for _, speed := range []float64{-1, math.Inf(1), math.NaN()} {
		_, err := Read(strings.NewReader("0:00 sow x1\n0:01 stop"), "monday", Options{Speed: speed})
		assert.ErrorContains(t, err, "want a number above 0")
	}
}

func TestReadGivesTheErrorOfItsSource(t *testing.T) {
	broken := errors.New("the disk is gone")
	_, err := Read(iotest.ErrReader(broken), "monday", Options{})
	assert.ErrorIs(t, err, broken)
}
