package ingest

import (
	"bytes"
	"math"
	"strconv"
)

// powersOfTen are exact in a float64, so that a decimal of up to 15 digits
// divided by one of them is correctly rounded.
var powersOfTen = [16]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// parseNumber reads a decimal number with a point or a comma. It refuses NaN,
// infinities, and what may be a thousands mark: a comma with one to three
// digits before it, the first not 0, and three behind.
func parseNumber(text []byte) (float64, bool) {
	unsigned, negative := text, false
	if len(text) > 0 && (text[0] == '-' || text[0] == '+') {
		unsigned, negative = text[1:], text[0] == '-'
	}
	var mantissa uint64
	mark := -1 // where the point or comma is
	for i, c := range unsigned {
		switch {
		case c >= '0' && c <= '9':
			mantissa = mantissa*10 + uint64(c-'0')
		case (c == '.' || c == ',') && mark < 0:
			mark = i
		default:
			return parseUnusualNumber(text)
		}
	}
	digits, decimals := len(unsigned), 0
	if mark >= 0 {
		digits--
		decimals = digits - mark
		if unsigned[mark] == ',' && (decimals == 0 || decimals == 3 && mark >= 1 && mark <= 3 && unsigned[0] != '0') {
			return 0, false
		}
	}
	if digits == 0 {
		return 0, false
	}
	if digits > 15 {
		return parseUnusualNumber(bytes.ReplaceAll(text, []byte{','}, []byte{'.'}))
	}
	value := float64(mantissa) / powersOfTen[decimals]
	if negative {
		value = 0 - value // and 0, not -0, for -0
	}
	return value, true
}

// parseUnusualNumber reads what the fast loop leaves: exponents, long decimals
// and the typographic minus sign.
func parseUnusualNumber(text []byte) (float64, bool) {
	if rest, found := bytes.CutPrefix(text, []byte("\u2212")); found {
		if len(rest) == 0 || rest[0] != '.' && rest[0] != ',' && (rest[0] < '0' || rest[0] > '9') {
			return 0, false
		}
		value, ok := parseNumber(rest)
		return 0 - value, ok
	}
	for _, c := range text {
		if (c < '0' || c > '9') && c != '.' && c != '-' && c != '+' && c != 'e' && c != 'E' {
			return 0, false
		}
	}
	value, err := strconv.ParseFloat(string(text), 64)
	return value + 0, err == nil && !math.IsInf(value, 0)
}
