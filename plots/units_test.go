package plots

import (
	"math"
	"testing"
)

func TestDistancesReadInTheUnitsOfTheSeason(t *testing.T) {
	// 1 yd = 0.9144 m exactly: international yard and pound agreement, 1959.
	for _, test := range []struct {
		units              Units
		hundredYd, thirtyF float64
		long, short, sign  string
	}{
		{Yards, 100, 30, "yards", "feet", "ft"},
		{"", 100, 30, "yards", "feet", "ft"},
		{Metres, 91.44, 9.144, "metres", "metres", "m"},
	} {
		if got := test.units.FromYards(100); math.Abs(got-test.hundredYd) > 1e-12 {
			t.Errorf("%q: 100 yd read as %v, want %v", test.units, got, test.hundredYd)
		}
		if got := test.units.FromFeet(30); math.Abs(got-test.thirtyF) > 1e-12 {
			t.Errorf("%q: 30 ft read as %v, want %v", test.units, got, test.thirtyF)
		}
		if long, short, sign := test.units.Long(), test.units.Short(), test.units.ShortSymbol(); long != test.long || short != test.short || sign != test.sign {
			t.Errorf("%q: words %q, %q, %q; want %q, %q, %q", test.units, long, short, sign, test.long, test.short, test.sign)
		}
	}
}

func TestBandsAreNamedInWholeUnits(t *testing.T) {
	for _, test := range []struct {
		units        Units
		fromYd, toYd float64
		want         string
	}{
		{Yards, 100, 125, "100–125"},
		{Metres, 50 / 0.9144, 70 / 0.9144, "50–70"},
		{Metres, 100, 125, "91–114"},
		{Yards, 250, math.Inf(1), "250+"},
		{Yards, 250, math.NaN(), "250+"},
	} {
		if got := test.units.Band(test.fromYd, test.toYd); got != test.want {
			t.Errorf("band from %v to %v yd in %q is %q, want %q", test.fromYd, test.toYd, test.units, got, test.want)
		}
	}
}
