package stopwatch

import "headhours/timing/words"

// apart is by how much the two clocks may differ unsaid, in milliseconds.
const apart = 1000

// doubts tells of what events in order say that cannot all be so.
func (m *machine) doubts() {
	ahead := map[string]int64{} // by boot: wall time less monotonic time, as last told
	var last Event
	for i, e := range m.events {
		lead := e.Wall.UnixMilli() - e.Mono
		before, ranOn := ahead[e.Boot]
		gain := lead - before
		switch {
		case !ranOn && i > 0 && e.Wall.Before(last.Wall):
			m.warn(e, "the recorder started again and its clock stands %s earlier: no time is counted in between", inSeconds(last.Wall.UnixMilli()-e.Wall.UnixMilli()))
		case ranOn && e.Boot == last.Boot && e.Mono < last.Mono:
			m.warn(e, "the stopwatch stands %s earlier than at the event before: no time is counted in between", inSeconds(last.Mono-e.Mono))
		case ranOn && (gain > apart || gain < -apart):
			m.warn(e, "the wall clock has moved %s %s the stopwatch: it was changed, or the machine slept; the stopwatch's time is taken",
				inSeconds(max(gain, -gain)), pieceWords(gain))
		}
		if !ranOn || gain > apart || gain < -apart {
			ahead[e.Boot] = lead
		}
		switch {
		case e.Seq > last.Seq+1:
			m.warn(e, "events before number %d have not arrived: what the session comes to may change", e.Seq)
		case e.Seq == last.Seq:
			m.warn(e, "another event has the number %d too: it was recorded in two places at once", e.Seq)
		}
		last = e
	}
}

func pieceWords(gain int64) string {
	if gain > 0 {
		return "ahead of"
	}
	return "behind"
}

func inSeconds(ms int64) string { return words.Digits(float64(ms)/1000, 4) + " s" }
