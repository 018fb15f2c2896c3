package browsertest

import "regexp"

// OwnColour finds a colour that a style sheet has of its own: a page takes its
// colours from package look.
var OwnColour = regexp.MustCompile(`(?i)#[0-9a-f]{3,8}\b[^{]*;|\b(rgba?|hsla?|hwb|lab|lch|oklab|oklch|color)\(|:[^;{]*\b(black|white|gr[ae]y|red|green|blue|yellow|silver)\b`)
