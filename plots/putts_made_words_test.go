package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// putted is a row of putts from one length, or of all with NaN.
func putted(fromFt, toFt float64, made, n int64, lo, hi, benchmark float64) metrics.Putting {
	return metrics.Putting{
		Player: "A", FromFt: fromFt, ToFt: toFt, N: n, NMade: made, Made: float64(made) / float64(n),
		MadeLo: lo, MadeHi: hi, BaselineMade: benchmark,
	}
}

// lineAndPace is a fitted model with what line, pace and both cost.
func lineAndPace(line, pace, both [3]float64) metrics.PuttingModel {
	return metrics.PuttingModel{
		Player: "A", N: 900, StartLineDeg: 1.09, StartLineLoDeg: 0.9, StartLineHiDeg: 1.2, PacePct: 8.3, PaceLoPct: 5.7, PaceHiPct: 12.6,
		BaselineLineDeg: 0.99, BaselinePacePct: 8.18,
		LineGain: line[0], LineGainLo: line[1], LineGainHi: line[2],
		PaceGain: pace[0], PaceGainLo: pace[1], PaceGainHi: pace[2],
		BothGain: both[0], BothGainLo: both[1], BothGainHi: both[2],
	}
}

func TestThePuttsMadeTitleSaysWhatTheIntervalsCarry(t *testing.T) {
	nan := math.NaN()
	level := putted(nan, nan, 580, 1000, 0.55, 0.61, 0.59)
	open := [3]float64{0.1, -0.4, 0.6}
	for _, test := range []struct {
		what   string
		rounds int
		all    metrics.Putting
		models []metrics.PuttingModel
		want   string
	}{
		{"line costs more than pace", 46, level, []metrics.PuttingModel{lineAndPace([3]float64{0.9, 0.6, 1.2}, [3]float64{0.1, -0.2, 0.4}, open)},
			"Start line costs more than pace: 0.9 putts a round against the benchmark"},
		{"pace costs more than line", 46, level, []metrics.PuttingModel{lineAndPace([3]float64{-0.1, -0.3, 0.1}, [3]float64{1.4, 0.9, 1.9}, open)},
			"Pace costs more than start line: 1.4 putts a round against the benchmark"},
		{"line costs, pace is open", 46, level, []metrics.PuttingModel{lineAndPace([3]float64{0.9, 0.3, 1.5}, open, open)},
			"Start line costs 0.9 putts a round; pace may cost as much"},
		{"line costs, pace may cost more", 46, level, []metrics.PuttingModel{lineAndPace([3]float64{0.4, 0.1, 0.7}, [3]float64{0.6, -0.4, 1.6}, open)},
			"Start line costs 0.4 putts a round; pace may cost as much or more"},
		{"only both together cost", 46, level, []metrics.PuttingModel{lineAndPace(open, open, [3]float64{0.7, 0.2, 1.2})},
			"Start line and pace together cost 0.7 putts a round; which of them is open"},
		{"both cost, not apart", 46, level, []metrics.PuttingModel{lineAndPace([3]float64{0.5, 0.1, 0.9}, [3]float64{0.4, 0.1, 0.7}, [3]float64{0.9, 0.4, 1.4})},
			"Start line and pace together cost 0.9 putts a round; which of them is open"},
		{"pace saves", 46, level, []metrics.PuttingModel{lineAndPace([3]float64{0.2, -0.1, 0.5}, [3]float64{-0.5, -0.8, -0.2}, open)},
			"Pace saves 0.5 putts a round against the benchmark"},
		{"the interval ends at zero", 46, level, []metrics.PuttingModel{lineAndPace([3]float64{0.5, 0, 1}, open, open)},
			"Does start line or pace cost more putts? These putts do not tell"},
		{"nothing is clear but the share made", 46, putted(nan, nan, 540, 1000, 0.51, 0.57, 0.59), []metrics.PuttingModel{lineAndPace(open, open, open)},
			"Fewer putts are made than the benchmark makes: 54 % against 59 %"},
		{"more than the benchmark", 46, putted(nan, nan, 640, 1000, 0.61, 0.67, 0.59), nil,
			"More putts are made than the benchmark makes: 64 % against 59 %"},
		{"no model", 46, level, nil, "How many putts are made? Too few putts to tell start line from pace"},
		{"no baseline", 46, putted(nan, nan, 540, 1000, 0.51, 0.57, nan), nil, "How many putts are made? Too few putts to tell start line from pace"},
		{"four rounds", 4, level, []metrics.PuttingModel{lineAndPace([3]float64{0.9, 0.6, 1.2}, open, open)}, "How many putts are made? Four rounds are too few to say"},
		{"one round", 1, level, nil, "How many putts are made? One round is too few to say"},
	} {
		rows := []metrics.Putting{test.all, putted(10, 12, 15, 46, 0.22, 0.45, 0.365)}
		chart, missing := PuttsMadeChart(Season{Player: "A", Rounds: test.rounds}, rows, test.models)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestThePuttsMadeAltTextGivesTheFigures(t *testing.T) {
	nan := math.NaN()
	rows := []metrics.Putting{
		putted(nan, nan, 18, 50, nan, nan, nan), putted(10, 12, 15, 46, 0.22, 0.45, 0.365), putted(50, nan, 3, 4, 0.1, 0.9, nan),
	}
	chart, _ := PuttsMadeChart(Season{Player: "A", Rounds: 46, Units: Metres}, rows, nil)
	want := "How many putts are made? Too few putts to tell start line from pace. Putts made by length, with 90 % interval: " +
		"3.0–3.7 metres 33 % of 46 (22 to 45), benchmark 37 %; 15+ metres 3 of 4."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestFewRoundsHaveNoStartLineAndPace(t *testing.T) {
	nan := math.NaN()
	model := lineAndPace([3]float64{-1.2, nan, nan}, [3]float64{1.1, nan, nan}, [3]float64{-0.1, nan, nan})
	for rounds, want := range map[int]bool{4: false, 5: true} {
		chart, _ := PuttsMadeChart(Season{Player: "A", Rounds: rounds}, []metrics.Putting{putted(nan, nan, 30, 52, nan, nan, 0.59)}, []metrics.PuttingModel{model})
		if got := strings.Contains(chart.Alt, "Start line"); got != want {
			t.Errorf("%d rounds: %q", rounds, chart.Alt)
		}
	}
}

func TestTooFewPuttsAreNotDrawn(t *testing.T) {
	nan := math.NaN()
	for n, want := range map[int64]string{
		0: "No putt has a known end.",
		1: "1 putt with a known end is too few to draw; it takes 5.",
		4: "4 putts with a known end are too few to draw; it takes 5.",
	} {
		chart, missing := PuttsMadeChart(Season{Player: "A"}, []metrics.Putting{putted(nan, nan, 0, n, nan, nan, nan)}, nil)
		if chart != nil || missing == nil || spaced(missing.Reason) != want {
			t.Errorf("%d putts: %v, %v", n, chart, missing)
		}
	}
}

func TestPuttColumnsFillGapsAndKeepEdgesApart(t *testing.T) {
	p := newPuttColumns(Metres, []puttLength{{3, 4}, {10, 12}, {0, 3}, {3, 4}})
	if len(p.columns) != 4 || p.columns[2] != (puttLength{4, 10}) {
		t.Errorf("columns are %v", p.columns)
	}
	if got := strings.Join([]string{p.edgePrinted(0), p.edgePrinted(3), p.edgePrinted(4), p.edgePrinted(50)}, " "); got != "0 0.9 1.2 15" {
		t.Errorf("edges are %s", got)
	}
}
