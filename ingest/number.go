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
// infinities, and a lone comma before exactly three digits, which may be a
// thousands mark.
func parseNumber(text []byte) (float64, bool) {
	digits, decimals := 0, -1
	var mantissa uint64
	i, negative := 0, false
	if len(text) > 0 && (text[0] == '-' || text[0] == '+') {
		negative = text[0] == '-'
		i++
	}
	comma := false
	for ; i < len(text); i++ {
		c := text[i]
		switch {
		case c >= '0' && c <= '9':
			mantissa = mantissa*10 + uint64(c-'0')
			digits++
			if decimals >= 0 {
				decimals++
			}
		case (c == '.' || c == ',') && decimals < 0:
			decimals, comma = 0, c == ','
		default:
			return parseUnusualNumber(text)
		}
		if digits > 15 {
			return parseUnusualNumber(text)
		}
	}
	if digits == 0 || comma && (decimals == 0 || decimals == 3) {
		return 0, false
	}
	value := float64(mantissa)
	if decimals > 0 {
		value /= powersOfTen[decimals]
	}
	if negative {
		value = -value
	}
	return value, true
}

// parseUnusualNumber reads what the fast loop leaves: exponents, long decimals
// and the typographic minus sign.
func parseUnusualNumber(text []byte) (float64, bool) {
	const minus = "\u2212"
	if rest, found := bytes.CutPrefix(text, []byte(minus)); found {
		value, ok := parseNumber(rest)
		return -value, ok
	}
	for _, c := range text {
		if (c < '0' || c > '9') && c != '.' && c != '-' && c != '+' && c != 'e' && c != 'E' {
			return 0, false
		}
	}
	value, err := strconv.ParseFloat(string(text), 64)
	return value, err == nil && !math.IsInf(value, 0)
}
