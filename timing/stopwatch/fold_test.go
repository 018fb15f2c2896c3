package stopwatch

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"headhours/timing/study"
)

func TestOneReading(t *testing.T) {
	s := fold(t, begin, 5*second, Event{Kind: Start, Step: "sow", Text: "pelleted"}, 90*second+250*time.Millisecond, count(40), stop, second, end)
	assert.Empty(t, s.Warnings)
	assert.Equal(t, []study.Reading{{
		Place: study.Place{File: "journal/" + session + ".jsonl", Line: 2},
		Date:  time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC),
		Grow:  "g1", Workflow: "by hand", Step: "sow", Worker: "w1", People: 1,
		Start: known(8*3600 + 605), End: known(8*3600 + 695.25), Seconds: 90.25, Count: 40,
		Source: study.Watch, Rating: 100, Note: "pelleted", Journal: session + ".jsonl:2",
	}}, s.Complete())
	assert.Equal(t, Session{
		Name: session, Grow: "g1", Workflow: "by hand", Worker: "w1", People: 1,
		Began: at("08:10:00"), Ended: at("08:11:36.250"), Length: 96*second + 250*time.Millisecond,
	}, s.Session)
	assert.Equal(t, 6*second, s.Unnamed)
}

// Each event by itself, by a clock moved by hand.
func TestEvents(t *testing.T) {
	for _, c := range []struct {
		name string
		play []any
		want []string
	}{
		{"a single reading", []any{begin, start("sow"), 60 * second, count(40), stop}, []string{"sow 60s of 40"}},
		{"it runs until the last event", []any{begin, start("sow"), 60 * second, count(40)}, []string{"sow 60s of 40 runs"}},
		{"the end of the session ends it", []any{begin, start("sow"), 60 * second, end, count(4)}, []string{"sow 60s of 4"}},
		{"a start ends what runs", []any{begin, start("sow"), 60 * second, start("thin"), 5 * second, stop}, []string{"sow 60s", "thin 5s"}},
		{"time before a start is nobody's", []any{begin, start("sow"), 60 * second, stop, 9 * second, start("thin"), 5 * second, stop}, []string{"sow 60s", "thin 5s"}},
		{"next begins where the last ended, at once", []any{begin, start("sow"), 60 * second, next("thin"), 5 * second, stop}, []string{"sow 60s", "thin 5s"}},
		{"and later", []any{begin, start("sow"), 60 * second, stop, 9 * second, next("thin"), 5 * second, stop}, []string{"sow 60s", "thin 14s"}},
		{"the first next begins now", []any{begin, 9 * second, next("sow"), 60 * second, stop}, []string{"sow 60s"}},
		{"next after an interruption begins when that is over", []any{begin, start("sow"), 60 * second, pause, 30 * second, next("thin"), 5 * second, stop}, []string{"sow 60s", "thin 5s"}},
		{"a count of the last", []any{begin, start("sow"), 60 * second, stop, second, count(30), count(40)}, []string{"sow 60s of 40"}},
		{"a count of the one that runs", []any{begin, start("sow"), second, next("thin"), count(40)}, []string{"sow 1s", "thin 0s of 40 runs"}},
		{"a count of one by name", []any{begin, start("sow"), second, next("thin"), Event{Kind: Count, Count: known(40), Of: "e2"}}, []string{"sow 1s of 40", "thin 0s runs"}},
		{"a count known beforehand", []any{begin, Event{Kind: Start, Step: "sow", Count: known(40)}, second, stop}, []string{"sow 1s of 40"}},
		{"lots are laps", []any{begin, start("sow"), 60 * second, count(40), lot, 50 * second, count(38), lot, 40 * second, count(30), stop},
			[]string{"sow 60s of 40", "sow 50s of 38 m0", "sow 40s of 30 m0"}},
		{"a lot after a stop takes the time between", []any{begin, start("sow"), 60 * second, stop, 10 * second, lot, 50 * second, stop}, []string{"sow 60s", "sow 60s m0"}},
		{"a lot with a setup of its own", []any{begin, start("sow"), second, Event{Kind: Lot, Setups: known(1)}, second, stop}, []string{"sow 1s", "sow 1s m1"}},
		{"setups", []any{begin, start("sow"), second, Event{Kind: Setups, Setups: known(3)}, stop}, []string{"sow 1s m3"}},
		{"a pause", []any{begin, start("sow"), 60 * second, pause, 30 * second, resume, 15 * second, stop}, []string{"sow 75s paused 30s"}},
		{"two pauses", []any{begin, start("sow"), second, pause, 2 * second, resume, 3 * second, pause, 4 * second, resume, 5 * second, stop}, []string{"sow 9s paused 6s"}},
		{"a pause that still goes on", []any{begin, start("sow"), 60 * second, pause, 30 * second, count(1)}, []string{"sow 60s of 1 paused 30s runs"}},
		{"a stop in a pause ends it where the pause began", []any{begin, start("sow"), 60 * second, pause, 30 * second, stop}, []string{"sow 60s"}},
		{"people come", []any{begin, start("sow"), 60 * second, Event{Kind: People, People: known(3)}, 30 * second, stop}, []string{"sow 90s ×1.6666666666666667"}},
		{"people change while it is paused", []any{begin, start("sow"), 60 * second, pause, second, Event{Kind: People, People: known(2)}, second, resume, 60 * second, stop},
			[]string{"sow 120s ×1.5 paused 2s"}},
		{"people come and go", []any{begin, start("sow"), 20 * second, Event{Kind: People, People: known(2)}, 20 * second, Event{Kind: People, People: known(1)}, 40 * second, stop},
			[]string{"sow 80s ×1.25"}},
		{"people stay for the next", []any{begin, Event{Kind: People, People: known(2)}, start("sow"), second, next("thin"), second, stop}, []string{"sow 1s ×2", "thin 1s ×2"}},
		{"people of one reading alone", []any{begin, Event{Kind: Start, Step: "sow", People: known(2)}, second, lot, second, next("thin"), second, stop},
			[]string{"sow 1s ×2", "sow 1s ×2 m0", "thin 1s"}},
		{"people who come between laps are at the next", []any{begin, start("sow"), second, stop, Event{Kind: People, People: known(2)}, second, lot, second, stop},
			[]string{"sow 1s", "sow 2s ×2 m0"}},
		{"people of one reading alone stay for its laps, until others come", []any{begin, Event{Kind: Start, Step: "sow", People: known(3)}, second, lot, second, stop, Event{Kind: People, People: known(2)}, lot, second, lot, second, stop},
			[]string{"sow 1s ×3", "sow 1s ×3 m0", "sow 1s ×2 m0", "sow 1s ×2 m0"}},
		{"void", []any{begin, start("sow"), second, stop, Event{Kind: Void, Text: "tray dropped"}}, []string{"sow 1s void"}},
		{"two jobs in one go are a step of their own", []any{begin, start("thin and top up"), 90 * second, stop}, []string{"thin and top up 90s"}},

		{"undo of a start", []any{begin, start("sow"), second, undo}, nil},
		{"undo of a next: the last runs on", []any{begin, start("sow"), 60 * second, next("thin"), 5 * second, undo, stop}, []string{"sow 65s"}},
		{"undo of a stop", []any{begin, start("sow"), 60 * second, stop, 5 * second, undo, 5 * second, stop}, []string{"sow 70s"}},
		{"undo twice", []any{begin, start("sow"), 60 * second, count(40), stop, undo, undo, second, stop}, []string{"sow 61s"}},
		{"undo by name", []any{begin, start("sow"), second, stop, Event{Kind: Void, Text: "?"}, count(40), Event{Kind: Undo, Of: "e4"}}, []string{"sow 1s of 40"}},
		{"undo passes over what was undone by name", []any{begin, start("sow"), second, count(40), count(41), Event{Kind: Undo, Of: "e4"}, undo, stop}, []string{"sow 1s"}},

		{"amended step and count", []any{begin, start("saw"), second, stop, Event{Kind: Amend, Step: "sow", Count: known(7)}}, []string{"sow 1s of 7"}},
		{"amended people", []any{begin, start("sow"), second, Event{Kind: People, People: known(2)}, second, stop, Event{Kind: Amend, People: known(3)}}, []string{"sow 2s ×3"}},
		{"an earlier end", []any{begin, start("sow"), 10 * minute, stop, Event{Kind: Amend, End: at("08:14:30")}}, []string{"sow 270s judged"}},
		{"an end of what runs", []any{begin, start("sow"), 10 * minute, Event{Kind: Amend, End: at("08:14:30")}, minute, start("thin"), second, stop}, []string{"sow 270s judged", "thin 1s"}},
		{"next begins where it was judged to end", []any{begin, start("sow"), 10 * minute, Event{Kind: Amend, End: at("08:19:30")}, 30 * second, next("thin"), second, next("pot"), second, stop},
			[]string{"sow 570s judged", "thin 61s judged", "pot 1s"}},
		{"an end of what is paused", []any{begin, start("sow"), minute, pause, 9 * minute, Event{Kind: Amend, End: at("08:15:00")}, minute, count(4)}, []string{"sow 60s of 4 paused 240s judged"}},
		{"a later end", []any{begin, start("sow"), minute, stop, 2 * minute, Event{Kind: Amend, End: at("08:12:30")}, minute, start("thin")}, []string{"sow 150s judged", "thin 0s runs"}},
		{"a later end up to this moment", []any{begin, start("sow"), minute, stop, minute, Event{Kind: Amend, End: at("08:12:00")}, minute, count(1)}, []string{"sow 120s of 1 judged"}},
		{"earlier, then later", []any{begin, start("sow"), 4 * minute, stop, Event{Kind: Amend, End: at("08:11:00")}, Event{Kind: Amend, End: at("08:13:00")}}, []string{"sow 180s judged"}},
		{"an end across a pause", []any{begin, start("sow"), minute, pause, minute, resume, 3 * minute, stop, Event{Kind: Amend, End: at("08:13:00")}}, []string{"sow 120s paused 60s judged"}},
		{"an end in a pause", []any{begin, start("sow"), minute, pause, minute, resume, 3 * minute, stop, Event{Kind: Amend, End: at("08:11:30")}}, []string{"sow 60s paused 30s judged"}},
		{"an end before a pause", []any{begin, start("sow"), minute, pause, minute, resume, 3 * minute, stop, Event{Kind: Amend, End: at("08:10:30")}}, []string{"sow 30s judged"}},
		{"an end that brings a pause in", []any{begin, start("sow"), minute, pause, minute, stop, minute, Event{Kind: Amend, End: at("08:12:30")}}, []string{"sow 90s paused 60s judged"}},
		{"an end at other hands", []any{begin, start("sow"), minute, Event{Kind: People, People: known(2)}, 2 * minute, stop, Event{Kind: Amend, End: at("08:12:00")}}, []string{"sow 120s ×1.5 judged"}},
		{"an end once the session is over", []any{begin, start("sow"), 4 * minute, end, minute, Event{Kind: Amend, End: at("08:12:00")}}, []string{"sow 120s judged"}},
		{"undo of an amended end", []any{begin, start("sow"), 4 * minute, stop, Event{Kind: Amend, End: at("08:12:00")}, undo}, []string{"sow 240s"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := fold(t, c.play...)
			assert.Equal(t, c.want, told(s))
			assert.Empty(t, s.Warnings)
		})
	}
}

// What does not fit changes nothing and is said.
func TestEventsThatDoNotFit(t *testing.T) {
	for _, c := range []struct {
		name string
		play []any
		want string
		left []string
	}{
		{"no session", []any{start("sow")}, "1 start is left out: no session has begun", nil},
		{"two sessions", []any{begin, begin}, "2 begin is left out: the session has begun already", nil},
		{"stop of nothing", []any{begin, stop}, "2 stop is left out: nothing runs", nil},
		{"pause of nothing", []any{begin, pause}, "2 pause is left out: nothing runs", nil},
		{"pause twice", []any{begin, start("sow"), pause, pause}, "4 pause is left out: it is paused already", []string{"sow 0s runs"}},
		{"resume of nothing", []any{begin, start("sow"), resume}, "3 resume is left out: nothing is paused", []string{"sow 0s runs"}},
		{"a lot of nothing", []any{begin, lot}, "2 lot is left out: there is no reading to carry on", nil},
		{"a count of nothing", []any{begin, count(4)}, "2 count is left out: there is no reading yet", nil},
		{"a count of no reading", []any{begin, start("sow"), Event{Kind: Count, Count: known(4), Of: "e1"}}, `3 count is left out: no event "e1" before it began a reading that stands`, []string{"sow 0s runs"}},
		{"a count of a reading undone", []any{begin, start("sow"), undo, Event{Kind: Count, Count: known(4), Of: "e2"}}, `4 count is left out: no event "e2" before it began a reading that stands`, nil},
		{"after the end", []any{begin, end, start("sow")}, "3 start is left out: the session has ended", nil},
		{"nothing to undo", []any{begin, undo, undo}, "3 undo is left out: there is nothing to undo", nil},
		{"undo of what is not there", []any{begin, Event{Kind: Undo, Of: "e9"}}, `2 undo is left out: no event before it has the id "e9"`, nil},
		{"undo of what is undone", []any{begin, start("sow"), undo, Event{Kind: Undo, Of: "e2"}}, `4 undo is left out: event "e2" is undone already`, nil},
		{"undo of an undo", []any{begin, start("sow"), undo, Event{Kind: Undo, Of: "e3"}}, `4 undo is left out: no event before it has the id "e3"`, nil},
		{"an end before the beginning", []any{begin, start("sow"), minute, stop, Event{Kind: Amend, End: at("08:10:00")}},
			"4 amend is left out: 08:10:00 is not after its beginning, 08:10:00", []string{"sow 60s"}},
		{"an end to come", []any{begin, start("sow"), minute, stop, Event{Kind: Amend, End: at("08:11:01"), Step: "thin"}},
			"4 amend is left out: 08:11:01 has not come yet", []string{"sow 60s"}},
		{"an end in the next reading", []any{begin, start("sow"), minute, stop, minute, start("thin"), minute, Event{Kind: Amend, Of: "e2", End: at("08:12:01")}},
			`5 amend is left out: "thin" had begun by 08:12:01`, []string{"sow 60s", "thin 60s runs"}},
		{"an end after the session's", []any{begin, start("sow"), minute, end, minute, Event{Kind: Amend, End: at("08:11:30")}},
			"4 amend is left out: the session had ended by then", []string{"sow 60s"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := fold(t, c.play...)
			assert.Equal(t, []string{c.want}, texts(s.Warnings))
			assert.Equal(t, c.left, told(s))
		})
	}
}

func TestInterruptions(t *testing.T) {
	s := fold(t, begin, start("sow"), minute, Event{Kind: Pause, Text: "visitor"}, 2*minute, resume, second, pause, minute, stop, 5*second, end)
	assert.Equal(t, []Interruption{
		{Place: study.Place{File: "journal/" + session + Extension, Line: 3}, Began: at("08:11:00"), Ended: at("08:13:00"), Length: 2 * minute, Why: "visitor"},
		{Place: study.Place{File: "journal/" + session + Extension, Line: 5}, Began: at("08:13:01"), Ended: at("08:14:01"), Length: minute},
	}, s.Interruptions)
	assert.Equal(t, []string{"sow 61s paused 120s"}, told(s))
	assert.Equal(t, 5*second, s.Unnamed)
	assert.Equal(t, 4*minute+6*second, s.Session.Length)
	assert.Equal(t, at("08:13:01"), s.Readings[0].Ended)
}

func TestOverrides(t *testing.T) {
	s := fold(t, begin, Event{Kind: Start, Step: "mix feed", Grow: "g2", Workflow: "raft", Worker: "w2"}, second, lot, second, next("sow"), second, stop,
		Event{Kind: Amend, Of: "e2", Grow: "g3", Workflow: "jar", Worker: "w3"})
	var got []string
	for _, r := range s.Readings {
		got = append(got, r.Grow+" "+r.Workflow+" "+r.Worker)
	}
	assert.Equal(t, []string{"g3 jar w3", "g2 raft w2", "g1 by hand w1"}, got)
}

func TestNotes(t *testing.T) {
	note := func(text string) Event { return Event{Kind: Note, Text: text} }
	s := fold(t, Event{Kind: Begin, Text: "cold"}, note("windy"), start("sow"), note("pelleted"), second, stop, note("old seed"))
	assert.Equal(t, "cold; windy", s.Session.Notes)
	assert.Equal(t, "pelleted; old seed", s.Readings[0].Note)
}

func TestOpenReadings(t *testing.T) {
	s := fold(t, begin, start("sow"), second, stop, // no count
		start("thin"), second, count(0), stop, // a count of 0
		Event{Kind: Start, Step: "mix feed", Setups: known(1), Count: known(0)}, second, stop, // getting ready alone
		Event{Kind: Start, Step: "pot", Count: known(2)}, stop, // no time
		start("look over"), second, Event{Kind: Void, Text: "phone"}, stop, // voided, without a count
		Event{Kind: Start, Step: "top up", Count: known(4)}, second, stop,
		Event{Kind: Start, Step: "harvest", Count: known(4)}, second)
	assert.Equal(t, []string{
		`2 the reading of "sow" from 08:10:00 needs a count: it is not counted in until then`,
		`4 the reading of "thin" from 08:10:01 needs a count: it is not counted in until then`,
		`9 the reading of "pot" from 08:10:03 took no time: it is not counted in until then`,
		`16 the reading of "harvest" from 08:10:05 has not ended: it is not counted in until then`,
	}, texts(s.Unfinished()))
	var complete []string
	for _, r := range s.Complete() {
		complete = append(complete, r.Step)
	}
	assert.Equal(t, []string{"mix feed", "top up"}, complete)
}

// Time is the monotonic clock's while that ran on, the wall clock's across a
// restart, and a difference of more than a second is said.
func TestClocks(t *testing.T) {
	for _, c := range []struct {
		name string
		play []any
		want string
		said []string
	}{
		{"a restart", []any{start("sow"), minute, count(1), reboot(10 * second), count(2), minute, stop}, "sow 130s of 2", nil},
		{"a restart, the clock set back", []any{start("sow"), minute, count(1), reboot(-10 * second), count(2), minute, stop}, "sow 120s of 2",
			[]string{"4 the recorder started again and its clock stands 10 s earlier: no time is counted in between"}},
		{"the clock set ahead", []any{start("sow"), minute, wall(time.Hour), stop}, "sow 60s",
			[]string{"3 the wall clock has moved 3600 s ahead of the stopwatch: it was changed, or the machine slept; the stopwatch's time is taken"}},
		{"the clock set back, said once", []any{start("sow"), minute, wall(-1001 * time.Millisecond), count(1), minute, stop}, "sow 120s of 1",
			[]string{"3 the wall clock has moved 1.001 s behind the stopwatch: it was changed, or the machine slept; the stopwatch's time is taken"}},
		{"a second is nothing", []any{start("sow"), minute, wall(1000 * time.Millisecond), stop}, "sow 60s", nil},
		{"a drift adds up", []any{start("sow"), minute, wall(600 * time.Millisecond), count(1), minute, wall(600 * time.Millisecond), stop}, "sow 120s of 1",
			[]string{"4 the wall clock has moved 1.2 s ahead of the stopwatch: it was changed, or the machine slept; the stopwatch's time is taken"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := fold(t, append([]any{begin}, c.play...)...)
			assert.Equal(t, []string{c.want}, told(s))
			assert.Equal(t, c.said, texts(s.Warnings))
		})
	}
}

// A judged end is found by the wall clock of the time, whatever was done to it
// later.
func TestJudgedEndAcrossAChangedClock(t *testing.T) {
	s := fold(t, begin, start("sow"), 5*minute, count(4), minute, wall(time.Hour), stop, Event{Kind: Amend, End: at("08:12:00")})
	assert.Equal(t, []string{"sow 120s of 4 judged"}, told(s))
	s = fold(t, begin, start("sow"), minute, wall(time.Hour), count(4), 5*minute, stop, Event{Kind: Amend, End: at("09:13:00")})
	assert.Equal(t, []string{"sow 180s of 4 judged"}, told(s))
	s = fold(t, begin, start("sow"), wall(time.Hour), count(4), minute, stop, Event{Kind: Amend, End: at("08:30:00")})
	assert.Equal(t, []string{"sow 60s of 4"}, told(s))
	assert.Equal(t, "5 amend is left out: by the stopwatch that is not after its beginning", texts(s.Warnings)[1])
}

func TestOddNumbers(t *testing.T) {
	events := script(begin, start("sow"), minute, count(4), stop)
	events[2].Seq = 2
	s := Fold("", events)
	assert.Equal(t, []string{
		"3 another event has the number 2 too: it was recorded in two places at once",
		"4 events before number 4 have not arrived: what the session comes to may change",
	}, texts(s.Warnings))
	assert.Equal(t, []string{"sow 60s of 4"}, told(s))

	events = script(begin, start("sow"), minute, stop)
	events[2].Boot, events[2].Mono = events[1].Boot, 1000
	assert.Equal(t, []string{"3 the stopwatch stands 4 s earlier than at the event before: no time is counted in between"}, texts(Fold("", events).Warnings))
	assert.Equal(t, []string{"2 events before number 2 have not arrived: what the session comes to may change", "2 start is left out: no session has begun"},
		texts(Fold("", events[1:2]).Warnings))
}

func TestWhatTheWatchShows(t *testing.T) {
	events := script(begin, start("sow"), minute, pause)
	h := newHand()
	h.run(minute + 90*second)
	s := Fold("", events)
	r, runs := s.Running()
	assert.True(t, runs)
	assert.Equal(t, "e2", r.ID)
	assert.True(t, s.Paused)
	assert.Equal(t, minute, s.Elapsed(h.now()))
	assert.Equal(t, 90*second, s.Interrupted(h.now()))

	s = Fold("", script(begin, start("sow"), minute, pause, 10*second, resume))
	assert.Equal(t, minute+80*second, s.Elapsed(h.now()))
	assert.Zero(t, s.Interrupted(h.now()))

	s = Fold("", script(begin, start("sow"), minute, stop))
	_, runs = s.Running()
	assert.False(t, runs)
	assert.Zero(t, s.Elapsed(h.now()))

	s = Fold("", script(begin, start("sow"), minute, stop, minute, undo))
	assert.Equal(t, minute+90*second, s.Elapsed(h.now()), "an undone stop stops nothing")
}

func TestQuestion(t *testing.T) {
	usual := func(step string) (float64, bool) { return 100, step == "sow" }
	ask := func(s State, after time.Duration) string {
		h := newHand()
		h.run(after)
		return s.Question(h.now(), usual)
	}
	sow, thin := fold(t, begin, start("sow")), fold(t, begin, start("thin"))
	assert.Empty(t, ask(sow, 299*second))
	assert.Equal(t, `still at "sow"? when did you stop?`, ask(sow, 300*second))
	assert.Empty(t, ask(thin, 20*minute-second))
	assert.Equal(t, `still at "thin"? when did you stop?`, ask(thin, 20*minute))
	assert.Empty(t, ask(fold(t, begin, start("sow"), second, pause), time.Hour), "a pause is not asked about")
	assert.Empty(t, ask(fold(t, begin), time.Hour))
	h := newHand()
	h.run(21 * minute)
	assert.NotEmpty(t, sow.Question(h.now(), nil))
}
