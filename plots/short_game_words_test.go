package plots

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// saved is a row of short game from one lie, over all distances.
func saved(lie string, upAndDowns, n int64, strokes, lo, hi, benchmark float64) metrics.ShortGame {
	nan := math.NaN()
	return metrics.ShortGame{
		Player: "A", Lie: lie, FromYd: nan, ToYd: nan, N: n, UpAndDowns: upAndDowns, UpAndDown: float64(upAndDowns) / float64(n),
		UpAndDownLo: nan, UpAndDownHi: nan, BaselineShare: 3 - benchmark,
		Strokes: strokes, StrokesLo: lo, StrokesHi: hi, BaselineStrokes: benchmark,
	}
}

func shortSide(n, other int64, cost, lo, hi float64) metrics.ShortSided {
	return metrics.ShortSided{Player: "A", FromYd: math.NaN(), ToYd: math.NaN(), N: n, NOther: other, Cost: cost, CostLo: lo, CostHi: hi}
}

func TestTheShortGameTitleNamesTheLieThatTheIntervalCarries(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		what   string
		rounds int
		lies   []metrics.ShortGame
		want   string
	}{
		{"one lie loses", 46, []metrics.ShortGame{saved("bunker", 18, 45, 2.8, 2.65, 2.95, 2.5), saved("rough", 40, 78, 2.5, 2.4, 2.6, 2.5)},
			"From the bunker holing out takes 0.3 strokes more than the benchmark expects"},
		{"the one that loses more in all", 46, []metrics.ShortGame{saved("bunker", 18, 40, 2.8, 2.65, 2.95, 2.5), saved("rough", 40, 200, 2.6, 2.55, 2.65, 2.5)},
			"From the rough holing out takes 0.10 strokes more than the benchmark expects"},
		{"a loss is said before a gain", 46, []metrics.ShortGame{saved("bunker", 18, 40, 2.8, 2.65, 2.95, 2.5), saved("fringe", 80, 200, 2, 1.9, 2.1, 2.4)},
			"From the bunker holing out takes 0.3 strokes more than the benchmark expects"},
		{"only a gain", 46, []metrics.ShortGame{saved("fringe", 73, 80, 2.1, 1.9, 2.3, 2.5), saved("rough", 40, 78, 2.5, 2.4, 2.6, 2.5)},
			"From the fringe holing out takes 0.4 strokes fewer than the benchmark expects; no lie clearly loses"},
		{"exactly one stroke", 46, []metrics.ShortGame{saved("fescue", 3, 30, 3.5, 2.9, 4.1, 2.5)},
			"From the fescue holing out takes 1.0 strokes more than the benchmark expects"},
		{"an interval that touches the benchmark", 46, []metrics.ShortGame{saved("bunker", 18, 45, 2.6, 2.5, 2.7, 2.5)},
			"Where does the short game lose strokes? No lie stands clear of the benchmark"},
		{"29 holes", 46, []metrics.ShortGame{saved("bunker", 3, 29, 3.2, 3.1, 3.3, 2.5)},
			"Where does the short game lose strokes? No lie has 30 holes to say it with"},
		{"no baseline", 46, []metrics.ShortGame{saved("bunker", 3, 90, 3.2, 3.1, 3.3, nan)},
			"Where does the short game lose strokes? No lie has 30 holes to say it with"},
		{"four rounds", 4, []metrics.ShortGame{saved("bunker", 3, 40, 3.2, 3.1, 3.3, 2.5)},
			"Where does the short game lose strokes? Four rounds are too few to say"},
		{"one round", 1, []metrics.ShortGame{saved("bunker", 3, 6, 3.2, nan, nan, 2.5)},
			"Where does the short game lose strokes? One round is too few to say"},
	} {
		rows := append([]metrics.ShortGame{saved(metrics.AnyLie, 60, 120, 2.5, 2.4, 2.6, 2.5)}, test.lies...)
		chart, missing := ShortGameChart(Season{Player: "A", Rounds: test.rounds}, rows, nil)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestWhatBeingShortSidedCostsIsSaidAsFarAsItIsKnown(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		what  string
		sided metrics.ShortSided
		want  string
	}{
		{"it costs", shortSide(133, 90, 0.31, 0.11, 0.51), "Being short-sided costs 0.3 strokes (+0.1 to +0.5) at like distance: 133 such misses against 90 others."},
		{"it does not", shortSide(133, 90, -0.31, -0.51, -0.11), "Being short-sided does not cost here: 0.3 strokes fewer (−0.5 to −0.1) at like distance, 133 such misses against 90 others."},
		{"open", shortSide(133, 90, 0.31, -0.11, 0.73), "Whether being short-sided costs is open: +0.3 strokes (−0.1 to +0.7) at like distance, 133 such misses against 90 others."},
		{"nine misses", shortSide(9, 90, 0.31, 0.11, 0.51), "What being short-sided costs is not known: 9 such misses against 90 others are too few to say."},
		{"one and one", shortSide(1, 1, 0.31, nan, nan), "What being short-sided costs is not known: 1 such miss against 1 other are too few to say."},
		{"not logged", metrics.ShortSided{}, "What being short-sided costs is not known: it needs the columns pin_side with left_right, or pin_depth with long_short."},
	} {
		if got := spaced((shortGameWords{sided: test.sided}).shortSided()); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestTheRarestLiesAreCountedWhereTheyAreNotDrawn(t *testing.T) {
	nan := math.NaN()
	rows := []metrics.ShortGame{saved(metrics.AnyLie, 60, 120, 2.5, nan, nan, 2.5)}
	for i := range mostLies + 2 {
		rows = append(rows, saved(fmt.Sprintf("lie %d", i), 1, int64(3+i), 2.5, nan, nan, 2.5))
	}
	words := shortGameWords{lies: rows[1:], drawn: rows[1 : 1+mostLies]}
	if got := spaced(words.source()[1]); !strings.Contains(got, "Not drawn: 2 lies with 39 holes.") {
		t.Errorf("the foot says %q", got)
	}
	chart, missing := ShortGameChart(Season{Player: "A", Rounds: 46}, rows, nil)
	if missing != nil {
		t.Fatal(missing.Reason)
	}
	assertLabelsHaveTheirPlace(t, chart)
	if strings.Contains(chart.Alt, "lie 0 ") || !strings.Contains(chart.Alt, "lie 17 ") {
		t.Errorf("the rarest lie is drawn, or the most frequent is not: %s", chart.Alt)
	}
}

func TestTheShortGameAltTextGivesTheFigures(t *testing.T) {
	near := saved(metrics.AnyLie, 4, 5, 2.2, math.NaN(), math.NaN(), math.NaN())
	near.FromYd, near.ToYd = 10, 20
	all := saved(metrics.AnyLie, 12, 20, 2.5, 2.4, 2.6, 2.5)
	all.UpAndDownLo, all.UpAndDownHi = 0.42, 0.76
	chart, _ := ShortGameChart(Season{Player: "A", Rounds: 46, Units: Metres}, []metrics.ShortGame{all, near, saved("rough", 5, 9, 2.4, 2.1, 2.7, 2.6)}, nil)
	want := "Where does the short game lose strokes? No lie has 30 holes to say it with. Up and down, with 90 % interval: " +
		"all lies 60 % of 20 (42 to 76), benchmark 50 %; rough 5 of 9, benchmark 40 %; 9–18 metres 4 of 5. " +
		"What being short-sided costs is not known: it needs the columns pin_side with left_right, or pin_depth with long_short."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestTooFewHolesOfShortGameAreNotDrawn(t *testing.T) {
	nan := math.NaN()
	for n, want := range map[int64]string{
		0: "No complete hole has a short-game stroke.",
		1: "1 complete hole with a short-game stroke is too few to draw; it takes 5.",
		4: "4 complete holes with a short-game stroke are too few to draw; it takes 5.",
	} {
		chart, missing := ShortGameChart(Season{Player: "A"}, []metrics.ShortGame{saved(metrics.AnyLie, 0, n, nan, nan, nan, nan)}, nil)
		if chart != nil || missing == nil || spaced(missing.Reason) != want {
			t.Errorf("%d holes: %v, %v", n, chart, missing)
		}
	}
}
