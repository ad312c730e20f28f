package plots

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

const (
	minus   = "−"      // U+2212, as wide as the plus sign
	NoBreak = "\u00a0" // keeps a number and its unit on one line

	mostDecimals    = 2
	mostSignificant = 3
)

// Decimals is how many decimals of a value its interval supports: the last
// one printed has the place of the first significant digit of half the
// interval's width. It is never more than two, nor more than makes three
// significant digits of the value; an unknown width (NaN) supports none.
func Decimals(value, width float64) int {
	if math.IsNaN(width) || math.IsNaN(value) {
		return 0
	}
	decimals := mostDecimals
	if width > 0 {
		decimals = int(math.Ceil(-math.Log10(width / 2)))
	}
	whole := 1
	if size := math.Abs(value); size >= 1 {
		whole = int(math.Floor(math.Log10(size))) + 1
	}
	return max(0, min(decimals, mostDecimals, mostSignificant-whole))
}

// Number prints a value with a true minus sign, none on a value that rounds to
// zero, and a thin dash for one that is unknown (NaN).
func Number(value float64, decimals int) string {
	if math.IsNaN(value) {
		return "–"
	}
	digits := strconv.FormatFloat(math.Abs(value), 'f', decimals, 64)
	if value < 0 && strings.Trim(digits, "0.") != "" {
		return minus + digits
	}
	return digits
}

// Signed is Number with a plus sign before what is more than zero as printed.
func Signed(value float64, decimals int) string {
	number := Number(value, decimals)
	if value > 0 && strings.Trim(number, "0.") != "" {
		return "+" + number
	}
	return number
}

// Percent prints a share between 0 and 1 in whole per cent: 71 %.
func Percent(share float64) string {
	return Number(100*share, 0) + NoBreak + "%"
}

// Count prints a count with thousands marked off: 3,312.
func Count(n int) string {
	if n < 0 {
		return minus + Count(-n)
	}
	if n < 1000 {
		return strconv.Itoa(n)
	}
	return fmt.Sprintf("%s,%03d", Count(n/1000), n%1000)
}

// compact is Count, in thousands or millions where the digits would be more
// than most: 12k, 3M.
func compact(n, most int) string {
	digits := strconv.Itoa(n)
	switch {
	case len(digits) <= most:
		return Count(n)
	case n < 999_500:
		return fmt.Sprintf("%.0fk", float64(n)/1e3)
	}
	return fmt.Sprintf("%.0fM", float64(n)/1e6)
}

// Counted prints a count with its noun: 1 round, 46 rounds.
func Counted(n int, one, more string) string {
	if n == 1 {
		return "1" + NoBreak + one
	}
	return Count(n) + NoBreak + more
}

// InWords starts a sentence with a count: One, Two ... Nine, then digits.
func InWords(n int) string {
	if words := []string{"No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine"}; 0 <= n && n < len(words) {
		return words[n]
	}
	return Count(n)
}

// Chance prints a chance in whole per cent, and never certainty.
func Chance(p float64) string {
	switch {
	case math.IsNaN(p):
		return Number(p, 0)
	case p > 0.99:
		return "over " + Percent(0.99)
	case p < 0.01:
		return "under " + Percent(0.01)
	}
	return Percent(p)
}

func chance(p float64) string { return Chance(p) }
