package main

import (
	"fmt"
	"strings"
)

const session = "2026-03-02T0810-w1-a3f9"

// event is a line of a journal, so many seconds after 08:00, with what more it says.
func event(number, seconds int, kind, more string) string {
	return fmt.Sprintf(`{"session":"%s","seq":%d,"id":"e%d","kind":"%s","wall":"2026-03-02T%02d:%02d:%02dZ","boot":"b","mono":%d%s}`+"\n",
		session, number, number, kind, 8+seconds/3600, seconds/60%60, seconds%60, 1000*seconds, more)
}

// sowing is a session of one reading: sow, 60 s for 10.
var sowing = event(1, 0, "begin", `,"worker":"w1"`) + event(2, 10, "start", `,"step":"sow"`) + event(3, 60, "count", `,"count":10`) + event(4, 70, "stop", "") + event(5, 80, "end", "")

func hostileJournals() []hostile {
	const file = "journal/" + session + ".jsonl"
	journal := func(name, why, text string) hostile {
		return hostile{name: name, why: why, files: map[string]string{"study.toml": small, file: text}, args: []string{"fit"}}
	}
	changed := func(old, new string) string { return strings.Replace(sowing, old, new, 1) }
	lines := strings.SplitAfter(sowing, "\n")
	began := event(1, 0, "begin", "") + event(2, 10, "start", `,"step":"sow"`)
	return []hostile{
		journal("empty", "a journal of no bytes", "").gives("sow 0 never - - unit"),
		journal("torn", "a last line that was cut off", sowing+"∑"+event(6, 90, "begin", "")[:50]).warns("torn when the recorder died").gives(sixSeconds),
		journal("torn by orders", "a last line of orders to a terminal", sowing+"∑\x1b[2J\u202e").warns(`torn when the recorder died, and left out: "\x1b[2J\u202e"`).gives(sixSeconds),
		journal("torn by a power cut", "a last line of NUL bytes", sowing+"∑"+strings.Repeat("\x00", 4096)).warns("torn when the recorder died").gives(sixSeconds),
		journal("damaged", "a line of NUL bytes within", lines[0]+"∑"+strings.Repeat("\x00", 512)+"\n"+strings.Join(lines[1:], "")).fails("not an event", "put the line back as it was"),
		journal("damaged by orders", "a line of orders to a terminal within", lines[0]+"∑\x1b[2J\u202e\n"+strings.Join(lines[1:], "")).fails(`in "\x1b[2J\u202e"`),
		journal("unknown kind", "an event of a kind that there is not", sowing+"∑"+event(6, 90, "jump", "")).fails(`kind "jump": want one of begin, start`),
		journal("unknown field", "an event with a field that there is not", sowing+"∑"+event(6, 90, "stop", `,"x\u202e":1`)).fails(`unknown field "x\u202e"`),
		journal("kinds of 60 kB", "a hundred unknown kinds of 60 kB each", sowing+numbered(strings.Replace(event(6, 90, strings.Repeat("k", 60_000), ""), `"e6"`, `"x%d"`, 1), 100)).bounded(128, 64).fails("kind"),
		journal("fields of 60 kB", "a hundred unknown fields of 60 kB each", sowing+strings.Repeat(event(6, 90, "stop", `,"`+strings.Repeat("f", 60_000)+`":1`), 100)).bounded(128, 64).fails("unknown field"),
		journal("count twice", "a field that stands twice in an event", changed(lines[2], "∑"+strings.Replace(lines[2], `"count":10`, `"count":10,"count":20`, 1))).fails(`the field "count" stands twice`),
		journal("byte-order mark", "a byte-order mark, as some editors save", "\ufeff"+sowing).gives(sixSeconds),
		journal("notes", "5,000 notes of a reading", began+notes(5_000)).bounded(96, 8).warns("has not ended").gives("sow 0 never - - unit"),
		journal("odd events", "5,000 events that do not fit: the first thousand are told of, then how many more", sowing+resumes(5_000)).bounded(96, 200).warns(" more").gives(sixSeconds),
		journal("two on a line", "two events on one line", "∑"+strings.Replace(sowing, "\n", "", 1)).fails("more follows on the line"),
		journal("an event of 1 MB", "an event longer than any", sowing+"∑"+event(6, 90, "note", `,"text":"`+strings.Repeat("x", 1_000_000)+`"`)).bounded(64, 8).fails("longer than 65536 bytes"),
		journal("a torn line of 1 MB", "a line that is longer than any and has no end is not taken for torn", sowing+"∑"+strings.Repeat("x", 1_000_000)).bounded(64, 8).fails("longer than 65536 bytes"),
		journal("deep", "thirty thousand lists one within another", sowing+"∑"+`{"a":`+strings.Repeat("[", 30_000)+"\n").fails("not an event"),
		journal("another session's", "events of another session", "∑"+strings.ReplaceAll(sowing, "a3f9", "a3f8")).fails("its journal is named 2026-03-02T0810-w1-a3f8.jsonl"),
		journal("another session's event", "one event of another session", sowing+"∑"+strings.Replace(event(6, 90, "stop", ""), "a3f9", "a3f8", 1)).fails("its journal is named"),
		journal("session of a path", "a session whose name leads out of the folder", sowing+"∑"+strings.Replace(event(6, 90, "stop", ""), session, "../../evil", 1)).fails(`session "../../evil": want a name`),
		journal("not objects", "lines of JSON that are no events", sowing+"∑[1,2]\n∑null\n∑7\n").fails("want an object"),
		journal("UTF-16", "a journal in UTF-16", inUTF16("\ufeff"+sowing)).fails("journal/"+session+".jsonl:1: ", "not UTF-8"),
		journal("CRLF", "lines that end in CRLF", strings.ReplaceAll(sowing, "\n", "\r\n")).gives(sixSeconds),
		journal("count below zero", "a count below zero", changed(lines[2], "∑"+strings.Replace(lines[2], `"count":10`, `"count":-10`, 1))).fails("count -10: want a number"),
		journal("count beyond all", "a count beyond all numbers", changed(lines[2], "∑"+strings.Replace(lines[2], `"count":10`, `"count":1e400`, 1))).fails("1e400"),
		journal("control character", "a name that clears the screen, by an escape of JSON", changed(lines[1], "∑"+strings.Replace(lines[1], "sow", `\u001b[2J`, 1))).fails(`step "\x1b[2J": want no control characters`),
		journal("name that turns text about", "a name that the study lacks and that turns text about", changed(lines[1], "∑"+strings.Replace(lines[1], "sow", "s\u202eow", 1))).warns(`the study has no step "s\u202eow"`).gives("sow 0 never - - unit"),
		journal("numbers missing", "events that have not arrived", lines[0]+lines[1]+lines[2]+"∑"+event(9, 70, "stop", "")).warns("events before number 9 have not arrived").gives(sixSeconds),
		journal("numbers twice", "two events of one number", lines[0]+lines[1]+lines[2]+"∑"+strings.Replace(event(3, 70, "stop", ""), `"e3"`, `"x"`, 1)).warns("another event has the number 3 too").gives(sixSeconds),
		journal("out of order", "lines the wrong way round are put in the order of their numbers", lines[4]+lines[2]+lines[3]+lines[1]+lines[0]).gives(sixSeconds),
		journal("an event twice", "an event that was sent twice counts once", sowing+lines[2]).gives(sixSeconds),
		journal("an event twice, otherwise", "an event that was sent twice, with another count: the first counts, and that is said", sowing+"∑"+strings.Replace(lines[2], "10}", "99}", 1)).
			warns(`event "e3" stands here once more, and otherwise`).gives(sixSeconds),
		journal("clock set back", "the wall clock is set back by an hour: the stopwatch counts on", lines[0]+lines[1]+strings.ReplaceAll("∑"+lines[2]+lines[3], "T08:", "T07:")).warns("the wall clock has moved").gives(sixSeconds),
		journal("stopwatch set back", "both clocks run backwards: no time is made of it", began+"∑"+event(3, 5, "stop", "")).warns("no time is counted in between", "not counted in").gives("sow 0 never - - unit"),
		journal("never ended", "a reading that has not ended is no reading yet", event(1, 0, "begin", "")+"∑"+event(2, 10, "start", `,"step":"sow"`)+event(3, 20, "count", `,"count":10`)).warns("has not ended").gives("sow 0 never - - unit"),
		journal("five thousand counts", "a count put right five thousand times: the last is it", began+corrections(5_000)+event(5_003, 70, "stop", "")).bounded(96, 8).gives("sow 1 5000 - 0.01 s unit"),
	}
}

// notes are of a reading; resumes do not fit after its session.
func notes(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(event(3+i, 60, "note", fmt.Sprintf(`,"text":"note %d"`, i)))
	}
	return b.String()
}

func resumes(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(event(6+i, 90, "resume", ""))
	}
	return b.String()
}

// corrections are counts of a reading, from 1.
func corrections(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(event(3+i, 60, "count", fmt.Sprintf(`,"count":%d`, i+1)))
	}
	return b.String()
}
