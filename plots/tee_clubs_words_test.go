package plots

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// offTheTee is a club with strokes gained a shot and half the width of its interval.
func offTheTee(club string, n int64, gained, half float64) metrics.TeeClub {
	return metrics.TeeClub{
		Player: "A", Club: club, N: n, NDistance: n, MedianYd: 261.5, MedianLoYd: 259.8, MedianHiYd: 263,
		NFairway: n, FairwayShare: 0.6, FairwayLo: 0.5, FairwayHi: 0.7, PenaltyShare: 0.2, PenaltyLo: 0.1, PenaltyHi: 0.3,
		StrokesGainedPer: gained, StrokesGainedLo: gained - half, StrokesGainedHi: gained + half,
	}
}

// onLikeHoles is what the 3 wood gains on the driver.
func onLikeHoles(n int64, gained, half float64) metrics.TeeClubDifference {
	return metrics.TeeClubDifference{
		Player: "A", LongerClub: "driver", ShorterClub: "3 wood", NLonger: 136, NShorter: n,
		StrokesGained: gained, StrokesGainedLo: gained - half, StrokesGainedHi: gained + half, Score: -gained, ScoreLo: -gained - half, ScoreHi: -gained + half,
	}
}

func TestTheTeeClubTitleSaysWhatTheIntervalsCarry(t *testing.T) {
	driver, wood := offTheTee("driver", 600, -0.13, 0.02), offTheTee("3 wood", 38, -0.15, 0.1)
	for _, test := range []struct {
		what   string
		season Season
		clubs  []metrics.TeeClub
		pairs  []metrics.TeeClubDifference
		want   string
	}{
		{"the shorter club is better", Season{}, []metrics.TeeClub{driver, wood}, []metrics.TeeClubDifference{onLikeHoles(38, 0.12, 0.05)},
			"On holes of like length the 3 wood gains 0.12 strokes a tee shot on the driver"},
		{"the longer club is better", Season{}, []metrics.TeeClub{driver, wood}, []metrics.TeeClubDifference{onLikeHoles(38, -0.12, 0.05)},
			"On holes of like length the driver gains 0.12 strokes a tee shot on the 3 wood"},
		{"the two are not told apart", Season{}, []metrics.TeeClub{driver, wood}, []metrics.TeeClubDifference{onLikeHoles(38, -0.05, 0.1)},
			"The driver loses 0.13 strokes a tee shot; on holes of like length no other is clearly better"},
		{"an interval that touches zero", Season{}, []metrics.TeeClub{driver, wood}, []metrics.TeeClubDifference{onLikeHoles(38, 0.25, 0.25)},
			"The driver loses 0.13 strokes a tee shot; on holes of like length no other is clearly better"},
		{"nine holes do not count", Season{}, []metrics.TeeClub{driver, wood}, []metrics.TeeClubDifference{onLikeHoles(9, -0.5, 0.1)},
			"The driver loses 0.13 strokes a tee shot"},
		{"the club used most gains", Season{}, []metrics.TeeClub{offTheTee("driver", 600, 1, 0.5), wood}, nil, "The driver gains 1.0 strokes a tee shot"},
		{"its interval spans zero", Season{}, []metrics.TeeClub{offTheTee("driver", 600, -0.1, 0.2)}, nil, "Which club off the tee? None stands clear of the benchmark"},
		{"one round", Season{Rounds: 1}, []metrics.TeeClub{offTheTee("driver", 14, -0.1, math.NaN())}, nil, "Which club off the tee? One round is too few to say"},
		{"four rounds", Season{Rounds: 4}, []metrics.TeeClub{offTheTee("driver", 14, -0.1, math.NaN())}, nil, "Which club off the tee? Four rounds are too few to say"},
		{"nine shots", Season{Rounds: 46}, []metrics.TeeClub{offTheTee("driver", 9, -0.1, 0.01)}, nil, "Which club off the tee? Too few shots to say"},
	} {
		test.season.Player = "A"
		chart, missing := TeeClubsChart(test.season, test.clubs, test.pairs)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestPairsOfClubsAreComparedInWords(t *testing.T) {
	if got, want := pairPrinted(onLikeHoles(38, -0.054, 0.11)), "strokes gained −0.1 (−0.2 to +0.1); score +0.1 (−0.1 to +0.2); 38 and 136 holes"; got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
	if got, want := pairPrinted(onLikeHoles(38, -0.14, 0.17)), "strokes gained −0.14 (−0.31 to +0.03); score +0.14 (−0.03 to +0.31); 38 and 136 holes"; got != want {
		t.Errorf("an end near zero: got %q\nwant %q", got, want)
	}
	unknown := onLikeHoles(38, 0.12, 0.05)
	unknown.Score = math.NaN()
	if got, want := pairPrinted(unknown), "strokes gained +0.12 (+0.07 to +0.17); 38 and 136 holes"; got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

func TestSharesOfFewShotsAreCountedOut(t *testing.T) {
	for _, test := range []struct {
		share float64
		n     int64
		want  string
	}{{0.6, 5, "3/5"}, {0.6, 10, "60"}, {math.NaN(), 0, "–"}, {0, 9, "0/9"}} {
		if got := shareKnown(test.share, test.n); got != test.want {
			t.Errorf("%v of %d: got %q, want %q", test.share, test.n, got, test.want)
		}
	}
	if got := shareInterval(0.5, 0.7, 9); got != "" {
		t.Errorf("nine shots have the interval %q", got)
	}
	if got := shareInterval(0.54, 0.603, 10); got != "(54–60)" {
		t.Errorf("got %q", got)
	}
}

func TestTheTeeClubsUsedMostAreDrawn(t *testing.T) {
	var clubs []metrics.TeeClub
	for i := range 10 {
		clubs = append(clubs, offTheTee(fmt.Sprintf("club %d", i), int64(100-i), -0.1, 0.05))
	}
	chart, _ := TeeClubsChart(Season{Player: "A"}, clubs, nil)
	var drawn strings.Builder
	for _, label := range labelsOf(chart) {
		drawn.WriteString(label.text + " ")
	}
	if text := spaced(drawn.String()); !strings.Contains(text, "club 7") || strings.Contains(text, "club 8") || !strings.Contains(text, "Not drawn: 2 clubs used less.") {
		t.Errorf("the picture says %s", text)
	}
	assertLabelsHaveTheirPlace(t, chart)
}

func TestTheTeeClubAltTextGivesTheFigures(t *testing.T) {
	chart, _ := TeeClubsChart(Season{Player: "A", Units: Metres}, []metrics.TeeClub{offTheTee("driver", 600, -0.13, 0.02)}, []metrics.TeeClubDifference{onLikeHoles(38, 0.12, 0.05)})
	want := "On holes of like length the 3 wood gains 0.12 strokes a tee shot on the driver. Strokes gained a tee shot by club: " +
		"driver −0.13 (−0.15 to −0.11), 239 metres, of 600 shots; on holes of like length 3 wood against driver strokes gained +0.12 (+0.07 to +0.17); score −0.12 (−0.17 to −0.07); 38 and 136 holes."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestWithoutAClubTheColumnIsNamed(t *testing.T) {
	other := offTheTee("driver", 600, -0.13, 0.02)
	other.Player = "B"
	chart, missing := TeeClubsChart(Season{Player: "A"}, []metrics.TeeClub{other}, nil)
	if chart != nil || missing == nil || !strings.Contains(missing.Reason, "column club") {
		t.Errorf("got %v, %v", chart, missing)
	}
}

// Rows hold figures that are not known, which equal nothing, themselves neither.
func TestTheClubsUsedMostAreDrawnThoughSomeOfTheirFiguresAreNotKnown(t *testing.T) {
	var clubs []metrics.TeeClub
	for i := range mostTeeClubs + 2 {
		club := offTheTee(fmt.Sprintf("club %d", i), int64(20+i), -0.1, 0.05)
		club.LeftShare, club.RightShare = math.NaN(), math.NaN()
		clubs = append(clubs, club)
	}
	chart, _ := TeeClubsChart(Season{Player: "A", Rounds: 46}, clubs, nil)
	for i := range clubs {
		if got, want := strings.Contains(chart.Alt, fmt.Sprintf("club %d ", i)), i >= 2; got != want {
			t.Errorf("club %d is drawn: %t, want %t", i, got, want)
		}
	}
}
