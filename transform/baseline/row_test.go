package baseline

import (
	"math"
	"testing"

	"roundmill/ingest"
)

func TestATableOfRowsReadsLikeAnyOther(t *testing.T) {
	var strokes [ingest.CategoryCount][]Row
	strokes[ingest.Fairway] = []Row{{100, 2.8}, {200, 3.2}}
	table := New("rows", "this test", strokes, []Row{{1, 1}, {3, 0.4}})
	for yards, want := range map[float64]float64{100: 2.8, 150: 3.0, 250: 3.4} {
		if got := table.Strokes(ingest.Fairway, yards); math.Abs(got-want) > 1e-12 {
			t.Errorf("%v yd: %v strokes, expected %v", yards, got, want)
		}
	}
	if got := table.MadeShare(2); math.Abs(got-0.7) > 1e-12 {
		t.Errorf("%v of the putts of 2 yd made, expected 0.7", got)
	}
	if missing := table.Missing(); len(missing) != 5 || table.Name != "rows" || table.Source != "this test" {
		t.Errorf("%s from %s misses %v", table.Name, table.Source, missing)
	}
}

func TestRowsThatDoNotRiseAreABug(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("rows at the same distance made a table")
		}
	}()
	var strokes [ingest.CategoryCount][]Row
	strokes[ingest.Sand] = []Row{{10, 2.4}, {10, 2.5}}
	New("rows", "this test", strokes, nil)
}
