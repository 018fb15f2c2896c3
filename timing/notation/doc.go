// Package notation reads numbers, times and dates as people write them, and says of a text
// that is none how to write what is meant. It knows nothing of where the text stands.
package notation
