package look

import (
	"image/color"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"headhours/report/browsertest"
)

var schemes = map[string]Scheme{"light": Light, "dark": dark, "paper": paper}

// WCAG 2.2, level AA: words have a contrast of 4.5 to what is behind them (1.4.3),
// the edges of what is pressed one of 3 (1.4.11).
func TestSchemesAreLegible(t *testing.T) {
	for name, s := range schemes {
		t.Run(name, func(t *testing.T) {
			for _, behind := range []color.NRGBA{s.Ground, s.Card} {
				for what, words := range map[string]color.NRGBA{"ink": s.Ink, "soft": s.Soft, "leaf": s.Leaf, "bad": s.Bad} {
					assert.GreaterOrEqual(t, contrast(words, behind), 4.5, what)
				}
				for what, edge := range map[string]color.NRGBA{"edge": s.Edge, "leaf": s.Leaf, "around straw": s.AroundStraw} {
					assert.GreaterOrEqual(t, contrast(edge, behind), 3.0, what)
				}
			}
			assert.GreaterOrEqual(t, contrast(s.OnLeaf, s.Leaf), 4.5)
			assert.GreaterOrEqual(t, contrast(s.OnStraw, s.Straw), 4.5)
			assert.GreaterOrEqual(t, contrast(Light.Ink, s.Chart), 4.5, "the letters of a figure")
			assert.GreaterOrEqual(t, contrast(Light.Soft, s.Chart), 4.5)
		})
	}
}

// A colour that a scheme has is one that pages can name, in every scheme.
func TestEveryColourIsAProperty(t *testing.T) {
	for _, s := range schemes {
		require.Len(t, s.properties(), reflect.TypeOf(s).NumField())
		for _, p := range s.properties() {
			assert.Contains(t, CSS(), p.name+": "+p.value+";")
		}
	}
	assert.Regexp(t, browsertest.OwnColour, CSS(), "as the pages' own style sheets must not have")
	assert.NotRegexp(t, browsertest.OwnColour, basics)
	assert.Equal(t, 3, strings.Count(CSS(), "--straw: "), "by day, by night and on paper")
}
