package plots

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestDecimalsAreThoseTheIntervalSupports(t *testing.T) {
	unknown := math.NaN()
	for _, test := range []struct {
		value, width float64
		want         int
		printed      string
	}{
		{22.34, 5, 0, "22"},          // half of 5 is 2.5: whole feet
		{-2.02, 0.92, 1, "−2.0"},     // half of 0.92 is 0.46: tenths
		{-2.02, 2.8, 0, "−2"},        // half of 2.8 is 1.4: whole strokes
		{-0.312, 0.07, 2, "−0.31"},   // half of 0.07 is 0.035: hundredths
		{-0.312, 0.0007, 2, "−0.31"}, // never more than two
		{6.71, 2, 0, "7"},            // half of 2 is 1: whole metres
		{6.71, 1.99, 1, "6.7"},       // half of it is under 1: tenths
		{128.44, 0.5, 0, "128"},      // three significant digits are enough
		{35.34, 0.5, 1, "35.3"},
		{35.34, 250, 0, "35"}, // never rounded to tens
		{35.34, 0, 1, "35.3"}, // no width: only the digits limit it
		{0, 0, 2, "0.00"},
		{35.34, unknown, 0, "35"},
		{unknown, 1, 0, "–"},
	} {
		got := Decimals(test.value, test.width)
		if got != test.want {
			t.Errorf("Decimals(%v, %v) = %d, want %d", test.value, test.width, got, test.want)
		}
		if printed := Number(test.value, got); printed != test.printed {
			t.Errorf("%v with an interval %v wide is printed %q, want %q", test.value, test.width, printed, test.printed)
		}
	}
}

func TestTheLastDigitIsNeverFinerThanATenthOfHalfTheInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(-500, 500).Draw(t, "value")
		width := rapid.Float64Range(0.001, 500).Draw(t, "width")
		if decimals := Decimals(value, width); decimals > 0 && math.Pow(10, -float64(decimals)) < width/20 {
			t.Fatalf("%d decimals are finer than an interval %v wide supports", decimals, width)
		}
	})
}

func TestNumbersCarryATrueMinusAndAPlusWhereItMatters(t *testing.T) {
	for _, test := range []struct {
		value          float64
		decimals       int
		number, signed string
	}{
		{-2.04, 1, "−2.0", "−2.0"},
		{0.12, 1, "0.1", "+0.1"},
		{-0.04, 1, "0.0", "0.0"},
		{0.04, 1, "0.0", "0.0"},
		{-0.4, 0, "0", "0"},
		{0.5, 0, "1", "+1"},
		{1.5, 0, "2", "+2"},
		{-2.5, 0, "−3", "−3"},
		{0.125, 2, "0.13", "+0.13"},
		{0, 0, "0", "0"},
		{20, 0, "20", "+20"},
		{-10, 0, "−10", "−10"},
		{math.NaN(), 1, "–", "–"},
	} {
		if got := Number(test.value, test.decimals); got != test.number {
			t.Errorf("Number(%v, %d) = %q, want %q", test.value, test.decimals, got, test.number)
		}
		if got := Signed(test.value, test.decimals); got != test.signed {
			t.Errorf("Signed(%v, %d) = %q, want %q", test.value, test.decimals, got, test.signed)
		}
	}
}

func TestNoPrintedNumberHoldsAHyphen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64().Draw(t, "value")
		if got := Signed(value, rapid.IntRange(0, 2).Draw(t, "decimals")); strings.Contains(got, "-") || !utf8.ValidString(got) {
			t.Fatalf("%v is printed %q", value, got)
		}
	})
}

func TestCountsAreMarkedOffInThousands(t *testing.T) {
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 3312: "3,312", 1050007: "1,050,007", -1234: "−1,234"} {
		if got := Count(n); got != want {
			t.Errorf("Count(%d) = %q, want %q", n, got, want)
		}
	}
	for _, test := range []struct {
		n, most int
		want    string
	}{{999, 3, "999"}, {1234, 3, "1k"}, {1234, 4, "1,234"}, {12345, 4, "12k"}, {2600000, 4, "3M"}} {
		if got := compact(test.n, test.most); got != test.want {
			t.Errorf("compact(%d, %d) = %q, want %q", test.n, test.most, got, test.want)
		}
	}
}

func TestCountsAgreeWithTheirNoun(t *testing.T) {
	for n, want := range map[int]string{0: "0 rounds", 1: "1 round", 2: "2 rounds", 1200: "1,200 rounds"} {
		if got := strings.ReplaceAll(Counted(n, "round", "rounds"), NoBreak, " "); got != want {
			t.Errorf("Counted(%d) = %q, want %q", n, got, want)
		}
	}
	for n, want := range map[int]string{1: "One", 4: "Four", 9: "Nine", 12: "12"} {
		if got := InWords(n); got != want {
			t.Errorf("InWords(%d) = %q, want %q", n, got, want)
		}
	}
}

func TestSharesAreWholePerCent(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.708: "71 %", 1: "100 %"} {
		if got := strings.ReplaceAll(Percent(share), NoBreak, " "); got != want {
			t.Errorf("Percent(%v) = %q, want %q", share, got, want)
		}
	}
}

func TestASentenceStartsWithACapitalInAnyAlphabet(t *testing.T) {
	for text, want := range map[string]string{"fringe": "Fringe", "übergang": "Übergang", "зелень": "Зелень", "5 m": "5 m", "\xc3": "\xc3", "": ""} {
		if got := Sentence(text); got != want {
			t.Errorf("%q starts as %q, want %q", text, got, want)
		}
	}
}

func TestAnEndIsNotPrintedAsZeroUnlessItIs(t *testing.T) {
	unknown := math.NaN()
	for _, c := range []struct {
		value, lo, hi float64
		want          int
	}{
		{-1.7, -2, -1.4, 1}, {1.4, 0.6, 3.2, 0}, {1.1, 0.1, 2.9, 1}, {-0.44, -0.85, -0.04, 2}, {0.1, -0.03, 0.23, 2},
		{0.3, -0.001, 0.6, 2}, {1, 0, 2.2, 0}, {5, unknown, unknown, 1},
	} {
		if got := IntervalDecimals(c.value, c.lo, c.hi); got != c.want {
			t.Errorf("%v between %v and %v: %d decimals, expected %d", c.value, c.lo, c.hi, got, c.want)
		}
	}
}
