package ingest

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func TestNumbers(t *testing.T) {
	for text, want := range map[string]float64{
		"0": 0, "12": 12, "12.5": 12.5, "12,5": 12.5, "-3.25": -3.25, "+7": 7, ".5": 0.5, "5.": 5, "\u22124": -4, "1e2": 100,
		"0.1": 0.1, "123456789012345678": 123456789012345678, "3.14159265358979323846": math.Pi, "1,23": 1.23, "0,1234": 0.1234,
		"0,125": 0.125, "-0,125": -0.125, "1234,567": 1234.567, ",125": 0.125, "152,40000000000001": 152.40000000000001, "\u22120,5": -0.5, "-0": 0,
	} {
		if got, ok := parseNumber([]byte(text)); !ok || got != want {
			t.Errorf("%q is %v %v, expected %v", text, got, ok, want)
		}
	}
	for _, text := range []string{"", "-", ".", "1,234", "1,", "1.2.3", "NaN", "inf", "1e999", "0x10", "12 yd", "1_000", "--1", "\u2212", "\u2212-5", "\u2212\u22125", "+-5", "-1,234", "123,456", "1,234.5", "1.234,5", "1e", "e5", "1 2"} {
		if got, ok := parseNumber([]byte(text)); ok {
			t.Errorf("%q was read as %v", text, got)
		}
	}
}

func TestNumbersAgreeWithTheStandardLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`-?[0-9]{1,9}(\.[0-9]{1,9})?`).Draw(t, "text")
		want, err := strconv.ParseFloat(text, 64)
		if got, ok := parseNumber([]byte(text)); err != nil || !ok || got != want {
			t.Fatalf("%s: %v %v, expected %v %v", text, got, ok, want, err)
		}
	})
}
