package ingest

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// FuzzCell holds the text of one cell to every parser of cells: what is a date
// to one of them is a text full of points and digits to the others.
func FuzzCell(f *testing.F) {
	for _, texts := range [][]string{
		{"0", "-0", "12.5", "12,5", "1,234", "0,125", "\u22121e5", "\u2212-5", "1e-400", "152,40000000000001", "9007199254740993", ".5", "5.", "+.e1", "1_0", "0x1p-2"},
		{"1.234,5", "1,234.5", "1 234,5", "12'345", "1,234", "1.234", "1.234.567", "-1,234,567.8", "0,5", "1,23,456", "\u00a0", ",", "1\u202f000"},
		{"12'", "6'3\"", "6 ft 3 in", "18\"", "6'12\"", "6\u20323\u2033", "ft", "'", "6 feet", "1,5 ft"},
		{"56.3", "56.3 N", "S 56.3", "2.8\u00b0W", "-2.8 W", "E", "56.3 n", "N56.3S", "\xff", "", "0 S", "\xa05E5"},
		{"2026-05-31", "31.5.2026", "5/31/2026", "20260531", "2024-02-29", "2026-02-29", "2026-05-31T10:30:00Z", "2026-05-31 10:30", "1.1.1", "0000-01-01"},
		{"31 May 2026", "May 31st, 2026", "2026-Sept-01", "Sun 31 May 2026", "31 May 26", "May", "29 Feb 2026", "may may may"},
	} {
		for _, text := range texts {
			f.Add(text)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		numberReadsAsElsewhere(t, text)
		for _, decimalComma := range []bool{false, true} {
			marksOnlyPartDigits(t, text, decimalComma)
			feetNeedDigits(t, text, decimalComma)
		}
		bearingIsOfOneAxis(t, text)
		dateReadsBack(t, text)
		dateSettlesItsOrder(t, text)
		namedDateReadsBack(t, text)
	})
}

// What is read as a number is what strconv reads, wherever that reads it too.
func numberReadsAsElsewhere(t *testing.T, text string) {
	value, ok := parseNumber([]byte(text))
	if !ok {
		if want, err := strconv.ParseFloat(text, 64); err == nil && !math.IsInf(want, 0) && !math.IsNaN(want) && !strings.ContainsAny(text, "xX_") {
			t.Errorf("%q is refused", text)
		}
		return
	}
	plain := strings.Replace(strings.Replace(text, "\u2212", "-", 1), ",", ".", 1)
	want, err := strconv.ParseFloat(plain, 64)
	if err != nil || value != want || math.IsInf(value, 0) || value == 0 && math.Signbit(value) {
		t.Errorf("%q was read as %v, expected %v %v", text, value, want, err)
	}
}

// A number with marks between its digits is no more than the digits are, and
// what is a number without them is the same number.
func marksOnlyPartDigits(t *testing.T, text string, decimalComma bool) {
	value, marks, ok := parseMarkedNumber([]byte(text), decimalComma)
	if !ok {
		return
	}
	if math.IsNaN(value) || math.IsInf(value, 0) || value == 0 && math.Signbit(value) {
		t.Errorf("%q is %v", text, value)
	}
	if plain, isPlain := parseNumber([]byte(text)); isPlain && !decimalComma && plain != value {
		t.Errorf("%q is %v, and %v in plain", text, value, plain)
	}
	if !marks {
		return
	}
	for _, mark := range []string{",", ".", " ", "'", "\u00a0", "\u202f", "\u2019"} {
		digits := strings.ReplaceAll(text, mark, "")
		whole, isWhole := parseNumber([]byte(digits))
		if isWhole && digits != text && !strings.ContainsAny(digits, ".,eE") && math.Abs(whole) < 1e15 && math.Abs(value) > math.Abs(whole) {
			t.Errorf("%q is %v, more than its digits", text, value)
		}
	}
}

func feetNeedDigits(t *testing.T, text string, decimalComma bool) {
	feet, ok := parseFeetAndInches([]byte(text), decimalComma)
	if ok && (math.IsNaN(feet) || feet < 0) {
		t.Errorf("%q is %v ft", text, feet)
	}
	if ok && !strings.ContainsAny(text, "0123456789") {
		t.Errorf("%q has no digit, and is %v ft", text, feet)
	}
}

// A compass letter turns the sign and nothing else, and belongs to one of the
// two axes.
func bearingIsOfOneAxis(t *testing.T, text string) {
	north, isLatitude := parseBearing([]byte(text), true)
	east, isLongitude := parseBearing([]byte(text), false)
	if isLatitude && isLongitude && north != east {
		t.Errorf("%q is %v north and %v east", text, north, east)
	}
	plain, isNumber := parseNumber([]byte(strings.TrimSpace(text)))
	if isNumber && (!isLatitude || plain != north) {
		t.Errorf("%q is %v, read as %v %v", text, plain, north, isLatitude)
	}
	// A point of the compass stands before or behind the number; in it, an E is an exponent.
	inner := strings.TrimFunc(strings.ToUpper(text), func(r rune) bool { return !unicode.IsDigit(r) && !strings.ContainsRune("NSEW", r) })
	if isLatitude && isLongitude && strings.Trim(inner, "NSEW") != inner {
		t.Errorf("%q is both", text)
	}
}

func dateReadsBack(t *testing.T, text string) {
	for order := yearFirst; order <= unsettled; order++ {
		days, ok := parseDate([]byte(text), order)
		if !ok {
			continue
		}
		written := dateOf(days).Format("2006-01-02")
		if again, ok := parseDate([]byte(written), order); !ok || again != days {
			t.Errorf("%q is %s, which is %v %v", text, written, again, ok)
		}
		if dateOf(days).Year() < 1900 || dateOf(days).Year() > 2200 {
			t.Errorf("%q is %s", text, written)
		}
	}
}

func dateSettlesItsOrder(t *testing.T, text string) {
	survey := &dateSurvey{}
	survey.begin(1, "")
	survey.set(&meaning{field: date, order: unsettled}, []byte(text))
	if order, err := survey.order(); err == nil && (order == dayFirst || order == monthFirst) {
		if parts, widths, _ := dateParts([]byte(text)); widths[2] == 4 && parts[0] > 12 == (order == monthFirst) {
			t.Errorf("%q settles %s", text, order)
		}
	}
}

func namedDateReadsBack(t *testing.T, text string) {
	days, ok := parseNamedDate([]byte(text))
	if !ok {
		return
	}
	if again, ok := parseNamedDate([]byte(dateOf(days).Format("2 January 2006"))); !ok || again != days {
		t.Errorf("%q is %s, which is %v %v", text, dateOf(days), again, ok)
	}
	if _, also := parseDate([]byte(text), dayFirst); also {
		t.Errorf("%q is a date in numbers too", text)
	}
}
