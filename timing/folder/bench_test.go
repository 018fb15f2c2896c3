package folder

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// BenchmarkLog tells how long it takes from a log on the disk to the models of its
// steps.
func BenchmarkLog(b *testing.B) {
	for _, readings := range []int{100, 200_000} {
		var text strings.Builder
		text.WriteString("date,grow,workflow,step,worker,count,time\n")
		for i := range readings {
			fmt.Fprintf(&text, "2026-03-%02d,g%d,tray,%s,w%d,%d,%d.%d\n", i/1000%31+1, i/40,
				[]string{"sow", "thin", "transplant", "rinse and cool"}[i*7%4], i*5%12, 12+i%60, 60+3*(i%60)+i*11%17, i%10)
		}
		name := filepath.Join(b.TempDir(), "monday.csv")
		if err := os.WriteFile(name, []byte(text.String()), 0o600); err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprint(readings), func(b *testing.B) {
			b.SetBytes(int64(text.Len()))
			b.ReportAllocs()
			for b.Loop() {
				o, err := Open(b.TempDir(), []string{name}, How{})
				if err != nil || o.Files[0].Readings != readings {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*readings), "ns/reading")
		})
	}
}
