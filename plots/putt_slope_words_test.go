package plots

import (
	"math"
	"testing"

	"roundmill/metrics"
)

// onSlope is a row of putts from one length, or of all with NaN.
func onSlope(slope string, fromFt float64, made, n int64) metrics.PuttingGround {
	return metrics.PuttingGround{
		Player: "A", Kind: metrics.BySlope, Ground: slope, FromFt: fromFt, ToFt: fromFt + 2,
		N: n, NMade: made, Made: float64(made) / float64(n), MadeLo: math.NaN(), MadeHi: math.NaN(),
	}
}

func sloped(made, lo, hi float64, n int64) metrics.PuttingGroundDifference {
	return metrics.PuttingGroundDifference{
		Player: "A", Kind: metrics.BySlope, Ground: "downhill", Other: "uphill", N: n, NOther: n + 1, Made: made, MadeLo: lo, MadeHi: hi,
	}
}

func TestThePuttSlopeTitleSaysWhatTheIntervalCarries(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		what       string
		rounds     int
		difference metrics.PuttingGroundDifference
		want       string
	}{
		{"fewer downhill", 46, sloped(-0.086, -0.127, -0.045, 261), "Of 100 putts, 9 fewer drop downhill than uphill from like distance"},
		{"more downhill", 46, sloped(0.053, 0.04, 0.066, 261), "Of 100 putts, 5 more drop downhill than uphill from like distance"},
		{"a tenth where the interval is narrow", 300, sloped(-0.0312, -0.0362, -0.0262, 5000), "Of 100 putts, 3.1 fewer drop downhill than uphill from like distance"},
		{"the interval spans zero", 46, sloped(-0.04, -0.1, 0.02, 261), "Are more putts made uphill or downhill? These putts do not tell"},
		{"the interval ends at zero", 46, sloped(-0.04, -0.08, 0, 261), "Are more putts made uphill or downhill? These putts do not tell"},
		{"nine putts", 46, sloped(-0.4, -0.5, -0.3, 9), "Are more putts made uphill or downhill? Too few putts to say"},
		{"no interval", 46, sloped(-0.4, nan, nan, 90), "Are more putts made uphill or downhill? Too few putts to say"},
		{"four rounds", 4, sloped(-0.4, nan, nan, 90), "Are more putts made uphill or downhill? Four rounds are too few to say"},
		{"one round", 1, sloped(-0.4, nan, nan, 5), "Are more putts made uphill or downhill? One round is too few to say"},
	} {
		grounds := []metrics.PuttingGround{onSlope("uphill", nan, 8, 20), onSlope("uphill", 10, 8, 20), onSlope("downhill", 10, 2, 9)}
		chart, missing := PuttSlopeChart(Season{Player: "A", Rounds: test.rounds}, grounds, []metrics.PuttingGroundDifference{test.difference})
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestThePuttSlopeAltTextGivesTheDifferences(t *testing.T) {
	nan := math.NaN()
	grounds := []metrics.PuttingGround{onSlope("uphill", nan, 8, 20), onSlope("uphill", 10, 8, 20), onSlope("downhill", 10, 2, 9)}
	chart, _ := PuttSlopeChart(Season{Player: "A", Rounds: 46, Units: Metres}, grounds, []metrics.PuttingGroundDifference{sloped(-0.086, -0.127, -0.045, 261)})
	want := "Of 100 putts, 9 fewer drop downhill than uphill from like distance. Putts made of 100, more or fewer at like distance, " +
		"with 90 % interval: downhill against uphill −9 (−13 to −5) of 261 and 262 putts."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestWithoutSlopesTheColumnIsNamed(t *testing.T) {
	nan := math.NaN()
	breaks := onSlope("straight", nan, 8, 20)
	breaks.Kind = metrics.ByBreak
	for _, test := range []struct {
		what    string
		grounds []metrics.PuttingGround
		want    string
	}{
		{"nothing logged", nil, "No putt has a slope: the column putt_slope (uphill, level or downhill) of the log is needed."},
		{"breaks only", []metrics.PuttingGround{breaks}, "No putt has a slope: the column putt_slope (uphill, level or downhill) of the log is needed."},
		{"uphill only", []metrics.PuttingGround{onSlope("uphill", nan, 8, 20), onSlope("uphill", 10, 8, 20)},
			"No distance has putts both uphill and downhill; the column putt_slope tells which they are."},
	} {
		chart, missing := PuttSlopeChart(Season{Player: "A"}, test.grounds, nil)
		if chart != nil || missing == nil || missing.Name != "putt-slope" || missing.Reason != test.want {
			t.Errorf("%s: %v, %v", test.what, chart, missing)
		}
	}
}

func TestTooFewPuttsOnSlopesAreNotDrawn(t *testing.T) {
	grounds := []metrics.PuttingGround{onSlope("uphill", math.NaN(), 8, 20), onSlope("uphill", 10, 8, 20), onSlope("downhill", 10, 2, 9)}
	chart, missing := PuttSlopeChart(Season{Player: "A"}, grounds, []metrics.PuttingGroundDifference{sloped(-0.4, -0.5, -0.3, 4)})
	want := "From like distance there are 4 putts downhill and 5 uphill, too few to draw; it takes 5 of each."
	if chart != nil || missing == nil || missing.Reason != want {
		t.Errorf("%v, %v", chart, missing)
	}
}
