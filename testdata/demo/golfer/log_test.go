package golfer_test

import (
	"bytes"
	"encoding/csv"
	"iter"
	"strconv"
	"strings"
	"sync"
	"testing"

	"roundmill/testdata/demo/golfer"
)

// A row is one record of a written log, by header.
type row map[string]string

func (r row) number(t *testing.T, field string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[field], 64)
	if err != nil {
		t.Fatalf("%s is not a number in %v", field, r)
	}
	return x
}

// yards is to_hole or left, whose unit goes by the lie.
func (r row) yards(t *testing.T, field, lieField string) float64 {
	t.Helper()
	if r[lieField] == "green" {
		return r.number(t, field) / 3
	}
	return r.number(t, field)
}

func written(t *testing.T, shots iter.Seq[golfer.Shot]) []byte {
	t.Helper()
	var out bytes.Buffer
	if _, err := golfer.WriteCSV(&out, shots); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// holesOf reads a log back, hole by hole, with the standard library's reader.
func holesOf(t *testing.T, log []byte) [][]row {
	t.Helper()
	records, err := csv.NewReader(bytes.NewReader(log)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var holes [][]row
	last := ""
	for _, record := range records[1:] {
		shot := row{}
		for i, field := range records[0] {
			shot[field] = record[i]
		}
		if key := strings.Join([]string{shot["player"], shot["round"], shot["hole"]}, "/"); key != last {
			holes, last = append(holes, nil), key
		}
		holes[len(holes)-1] = append(holes[len(holes)-1], shot)
	}
	return holes
}

var many struct {
	sync.Once
	holes [][]row
}

// manySeasons is a field of several players over more than one season each, the demo season first.
func manySeasons(t *testing.T) [][]row {
	t.Helper()
	many.Do(func() { many.holes = holesOf(t, written(t, golfer.Field(golfer.DemoSeed, 12, 60))) })
	return many.holes
}

func TestEveryHoleStartsOnATeeAndNumbersItsShotsFromOne(t *testing.T) {
	for _, hole := range manySeasons(t) {
		if hole[0]["lie"] != "tee" {
			t.Errorf("first lie is %q: %v", hole[0]["lie"], hole[0])
		}
		for i, shot := range hole {
			if shot["shot"] != strconv.Itoa(i+1) {
				t.Errorf("shot %s follows %d others", shot["shot"], i)
			}
		}
	}
}

func TestWhatIsLeftIsWhereTheNextShotStartsAsPrinted(t *testing.T) {
	for _, hole := range manySeasons(t) {
		for i, shot := range hole[:len(hole)-1] {
			next := hole[i+1]
			if shot["left"] != next["to_hole"] || shot["finish_lie"] != next["lie"] {
				t.Errorf("%s %s left, %s %s next: %v", shot["left"], shot["finish_lie"], next["to_hole"], next["lie"], shot)
			}
		}
	}
}

func TestOnlyTheLastShotOfAHoleSaysWhetherItWasHoled(t *testing.T) {
	for _, hole := range manySeasons(t) {
		for i, shot := range hole {
			last := i == len(hole)-1
			switch holed := shot["holed"]; {
			case !last && holed != "":
				t.Errorf("holed is %q before the end: %v", holed, shot)
			case last && holed == "yes":
				if shot["left"] != "0" || shot["finish_lie"] != "" {
					t.Errorf("a holed ball is left %s on %q", shot["left"], shot["finish_lie"])
				}
			case last && holed != "no":
				t.Errorf("the last shot says %q: %v", holed, shot)
			}
		}
	}
}

func TestLiesAreWordsOfTheShotLog(t *testing.T) {
	known := map[string]bool{}
	for _, word := range []string{ // shot-log: the table of lies
		"tee", "fairway", "fringe", "first cut", "rough", "deep rough", "bermuda", "fescue", "pine straw",
		"fairway bunker", "bunker", "plugged", "trees", "green",
	} {
		known[word] = true
	}
	seen := map[string]bool{}
	for _, hole := range manySeasons(t) {
		for _, shot := range hole {
			seen[shot["lie"]] = true
			if !known[shot["lie"]] || shot["finish_lie"] != "" && !known[shot["finish_lie"]] {
				t.Errorf("lie %q, finish %q", shot["lie"], shot["finish_lie"])
			}
		}
	}
	if len(seen) != len(known) {
		t.Errorf("only %d of %d lies come up: %v", len(seen), len(known), seen)
	}
}

func TestNumbersAreInTheRangesOfTheShotLog(t *testing.T) {
	ranges := map[string][2]float64{
		"course_rating": {60, 80}, "slope_rating": {55, 155}, "hole": {1, 18}, "par": {3, 5},
		"hole_length_yd": {100, 600}, "stroke_index": {1, 18}, "penalty": {0, 2},
		"headwind_mph": {-50, 50}, "crosswind_mph": {-50, 50}, "elevation_yd": {-20, 20},
		"green_depth_yd": {20, 45}, "green_width_yd": {20, 45},
	}
	for _, hole := range manySeasons(t) {
		for _, shot := range hole {
			for field, within := range ranges {
				if shot[field] == "" {
					continue
				}
				if x := shot.number(t, field); x < within[0] || x > within[1] {
					t.Errorf("%s is %s", field, shot[field])
				}
			}
			longest := 700.0
			if shot["lie"] == "green" {
				longest = 200
			}
			if toHole := shot.number(t, "to_hole"); toHole < 0.2 || toHole > longest {
				t.Errorf("to_hole is %g: %v", toHole, shot)
			}
			for field, value := range shot {
				if _, decimals, found := strings.Cut(value, "."); found && len(decimals) != 1 {
					t.Errorf("%s is %s, with more than one decimal", field, value)
				}
			}
		}
	}
}

func TestParLengthAndStrokeIndexAreConstantOnAHole(t *testing.T) {
	first := map[string]row{}
	for _, hole := range manySeasons(t) {
		for _, shot := range hole {
			key := shot["course"] + "/" + shot["hole"]
			if _, seen := first[key]; !seen {
				first[key] = shot
			}
			for _, field := range []string{"par", "hole_length_yd", "stroke_index", "course_rating", "slope_rating", "tees"} {
				if shot[field] != first[key][field] {
					t.Errorf("%s of %s is %s and %s", field, key, first[key][field], shot[field])
				}
			}
		}
	}
	if len(first) != 4*18 {
		t.Errorf("%d holes, want four courses of 18", len(first))
	}
}

func TestPuttsSayHowTheGroundLiesAndNothingOfAims(t *testing.T) {
	onPuttsOnly := []string{"putt_slope", "putt_break"}
	notOnPutts := []string{"long_short_yd", "left_right_yd", "aim_long_short_yd", "aim_left_right_yd"}
	never := []string{"headwind_mph", "crosswind_mph", "elevation_yd", "pin_side", "pin_depth", "green_depth_yd", "green_width_yd"}
	for _, hole := range manySeasons(t) {
		for _, shot := range hole {
			putt := shot["lie"] == "green"
			for _, field := range onPuttsOnly {
				if putt == (shot[field] == "") {
					t.Errorf("%s is %q from %s", field, shot[field], shot["lie"])
				}
			}
			for _, field := range notOnPutts {
				if putt == (shot[field] != "") {
					t.Errorf("%s is %q from %s", field, shot[field], shot["lie"])
				}
			}
			for _, field := range never {
				if putt && shot[field] != "" {
					t.Errorf("%s is %q on a putt", field, shot[field])
				}
			}
		}
	}
}

func TestStrokeAndDistanceIsReplayedFromTheSamePlace(t *testing.T) {
	kinds := map[string]int{}
	for _, hole := range manySeasons(t) {
		for i, shot := range hole {
			kind := shot["penalty_kind"]
			kinds[kind]++
			if (kind == "") != (shot["penalty"] == "") {
				t.Errorf("penalty %q of kind %q", shot["penalty"], kind)
			}
			if kind != "out of bounds" && kind != "lost ball" || i == len(hole)-1 {
				continue
			}
			if next := hole[i+1]; next["lie"] != shot["lie"] || next["to_hole"] != shot["to_hole"] {
				t.Errorf("%s from %s %s, then from %s %s", kind, shot["lie"], shot["to_hole"], next["lie"], next["to_hole"])
			}
		}
	}
	for _, kind := range []string{"penalty area", "out of bounds", "lost ball", "unplayable"} {
		if kinds[kind] == 0 {
			t.Errorf("no %s in 720 rounds", kind)
		}
	}
}

func TestTextThatNeedsQuotesGetsThem(t *testing.T) {
	player := golfer.Scratch()
	player.Name = "A \"quoted\", invented\nname"
	holes := holesOf(t, written(t, golfer.Season(1, player, golfer.Courses(), 1)))
	if got := holes[0][0]["player"]; got != player.Name {
		t.Errorf("player reads back as %q", got)
	}
}
