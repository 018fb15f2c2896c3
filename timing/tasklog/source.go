package tasklog

import (
	"errors"
	"strings"

	"headhours/timing/study"
)

var errSource = errors.New("is not a source: watch, film or judged")

// sourceOf decodes where a time is from.
func sourceOf(text string) (study.Source, error) {
	for _, source := range study.Sources {
		if strings.EqualFold(text, string(source)) {
			return source, nil
		}
	}
	return "", errSource
}
