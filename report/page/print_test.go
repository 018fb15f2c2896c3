package page

import (
	"strings"
	"testing"

	"headhours/report"
	"headhours/timing/condense"

	"github.com/stretchr/testify/assert"
)

// The heads of printed pages name the study, its heads and its last reading, and a name
// can do nothing to the style sheet.
func TestPrintHead(t *testing.T) {
	assert.Contains(t, printHead(studies(t)["demo"]), `@top-left { content: "pak choi on floating rafts \000028invented\000029"; }`)
	assert.Regexp(t, `@top-right \{ content: "48 heads a grow, readings to 20\d\d-\d\d-\d\d"; \}`, printHead(studies(t)["demo"]))
	none := printHead(report.Whole{Study: `"; } </style><script>` + strings.Repeat("x", 100), Heads: 1, LastDay: condense.NoDay})
	assert.Contains(t, none, `"1 head a grow"`)
	assert.NotContains(t, none, "<")
	assert.Equal(t, 4, strings.Count(none, `"`))
	assert.Contains(t, none, `\002026"`, "a long name is cut")
}
