//go:build linux

package main

import (
	"strings"
	"testing"
)

func TestALineOfInputsHasMediansOfBothSidesAndOfTheRatiosPairByPair(t *testing.T) {
	line := pair{
		input:  "one CSV file",
		ours:   &side{name: "roundmill", runs: []run{{2, 4, 100}, {30, 5, 110}, {3, 6, 120}}},
		theirs: &side{name: "DuckDB", runs: []run{{1, 8, 400}, {5, 5, 440}, {3, 3, 480}}},
	}.line()
	// The ratios of wall time are 2, 6 and 1, their median is not the ratio of the medians.
	want := "| one CSV file | DuckDB | 3.00 / 3.00 | 5.00 / 5.00 | 110 / 440 | 2.00 | 1.00 | 0.25 |\n"
	if line != want {
		t.Errorf("got  %swant %s", line, want)
	}
}

func TestGrowthIsToldPerMillionShots(t *testing.T) {
	line := growthLine(2_500_000, 100, 348, "a file", []run{{10, 15, 250}})
	if want := "| 2,500,000 | 100 x 348 | a file | 10.0 | 15.0 | 250 | 4.00 | 6.00 |\n"; line != want {
		t.Errorf("got  %swant %s", line, want)
	}
}

func TestEveryTableHasAsManyCellsInEachLineAsInItsHead(t *testing.T) {
	size := logSize{10_160_000, 1_474_000_000}
	one := &side{name: "one", runs: []run{{1, 1, 1}}}
	for name, table := range map[string]string{
		"inputs": inputsHeading(size, 400, 348, 5, true) + pair{"one CSV file", one, one}.line(),
		"growth": growthHeading(5) + growthLine(1, 1, 1, "a file", one.runs),
		"demo":   demoTable(3389, 11, []*side{one}),
	} {
		lines := strings.Split(strings.TrimSpace(table), "\n")
		lines = lines[len(lines)-3:]
		if head := strings.Count(lines[0], "|"); head < 5 || strings.Count(lines[1], "|") != head || strings.Count(lines[2], "|") != head {
			t.Errorf("%s:\n%s", name, strings.Join(lines, "\n"))
		}
	}
}

func TestTheWordsAboveTheTablesSayWhoTakesPartAndHowOften(t *testing.T) {
	size := logSize{10_160_000, 1_474_000_000}
	for text, want := range map[string]string{
		heading([]string{"--runs", "7"}):       "`go -C testdata/acceptance run ./speed --runs 7`\n",
		inputsHeading(size, 400, 348, 5, true): "10,160,000 shots, 1474 MB as CSV, of 400 players of 348 rounds, the same rows in every input; medians of 5 runs in turn",
		inputsHeading(size, 1, 1000, 1, false): "one player of 1,000 rounds, the same rows in every input; medians of one run in turn",
		inputsHeading(size, 1, 1, 1, false):    "Polars does not take part here",
		growthHeading(5):                       "medians of 5 runs",
		agreed([]string{"a: b", "c: d"}):       "\n- a: b\n- c: d\n",
		demoTable(3389, 11, nil):               "`--demo`, 3,389 shots, medians of 11 runs",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	if strings.Contains(inputsHeading(size, 1, 1, 1, true), "does not take part") {
		t.Error("Polars takes part and is said not to")
	}
}

func TestFiguresKeepThreeDigitsAndThousandsHaveCommas(t *testing.T) {
	for x, want := range map[float64]string{0.174: "0.17", 9.994: "9.99", 9.996: "10.0", 99.94: "99.9", 99.96: "100", 1234.5: "1234"} {
		if got := figure(x); got != want {
			t.Errorf("%v is written %s, want %s", x, got, want)
		}
	}
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 10_160_000: "10,160,000"} {
		if got := grouped(n); got != want {
			t.Errorf("%d is written %s, want %s", n, got, want)
		}
	}
}

func TestTheMedianOfAnEvenNumberIsBetweenTheTwoInTheMiddle(t *testing.T) {
	if got := median([]float64{9, 1, 2, 4}, func(x float64) float64 { return x }); got != 3 {
		t.Errorf("got %v, want 3", got)
	}
}

func TestAWrongCommandLineIsRefusedWithWhatWasExpected(t *testing.T) {
	good := settings{players: 1, rounds: 1, runs: 1, tables: tableNames, inputs: inputNames}
	if err := good.check(); err != nil {
		t.Error(err)
	}
	for _, test := range []struct {
		spoil func(*settings)
		want  string
	}{
		{func(s *settings) { s.runs = 0 }, "at least one player, one round and one run"},
		{func(s *settings) { s.tables = []string{"season"} }, `--tables "season": expected some of inputs,growth,demo`},
		{func(s *settings) { s.inputs = []string{"csv", ""} }, `--inputs "": expected some of csv,files,gzip,json,scattered`},
	} {
		bad := good
		test.spoil(&bad)
		if err := bad.check(); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("got %v, want %s", err, test.want)
		}
	}
}
