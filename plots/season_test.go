package plots

import (
	"strings"
	"testing"
	"time"

	"roundmill/metrics"
)

func TestTheCountingLineLeavesOutWhatIsUnknown(t *testing.T) {
	day := func(year int, month time.Month, day int) time.Time {
		return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	}
	for _, test := range []struct {
		season Season
		want   string
	}{
		{Season{}, "x"},
		{Season{Player: "Alex", From: day(2026, 4, 4), To: day(2026, 10, 12), Rounds: 46}, "Alex · 4 Apr – 12 Oct 2026 · 46 rounds · x"},
		{Season{From: day(2025, 10, 4), To: day(2026, 3, 1), Rounds: 1200}, "4 Oct 2025 – 1 Mar 2026 · 1,200 rounds · x"},
		{Season{From: day(2026, 4, 4), To: day(2026, 4, 4), Rounds: 1, Invented: true}, "Invented demo data · 4 Apr 2026 · 1 round · x"},
		{Season{Player: "\n", From: day(2026, 4, 4)}, "x"},
	} {
		if got := spaced(test.season.counted("x")); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
}

func TestALongNameLeavesRoomForTheRest(t *testing.T) {
	line := Season{Player: strings.Repeat("Maximiliane ", 30), Rounds: 46}.counted("539 approaches")
	if !strings.Contains(line, "…") || !strings.HasSuffix(spaced(line), "46 rounds · 539 approaches") {
		t.Errorf("got %q", line)
	}
	if f := quiet.face(); f.Width(line) > lineWidth {
		t.Errorf("%q takes more than one line", line)
	}
}

func TestAScoreOfFewHolesSaysSo(t *testing.T) {
	for _, c := range []struct {
		holes, incomplete int64
		want              string
	}{
		{828, 2, ""},
		{18, 0, ""},
		{1, 0, "from 1\u00a0complete hole"},
		{17, 1, "from 17\u00a0complete holes (1\u00a0more is not complete)"},
		{19, 1, ""},
		{26, 5, "from 26\u00a0complete holes (5\u00a0more are not complete)"},
	} {
		if got := HolesBehind(metrics.Season{Holes: c.holes, HolesIncomplete: c.incomplete}); got != c.want {
			t.Errorf("%d complete and %d not: %q, expected %q", c.holes, c.incomplete, got, c.want)
		}
	}
}
