package study

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPlace(t *testing.T) {
	for want, p := range map[string]Place{
		"a.csv":                  {File: "a.csv"},
		"a.csv:7":                {File: "a.csv", Line: 7},
		"a.csv:7:3":              {File: "a.csv", Line: 7, Column: 3},
		"a.xlsx:Sheet1":          {File: "a.xlsx", Sheet: "Sheet1"},
		"a.xlsx:Sheet1!7:7":      {File: "a.xlsx", Sheet: "Sheet1", Line: 7},
		"a.xlsx:Sheet1!C7":       {File: "a.xlsx", Sheet: "Sheet1", Line: 7, Column: 3},
		"a.xlsx:Mai_2!Z1":        {File: "a.xlsx", Sheet: "Mai_2", Line: 1, Column: 26},
		"a.xlsx:Märže!AA1":       {File: "a.xlsx", Sheet: "Märže", Line: 1, Column: 27},
		"a.xlsx:'May 26'!ZZ1":    {File: "a.xlsx", Sheet: "May 26", Line: 1, Column: 702},
		"a.xlsx:'It''s'!XFD9":    {File: "a.xlsx", Sheet: "It's", Line: 9, Column: 16384},
		`a\x1b[2J\u202e\n.csv:7`: {File: "a\x1b[2J\u202e\n.csv", Line: 7},
		`a.xlsx:'M\u202e\ny'!C7`: {File: "a.xlsx", Sheet: "M\u202e\ny", Line: 7, Column: 3},
		"a.xlsx:'" + strings.Repeat("M", 60) + "…'": {File: "a.xlsx", Sheet: strings.Repeat("M", 100_000)},
	} {
		assert.Equal(t, want, p.String())
	}
}

// The keys are a contract; a sheet is named only where there is one.
func TestPlaceJSON(t *testing.T) {
	text, err := json.Marshal([]Place{{File: "a.csv", Line: 7, Column: 3}, {File: "a.xlsx", Sheet: "M\u202ey", Line: 7}})
	require.NoError(t, err)
	assert.Equal(t, `[{"file":"a.csv","line":7,"column":3},{"file":"a.xlsx","line":7,"column":0,"sheet":"M`+"\u202e"+`y"}]`, string(text))
}
