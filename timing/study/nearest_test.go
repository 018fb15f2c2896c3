package study

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// plainDistance is the distance by its definition, the whole table filled in.
func plainDistance(a, b string) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		for j := range d[i] {
			switch {
			case i == 0 || j == 0:
				d[i][j] = i + j
				continue
			case a[i-1] == b[j-1]:
				d[i][j] = d[i-1][j-1]
			default:
				d[i][j] = 1 + min(d[i-1][j-1], d[i-1][j], d[i][j-1])
			}
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}

// What is left out of the table changes no distance below the bound.
func TestEditDistance(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	word := func() string {
		letters := make([]byte, r.IntN(9))
		for i := range letters {
			letters[i] = "abc"[r.IntN(3)]
		}
		return string(letters)
	}
	for range 20_000 {
		a, b, most := word(), word(), 1+r.IntN(9)
		want, got := plainDistance(a, b), editDistance([]rune(a), []rune(b), most)
		if want < most {
			assert.Equal(t, want, got, "%q %q %d", a, b, most)
		} else {
			assert.GreaterOrEqual(t, got, most, "%q %q %d", a, b, most)
		}
	}
}

// Long names are passed over unread, and long ones that are alike take little.
func TestNearestOfMany(t *testing.T) {
	for _, length := range []int{50_000, 90} {
		known := make([]string, 300)
		for i := range known {
			known[i] = strings.Repeat("z", length) + fmt.Sprint(i)
		}
		began := time.Now()
		for i := range 4 {
			Nearest(fmt.Sprint(known[i], "x"), known)
		}
		assert.Less(t, time.Since(began), 3*time.Second, length)
	}
	assert.Empty(t, Nearest(strings.Repeat("z", longName+1), []string{strings.Repeat("z", longName)}))
	assert.Equal(t, strings.Repeat("z", longName), Nearest(strings.Repeat("z", longName-1), []string{strings.Repeat("z", longName)}))
}
