package golfer_test

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"time"

	"roundmill/testdata/demo"
	"roundmill/testdata/demo/golfer"
)

func TestTheSameSeedGivesTheSameBytes(t *testing.T) {
	once := written(t, golfer.Field(7, 3, 50))
	if !bytes.Equal(once, written(t, golfer.Field(7, 3, 50))) {
		t.Error("two runs differ")
	}
	if bytes.Equal(once, written(t, golfer.Field(8, 3, 50))) {
		t.Error("another seed gives the same season")
	}
}

func TestTheBuiltInSeasonIsWhatTheGeneratorWrites(t *testing.T) {
	if !bytes.Equal(demo.CSV, written(t, golfer.Field(golfer.DemoSeed, 1, golfer.SeasonRounds))) {
		t.Error("season.csv is stale: go run ./testdata/demo/generate")
	}
	shots := golfer.Season(golfer.DemoSeed, golfer.Scratch(), golfer.Courses(), golfer.SeasonRounds)
	if !bytes.Equal(demo.CSV, written(t, shots)) {
		t.Error("the season of Scratch is not the demo season")
	}
}

func TestTheDataSayThatTheyAreInvented(t *testing.T) {
	if note := holesOf(t, demo.CSV)[0][0]["note"]; !strings.Contains(note, "invented demo data") {
		t.Errorf("the first note is %q", note)
	}
}

func TestMoreRoundsLeaveTheFirstOnesAsTheyWere(t *testing.T) {
	if !bytes.HasPrefix(written(t, golfer.Field(3, 1, 120)), written(t, golfer.Field(3, 1, 46))) {
		t.Error("the first 46 of 120 rounds differ from 46 rounds")
	}
}

func TestRoundsRunInDateOrderFromMarchToOctober(t *testing.T) {
	rounds := map[*golfer.Round]bool{}
	var last *golfer.Round
	for shot := range golfer.Season(1, golfer.Scratch(), golfer.Courses(), 3*golfer.SeasonRounds) {
		if shot.Round == last {
			continue
		}
		if last != nil && (!shot.Round.Date.After(last.Date) || shot.Round.Number != last.Number+1) {
			t.Errorf("round %d on %v follows round %d on %v", shot.Round.Number, shot.Round.Date, last.Number, last.Date)
		}
		last = shot.Round
		rounds[last] = true
		wantYear := 2026 + (last.Number-1)/golfer.SeasonRounds
		if month := last.Date.Month(); last.Date.Year() != wantYear || month < time.March || month > time.October {
			t.Errorf("round %d is on %v", last.Number, last.Date)
		}
	}
	if len(rounds) != 3*golfer.SeasonRounds {
		t.Errorf("%d rounds", len(rounds))
	}
}

func TestAFieldPlaysPlayerAfterPlayerEachUnderAnInventedNameOfTheirOwn(t *testing.T) {
	names := map[string]bool{}
	last := ""
	for shot := range golfer.Field(5, 450, 1) {
		if name := shot.Round.Player; name != last {
			if names[name] {
				t.Fatalf("%s comes up twice", name)
			}
			names[name], last = true, name
		}
	}
	if len(names) != 450 {
		t.Errorf("%d players, want 450", len(names))
	}
}

func TestASeasonCanBeLeftAtAnyShot(t *testing.T) {
	for stop := range 100 {
		seen := 0
		for range golfer.Field(1, 2, 1) {
			if seen++; seen > stop {
				break
			}
		}
		if seen != stop+1 {
			t.Fatalf("stopped at %d of %d", seen, stop+1)
		}
	}
}

func TestCoursesHoldTogether(t *testing.T) {
	for _, course := range golfer.Courses() {
		if len(course.Holes) != 18 {
			t.Errorf("%s has %d holes", course.Name, len(course.Holes))
		}
		indexes := map[int]bool{}
		for i, hole := range course.Holes {
			indexes[hole.StrokeIndex] = true
			if hole.Number != i+1 {
				t.Errorf("%s: hole %d stands at %d", course.Name, hole.Number, i+1)
			}
			if (hole.Par == 3) != (hole.FairwayYd == 0) || (hole.Par == 3) != (hole.LengthYd < 250) {
				t.Errorf("%s %d: par %d, %g yd, fairway %g yd", course.Name, hole.Number, hole.Par, hole.LengthYd, hole.FairwayYd)
			}
			for _, hazard := range hole.Hazards {
				overGreen := hazard.MinX < hole.GreenWidthYd/2+3 && hazard.MaxX > -hole.GreenWidthYd/2-3 &&
					hazard.MinY < hole.LengthYd+hole.GreenDepthYd/2+3 && hazard.MaxY > hole.LengthYd-hole.GreenDepthYd/2-3
				overTee := hazard.MinX < 5 && hazard.MaxX > -5 && hazard.MinY < 20 && hazard.MaxY > -20
				if overGreen || overTee {
					t.Errorf("%s %d: a hazard lies on the green or the tee", course.Name, hole.Number)
				}
			}
		}
		if len(indexes) != 18 || !indexes[1] || !indexes[18] {
			t.Errorf("%s: stroke indexes are not 1 to 18", course.Name)
		}
	}
}

func BenchmarkWriteCSV(b *testing.B) {
	rows := 0
	for b.Loop() {
		n, err := golfer.WriteCSV(io.Discard, golfer.Field(1, 1, golfer.SeasonRounds))
		if err != nil {
			b.Fatal(err)
		}
		rows += n
	}
	b.ReportMetric(float64(rows)/b.Elapsed().Seconds(), "rows/s")
}

func BenchmarkSeason(b *testing.B) {
	courses := golfer.Courses()
	for b.Loop() {
		for range golfer.Season(1, golfer.Scratch(), courses, golfer.SeasonRounds) {
		}
	}
}
