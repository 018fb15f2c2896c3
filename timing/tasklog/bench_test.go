package tasklog

import (
	"fmt"
	"strings"
	"testing"
)

func BenchmarkRead(b *testing.B) {
	var text strings.Builder
	text.WriteString("date,grow,workflow,step,worker,people,time,count,source,note\n")
	for i := range 10_000 {
		fmt.Fprintf(&text, "2026-03-%02d,g%d,by hand,sow,w%d,1,%d.%d,%d,watch,\n", i%31+1, i/100, i%3, 60+i%200, i%10, 12+i%60)
	}
	names := Names{Steps: []string{"thin", "transplant", "sow"}, Workflows: []string{"by hand"}}
	b.SetBytes(int64(text.Len()))
	b.ReportAllocs()
	for b.Loop() {
		log, err := Read(strings.NewReader(text.String()), "monday.csv", names)
		if err != nil || len(log.Readings) != 10_000 {
			b.Fatal(err)
		}
	}
}
