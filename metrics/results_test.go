package metrics

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestResultsOfOnePlayerLeaveOutAllOthers(t *testing.T) {
	all := &Results{
		Seasons:    []Season{{Player: "A", Rounds: 3}, {Player: "B", Rounds: 4}},
		Priorities: []Priority{{Player: "B", Rank: 1}, {Player: "A", Rank: 1}, {Player: "B", Rank: 2}},
		Handicap:   []Handicap{{Player: "A"}},
		Warnings:   []Warning{{Text: "for all"}, {Player: "A", Text: "for A"}, {Player: "B", Text: "for B"}},
	}
	want := &Results{
		Seasons:    []Season{{Player: "B", Rounds: 4}},
		Priorities: []Priority{{Player: "B", Rank: 1}, {Player: "B", Rank: 2}},
		Warnings:   []Warning{{Text: "for all"}, {Player: "B", Text: "for B"}},
	}
	if diff := cmp.Diff(want, all.Of("B")); diff != "" {
		t.Error(diff)
	}
}
