// Package sums knows what the readings of a study come to, for whoever records meanwhile:
// they are read in the background, so that no press waits for it.
package sums
