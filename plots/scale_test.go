package plots

import (
	"slices"
	"testing"
)

func TestTicksAreRoundNumbers(t *testing.T) {
	for _, test := range []struct {
		span float64
		most int
		want float64
	}{{100, 6, 20}, {90, 6, 20}, {60, 6, 10}, {22, 6, 5}, {5.4, 7, 1}, {0.9, 7, 0.2}, {300, 6, 50}, {1, 6, 0.2}} {
		if got := tickStep(test.span, test.most); got != test.want {
			t.Errorf("a span of %v in at most %d parts has a step of %v, want %v", test.span, test.most, got, test.want)
		}
	}
	axis := scale{from: -2.5, to: 0.7, start: 0, end: 320}
	var printed []string
	for _, tick := range axis.ticks(0.5) {
		printed = append(printed, tickPrinted(tick, 0.5, Signed))
	}
	if want := []string{"−2.5", "−2.0", "−1.5", "−1.0", "−0.5", "0", "+0.5"}; !slices.Equal(printed, want) {
		t.Errorf("ticks %q, want %q", printed, want)
	}
}

func TestAScaleRunsStraightBetweenItsEnds(t *testing.T) {
	up := scale{from: 0, to: 100, start: 300, end: 100}
	for value, want := range map[float64]float64{0: 300, 25: 250, 100: 100} {
		if got := up.at(value); float64(got) != want {
			t.Errorf("%v stands at %v, want %v", value, got, want)
		}
	}
	if got := up.valueOf(20); got != 10 {
		t.Errorf("20 pt span %v, want 10", got)
	}
}
