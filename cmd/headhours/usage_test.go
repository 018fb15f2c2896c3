package main

import (
	"slices"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
)

// Each flag of a number, and no other, has words for what it must be.
func TestNumbersHaveWords(t *testing.T) {
	numbers := []string{"int", "float64", "intSlice"}
	var all flags
	all.define().VisitAll(func(f *pflag.Flag) {
		_, words := needed[f.Name]
		assert.Equal(t, slices.Contains(numbers, f.Value.Type()), words, f.Name)
	})
}
