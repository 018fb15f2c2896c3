package folder

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// drafted is a draft on a line: steps with what they count, ways with their tasks and days,
// workers, the form of dates, headings that are not read.
func drafted(t *testing.T, log string) string {
	t.Helper()
	dir := studyIn(t, map[string]string{"a.csv": log})
	d, err := DraftFrom(dir, []string{dir + "/a.csv"})
	require.NoError(t, err)
	text := fmt.Sprintf("%d readings;", d.Readings)
	for _, s := range d.Steps {
		text += " " + strings.Trim(s.Name+"/"+s.Per, "/")
	}
	if d.Undated {
		text += "; undated"
	}
	for _, w := range d.Workflows {
		text += fmt.Sprintf("; way %q", w.Name)
		if w.Grows > 1 {
			text += fmt.Sprintf(" of %d grows by %s", w.Grows, w.Begins)
		}
		for _, task := range w.Tasks {
			text += fmt.Sprintf(" %s%v", task.Step, task.Days)
		}
	}
	if len(d.Workers) > 0 {
		text += "; by " + strings.Join(d.Workers, ",")
	}
	if d.Dates != "" {
		text += "; dates " + d.Dates
	}
	for _, u := range d.Unread {
		text += fmt.Sprintf("; unread %s like %q", u.Heading, u.Column)
	}
	return text
}

// What odd sheets say of the study that they could be the start of.
func TestDraftsOfOddLogs(t *testing.T) {
	many := "date,grow,step,count,time\n"
	for i := range maxDays + 4 {
		many += fmt.Sprintf("2026-03-%02d,g1,water,4,60\n", i+1)
	}
	for _, c := range []struct{ name, log, want string }{
		{"steps alone", "step,count,time\nsow,4,60\nthin,4,60\nsow,5,70\n", `3 readings; sow thin; undated; way "" sow[] thin[]`},
		{"ways and days", "date,grow,workflow,step,worker,count,time\n2026-03-01,g1,tray,sow,w1,4,60\n2026-03-08,g1,tray,thin,w2,4,60\n2026-04-01,g2,tray,sow,w1,4,60\n2026-04-09,g2,tray,thin,w1,4,60\n2026-03-02,g3,bed,sow,,4,60\n", `5 readings; sow thin; way "tray" sow[0] thin[7]; way "bed" sow[0]; by w1,w2`},
		{"one grow out of order", "date,grow,step,count,time\n2026-03-08,g1,thin,4,60\n2026-03-01,g1,sow,4,60\n", `2 readings; thin sow; way "" sow[0] thin[7]`},
		{"dated in part", "date,grow,step,count,time\n2026-03-01,g1,sow,4,60\n,g1,thin,4,60\n", `2 readings; sow thin; way "" sow[0] thin[]`},
		{"more days than are told", many, `16 readings; water; way "" water[0 1 2 3 4 5 6 7 8 9 10 11]`},
		{"void readings too", "step,count,time,void\nsow,4,60,\nthin,4,60,fell\n", `2 readings; sow thin; undated; way "" sow[] thin[]`},
		{"a column of its own", "step,count,time,weather\nsow,4,60,wet\n", `1 readings; sow; undated; way "" sow[]; unread weather like ""`},
		{"what is counted", "step,plants,time\nsow,4,60\n", `1 readings; sow/plant; undated; way "" sow[]`},
		{"days before months", "date,step,count,time\n13/03/2026,sow,4,60\n", `1 readings; sow; way "" sow[0]; dates day/month/year`},
		{"grows that are not named", `date,workflow,step,count,time
2026-03-01,tray,sow,4,60
2026-03-01,tray,water,4,60
2026-03-05,tray,water,4,60
2026-03-11,tray,sow,4,60
2026-03-11,tray,water,4,60
2026-03-15,tray,water,4,60
2026-03-31,tray,cut,4,60
2026-04-10,tray,cut,4,60
2026-03-31,,pack,4,60
2026-04-10,,pack,4,60
2026-04-02,bed,sow,4,60
2026-05-02,,pack,4,60
`, `12 readings; sow water cut pack; way "tray" of 2 grows by sow sow[0] water[0 4] cut[30] pack[30]; way "bed" sow[0] pack[30]`},
		{"a grow whose way is not always named", "date,grow,workflow,step,count,time\n2026-03-01,g1,,sow,4,60\n2026-03-09,g1,tray,thin,4,60\n2026-03-02,g2,bed,sow,4,60\n2026-04-01,g1,,cut,4,60\n", `4 readings; sow thin cut; way "tray" sow[0] thin[8] cut[31]; way "bed" sow[0] cut[31]`},
		{"one grow that is not named", "date,step,count,time\n2026-03-01,sow,4,60\n2026-03-01,water,4,60\n2026-03-08,water,4,60\n2026-03-15,water,4,60\n", `4 readings; sow water; way "" sow[0] water[0 7 14]`},
		{"named in part", "date,grow,step,count,time\n2026-03-01,,sow,4,60\n2026-03-09,,sow,4,60\n2026-04-01,g1,cut,4,60\n2026-04-05,g1,cut,4,60\n", `4 readings; sow cut; way "" of 2 grows by sow sow[0] cut[0 4]`},
		{"names in blanks", "step,count,time,worker\n sow ,4,60, w1 \nsow,4,60,w1\n", `2 readings; sow; undated; way "" sow[]; by w1`},
	} {
		assert.Equal(t, c.want, drafted(t, c.log), c.name)
	}
}

// Names of several lines are of one in a study, and dates have a form in it only where all logs that
// show one show the same.
func TestDraftOfManyLogs(t *testing.T) {
	assert.Equal(t, `2 readings; fill trays/tray; undated; way "by hand" fill trays[]; by w 1`,
		drafted(t, "step,workflow,worker,count (tray),time\n\"fill\ntrays\",\"by\nhand\",\"w\n1\",3,9\nfill trays,by hand,w 1,4,9\n"))
	dir := studyIn(t, map[string]string{
		"a.csv": "date;step;count;time\n13/4/2026;sow;3;9\n", "b.csv": "date;step;count;time\n4/14/2026;sow;3;9\n", "c.csv": "date;step;count;time\n4/15/2026;sow;3;9\n",
	})
	for logs, want := range map[string]string{"ab": "", "ba": "", "bc": "month/day/year", "a": "day/month/year"} {
		var paths []string
		for _, log := range logs {
			paths = append(paths, fmt.Sprintf("%s/%c.csv", dir, log))
		}
		d, err := DraftFrom(dir, paths)
		require.NoError(t, err)
		assert.Equal(t, want, d.Dates, logs)
	}
}

func TestLogName(t *testing.T) {
	for name, want := range map[string]string{
		"a.csv": "a.csv", "A.XLSX": "A.XLSX", "a.txt": "a.txt.csv", "a": "a.csv", ".a.csv": "a.csv", "~$a.ods": "a.ods", ".~$..a": "a.csv", "~$": "log.csv", "~$.csv": "csv.csv",
	} {
		assert.Equal(t, want, LogName(name))
		assert.True(t, isLog(want) && !isHidden(want), want)
	}
}
