package tasklog

import (
	"encoding/binary"
	"math/bits"
)

const (
	lowest   = 0x0101010101010101
	highest  = 0x8080808080808080
	newlines = lowest * '\n'
	quotes   = lowest * '"'
)

// maxMemo is of how many bytes texts are compared as words.
const maxMemo = 4 * 8

// wordAt is eight bytes, the first the lowest. The capacity that it cuts off saves the compiler
// steps for slices of none.
func wordAt(data []byte, at int) uint64 { return binary.LittleEndian.Uint64(data[at : at+8 : at+8]) }

// wordsAt is the bytes that texts are compared by.
func wordsAt(data []byte, at int) (w0, w1, w2, w3 uint64) {
	text, inOrder := data[at:at+maxMemo:at+maxMemo], binary.LittleEndian
	return inOrder.Uint64(text), inOrder.Uint64(text[8:]), inOrder.Uint64(text[16:]), inOrder.Uint64(text[24:])
}

// zeros has the high bit of the first byte that is 0, and perhaps of others behind it (A.
// Mycroft; H. S. Warren, Hacker's Delight, 2nd ed., section 6-1).
func zeros(word uint64) uint64 { return (word - lowest) & ^word & highest }

// allZeros has the high bits of all bytes that are 0, and no others (likewise).
func allZeros(word uint64) uint64 {
	const others = ^uint64(highest)
	return ^((word&others + others) | word | others)
}

// bytesIn is how many bytes have their high bits, of a word that has no others.
func bytesIn(found uint64) uint64 { return found >> 7 * lowest >> 56 }

// digits is how many of the first seven bytes of a word are from 0 to 9, up to one that is not.
func digits(values uint64) uint {
	return uint(bits.TrailingZeros64((values+(highest-10*lowest)|values)&highest|1<<63)) >> 3
}

// eightDigits is the number that eight bytes from 0 to 9 are the digits of, the lowest
// first (D. Lemire, Number parsing at a gigabyte per second, Software: Practice and
// Experience 51, 2021).
func eightDigits(word uint64) uint64 {
	const pairs, hundreds, rest = 0x000000ff000000ff, 100 + 1_000_000<<32, 1 + 10_000<<32
	word = word*10 + word>>8
	return (word&pairs*hundreds + word>>16&pairs*rest) >> 32
}

// fourDigits is likewise the number that four bytes are the digits of.
func fourDigits(word uint32) uint32 {
	word = (word*10 + word>>8) & 0x00ff00ff
	return word * (100<<16 + 1) >> 16
}

// areDigits says whether four bytes are from 0 to 9.
func areDigits(word uint32) bool { return (word|(word+0x76767676))&0x80808080 == 0 }

// areAllDigits says whether eight bytes are.
func areAllDigits(word uint64) bool { return (word|(word+(highest-10*lowest)))&highest == 0 }

// mixer is a large odd number: a word times it is a hash whose high bits are the best mixed (D. E.
// Knuth, The Art of Computer Programming, vol. 3, section 6.4).
const mixer = 0x9e3779b97f4a7c15
