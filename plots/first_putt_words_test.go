package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// firstPutted is a row of first putts from one length, or of all with NaN.
func firstPutted(fromFt, toFt float64, three, n int64) metrics.Putting {
	nan := math.NaN()
	return metrics.Putting{
		Player: "A", FromFt: fromFt, ToFt: toFt, N: n, NFirst: n, NThreePutt: three, ThreePutt: float64(three) / float64(n),
		ThreePuttLo: nan, ThreePuttHi: nan, LeaveMedianFt: 1.2, LeaveMedianLoFt: nan, LeaveMedianHiFt: nan, LeaveP25Ft: 0.4, LeaveP75Ft: 3,
	}
}

func TestTheFirstPuttTitleCountsWhereThreePuttsBegan(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		what   string
		rounds int
		units  Units
		near   int64 // three-putts from 10 ft, 30 ft and 50 ft
		middle int64
		far    int64
		want   string
	}{
		{"most from afar", 46, Yards, 2, 10, 30, "40 of 42 three-putts began from 30 feet or more"},
		{"three in four from farthest", 46, Yards, 5, 5, 30, "30 of 40 three-putts began from 50 feet or more"},
		{"metres", 46, Metres, 2, 10, 30, "40 of 42 three-putts began from 9.1 metres or more"},
		{"from everywhere", 46, Yards, 20, 10, 10, "13 in 100 first putts take three or more"},
		{"none", 46, Yards, 0, 0, 0, "No three-putt on 300 holes"},
		{"one", 46, Yards, 0, 0, 1, "1 three-putt on 300 holes: too few to say where they begin"},
		{"nine", 46, Yards, 0, 0, 9, "9 three-putts on 300 holes: too few to say where they begin"},
		{"four rounds", 4, Yards, 2, 10, 30, "Where do three-putts begin? Four rounds are too few to say"},
		{"one round", 1, Yards, 0, 0, 0, "Where do three-putts begin? One round is too few to say"},
	} {
		rows := []metrics.Putting{
			firstPutted(nan, nan, test.near+test.middle+test.far, 300),
			firstPutted(10, 12, test.near, 100), firstPutted(30, 40, test.middle, 100), firstPutted(50, nan, test.far, 100),
		}
		chart, missing := FirstPuttChart(Season{Player: "A", Rounds: test.rounds, Units: test.units}, rows)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestTheFirstPuttAltTextGivesTheFigures(t *testing.T) {
	nan := math.NaN()
	near, far := firstPutted(10, 12, 1, 40), firstPutted(50, nan, 2, 4)
	near.ThreePuttLo, near.ThreePuttHi = 0.01, 0.11
	chart, _ := FirstPuttChart(Season{Player: "A", Rounds: 46}, []metrics.Putting{firstPutted(nan, nan, 3, 44), near, far})
	want := "3 three-putts on 44 holes: too few to say where they begin. Median left by the first putt, and share of three putts or more with 90 % interval: " +
		"from 10–12 feet 1.2 ft left, three putts 3 % of 40 (1 to 11); from 50+ feet 1.2 ft left, three putts 2 of 4."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestTheFirstPuttReadingExplainsWhatIsDrawn(t *testing.T) {
	words := firstPuttWords{rows: []metrics.Putting{firstPutted(10, 12, 1, 9)}}
	if got := strings.Join(words.counted(), " "); strings.Contains(got, "interval") || !strings.Contains(spaced(got), "Hollow: under 10 putts.") {
		t.Errorf("few putts are explained as %q", got)
	}
	known := firstPutted(10, 12, 1, 40)
	known.ThreePuttLo, known.ThreePuttHi = 0.01, 0.1
	words.rows = []metrics.Putting{known, firstPutted(30, 40, 1, 12)}
	if got := spaced(strings.Join(words.counted(), " ")); !strings.Contains(got, "90 % interval, from five rounds on.") || strings.Contains(got, "Hollow") {
		t.Errorf("many putts are explained as %q", got)
	}
}

func TestTooFewFirstPuttsAreNotDrawn(t *testing.T) {
	nan := math.NaN()
	for n, want := range map[int64]string{
		0: "No complete hole has a putt whose end is known.",
		1: "1 first putt of complete holes is too few to draw; it takes 5.",
		3: "3 first putts of complete holes are too few to draw; it takes 5.",
	} {
		chart, missing := FirstPuttChart(Season{Player: "A"}, []metrics.Putting{firstPutted(nan, nan, 0, n)})
		if chart != nil || missing == nil || spaced(missing.Reason) != want {
			t.Errorf("%d first putts: %v, %v", n, chart, missing)
		}
	}
}
