package transform_test

import (
	"math"
	"os"
	"testing"

	"roundmill/ingest"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

// R. Minton, companion page to Golf By the Numbers (Johns Hopkins University
// Press, 2012): 150 yards in the fairway, baseline 2.93; the ball finishes 10
// feet away, 1.68 putts; strokes gained 2.93 - 2.68 = +0.25.
func TestThePublishedExampleOfStrokesGained(t *testing.T) {
	file, err := os.Open("../testdata/reference/strokes-gained-example-2012.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	table, err := baseline.Read(file.Name(), file)
	if err != nil {
		t.Fatal(err)
	}
	shots := enriched(t, logOf(4, `shot,lie,to_hole
		1,tee,400
		2,fairway,150
		3,green,10`), transform.Options{Baseline: table})
	if got := shots.StrokesGained[1]; math.Abs(got-0.25) > 1e-12 {
		t.Errorf("strokes gained %v, printed +0.25", got)
	}
}

// The file above knows nothing of tee shots: they, their hole and their round
// have no strokes gained, rather than wrong ones.
func TestALieThatTheBaselineLacksHasNoStrokesGained(t *testing.T) {
	var fairwayOnly [ingest.CategoryCount][]baseline.Row
	fairwayOnly[ingest.Fairway] = []baseline.Row{{Yd: 100, Value: 2.8}}
	table := baseline.New("fairway only", "this test", fairwayOnly, nil)
	shots := enriched(t, logOf(4, `shot,lie,to_hole
		1,tee,400
		2,fairway,100`), transform.Options{Baseline: table})
	compareCells(t, shots.ShotsRecord(), "expected_before expected_after strokes_gained", `
		-    2.8  -
		2.8  0    1.8`)
	compareCells(t, shots.HolesRecord(), "score strokes_gained hole_complete", `2 - yes`)
	compareCells(t, shots.RoundsRecord(), "score strokes_gained strokes_gained_tee_shot strokes_gained_approach", `2 - - 1.8`)
}
