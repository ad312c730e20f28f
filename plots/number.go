package plots

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
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

// IntervalDecimals is Decimals for a value between two ends, with more where an
// end would be printed as zero and hide on which side of it it lies; one without
// an interval (NaN).
func IntervalDecimals(value, lo, hi float64) int {
	if math.IsNaN(lo + hi) {
		return 1
	}
	decimals := Decimals(value, hi-lo)
	hidden := func(end float64) bool { return end != 0 && math.Abs(end) < 0.5*math.Pow10(-decimals) }
	for decimals < mostDecimals && (hidden(lo) || hidden(hi)) {
		decimals++
	}
	return decimals
}

// Number prints a value with a true minus sign, none on a value that rounds to
// zero, and a thin dash for one that is unknown (NaN). A half is rounded away
// from zero, as on a scorecard: strconv alone would make 2 of both 1.5 and 2.5.
func Number(value float64, decimals int) string {
	if math.IsNaN(value) {
		return "–"
	}
	scale := math.Pow10(decimals)
	digits := strconv.FormatFloat(math.Round(math.Abs(value)*scale)/scale, 'f', decimals, 64)
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
	return Count(n) + NoBreak + PluralOf(n, one, more)
}

// PluralOf is the word that goes with a count.
func PluralOf(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

// InWords starts a sentence with a count: One, Two ... Nine, then digits.
func InWords(n int) string {
	if words := []string{"No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine"}; 0 <= n && n < len(words) {
		return words[n]
	}
	return Count(n)
}

// IsOrAre is the verb for a count: 1 round is, 2 rounds are.
func IsOrAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// Strokes follows a printed number with its noun: exactly one takes the singular.
func Strokes(number string) string {
	if number == "1" {
		return number + NoBreak + "stroke"
	}
	return number + NoBreak + "strokes"
}

// putts follows a printed number with its noun.
func putts(number string) string { return number + NoBreak + "putts" }

// Sentence is the text with a capital at its start.
func Sentence(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 || first == utf8.RuneError {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}
