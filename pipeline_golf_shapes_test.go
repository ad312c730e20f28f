package main

import (
	"context"
	"path/filepath"
	"testing"

	"roundmill/ingest"
	"roundmill/transform"
)

// What becomes of a hole that is not played as usual, by the Rules of Golf: a
// penalty counts once however the strokes are numbered, a ball that is picked up
// has no score, and a putt is a stroke from the green, whatever the club.
func TestScoresOfUnusualHoles(t *testing.T) {
	const none = -1
	for name, want := range map[string]struct{ score, putts int32 }{
		"hole-in-one":                            {1, 0},
		"hole-in-one-by-finish":                  {1, 0},
		"hole-in-one-not-said":                   {1, 0},
		"chip-in":                                {2, 0},
		"holed-from-the-fairway":                 {2, 0},
		"putt-from-the-fringe":                   {3, 1},
		"penalty-and-drop":                       {5, 2},
		"re-tee-numbered-by-strokes-at-the-ball": {5, 1},
		"re-tee-numbered-with-the-penalty":       {5, 1},
		"re-tee-not-numbered":                    {5, 2},
		"two-re-tees":                            {7, 2},
		"provisional-ball-played":                {5, 2},
		"two-penalty-strokes":                    {6, 2},
		"shots-out-of-order":                     {3, 2},
		"shots-not-numbered":                     {3, 2},
		"picked-up":                              {none, none},
		"drive-only":                             {none, none},
		"gap-in-the-shots":                       {none, none},
		"ends-short-of-the-hole":                 {none, none},
		"holed-in-the-middle":                    {none, none},
		"first-shot-from-the-fairway":            {none, none},
	} {
		path := filepath.Join("ingest", "testdata", "odd", "golf-"+name+".csv")
		reader, err := ingest.Open(t.Context(), []string{path}, nil, ingest.Options{Workers: 1})
		if err != nil {
			t.Fatal(err)
		}
		holes := 0
		for rounds, err := range reader.Rounds(context.Background()) {
			if err != nil {
				t.Fatal(err)
			}
			batch := rounds.Check()
			if batch.Record == nil {
				continue
			}
			shots := transform.Enrich(batch, transform.Options{}.WithDefaults())
			for hole := range shots.Holes.Len() {
				holes++
				score, putts := shots.Holes.Score[hole], shots.Holes.Putts[hole]
				if !shots.Holes.Complete[hole] {
					score, putts = none, none
				}
				if score != want.score || putts != want.putts {
					t.Errorf("%s: a score of %d with %d putts, expected %d and %d", name, score, putts, want.score, want.putts)
				}
			}
		}
		if holes != 1 {
			t.Errorf("%s: %d holes", name, holes)
		}
	}
}
