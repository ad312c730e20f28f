package transform_test

import (
	"math"
	"testing"

	"roundmill/transform"
)

func TestTheLengthOfAHole(t *testing.T) {
	for _, hole := range []struct {
		name, log string
		want      float64
	}{
		{"as logged", "shot,lie,to_hole,hole_length\n1,tee,377,384\n2,green,9,384", 384},
		{"as logged in one record only", "shot,lie,to_hole,hole_length\n1,tee,377,\n2,green,9,384", 384},
		{"else the distance from the tee", "shot,lie,to_hole\n1,tee,377\n2,green,9", 377},
		{"without the tee shot, the first distance that there is", "shot,lie,to_hole\n2,fairway,150\n3,green,9", 150},
		{"the tee shot refused, the first distance that there is", "shot,lie,to_hole\n1,lawn,377\n2,fairway,150\n3,green,9", 150},
		{"as logged, though the tee shot was refused", "shot,lie,to_hole,hole_length\n1,lawn,377,384\n2,fairway,150,384\n3,green,9,384", 384},
	} {
		shots := enriched(t, logOf(4, hole.log), transform.Options{})
		for row := range shots.N {
			if got := shots.HoleLengthYd[row]; !same(got, hole.want) {
				t.Errorf("%s: %v yd in record %d, expected %v", hole.name, got, row+1, hole.want)
			}
		}
		if got := shots.Holes.LengthYd[0]; !same(got, hole.want) {
			t.Errorf("%s: %v yd, expected %v", hole.name, got, hole.want)
		}
	}
}

// The log forgot the penalty: wherever play went on, the ball did not come to rest in play.
func TestABallInTheWaterIsNotAtRest(t *testing.T) {
	shots := enriched(t, logOf(3, "shot,lie,to_hole,finish_lie\n1,tee,150,water\n2,rough,60,\n3,green,9,"), transform.Options{})
	if got := shots.ProximityFt[0]; !math.IsNaN(got) {
		t.Errorf("%v ft from the hole", got)
	}
}

func TestFairwayHit(t *testing.T) {
	for _, tee := range []struct {
		name     string
		par      int
		log      string
		expected transform.Known
	}{
		{"fairway", 4, "shot,lie,to_hole\n1,tee,400\n2,fairway,150\n3,green,9", transform.Yes},
		{"rough", 4, "shot,lie,to_hole\n1,tee,400\n2,rough,150\n3,green,9", transform.No},
		{"fringe is fairway", 5, "shot,lie,to_hole\n1,tee,280\n2,fringe,10\n3,green,9", transform.Yes},
		{"holed from the tee", 4, "shot,lie,to_hole,holed\n1,tee,300,yes", transform.Yes},
		{"a par 3 has no fairway", 3, "shot,lie,to_hole\n1,tee,150\n2,fairway,20\n3,green,9", transform.Unknown},
		{"a drop on the fairway is no fairway hit", 4, "shot,lie,to_hole,penalty\n1,tee,400,1\n3,fairway,150,\n4,green,9,", transform.No},
		{"the second ball off the tee does not count", 4, "shot,lie,to_hole,penalty\n1,tee,400,1\n3,tee,400,\n4,fairway,150,\n5,green,9,", transform.No},
		{"not known", 4, "shot,lie,to_hole\n1,tee,400\n3,green,9", transform.Unknown},
		{"not known, but penalised", 4, "shot,lie,to_hole,penalty\n1,tee,400,1\n4,green,9,", transform.No},
	} {
		shots := enriched(t, logOf(tee.par, tee.log), transform.Options{})
		if got := shots.Holes.FairwayHit[0]; got != tee.expected {
			t.Errorf("%s: %v, expected %v", tee.name, got, tee.expected)
		}
	}
}
