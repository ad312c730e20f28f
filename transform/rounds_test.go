package transform_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"roundmill/transform"
)

// twoStrokes are complete par 3s: a tee shot of 150 yd to 10 ft, one putt.
func twoStrokes(date, player, round string, holes ...int) string {
	var log strings.Builder
	for _, hole := range holes {
		for shot, stroke := range []string{"tee,150", "green,10"} {
			fmt.Fprintf(&log, "%s,%s,%s,%d,3,%d,%s\n", date, player, round, hole, shot+1, stroke)
		}
	}
	return log.String()
}

func numbersTo(n int) (holes []int) {
	for hole := range n {
		holes = append(holes, hole+1)
	}
	return holes
}

const roundsHeader = "date,player,round,hole,par,shot,lie,to_hole\n"

func TestARoundIsCompleteWithNineOrEighteenHolesOrMore(t *testing.T) {
	for holes, complete := range map[int]bool{1: false, 8: false, 9: true, 10: false, 17: false, 18: true, 27: true, 36: true} {
		shots := enriched(t, roundsHeader+twoStrokes("2026-05-02", "A. Invented", "1", numbersTo(holes)...), transform.Options{})
		if got := shots.Rounds.Complete[0]; got != complete {
			t.Errorf("a round of %d holes is complete: %v", holes, got)
		}
		if score, par := shots.Rounds.Score[0], shots.Rounds.Par[0]; int(score) != 2*holes || int(par) != 3*holes {
			t.Errorf("%d on a par of %d over %d holes", score, par, holes)
		}
	}
}

func TestAHoleThatIsNotCompleteCountsInNoTotal(t *testing.T) {
	log := roundsHeader + twoStrokes("2026-05-02", "A. Invented", "1", numbersTo(8)...) +
		"2026-05-02,A. Invented,1,9,4,1,tee,400\n2026-05-02,A. Invented,1,9,4,3,green,10\n"
	shots := enriched(t, log, transform.Options{})
	compareCells(t, shots.RoundsRecord(), "holes holes_logged par score to_par putts fairways_hit fairways greens_in_regulation penalties strokes_gained complete",
		`8 9 24 16 -8 8 0 0 8 0 7.84 no`)
	if shots.Rounds.Complete[0] {
		t.Error("the round is complete without its ninth hole")
	}
}

func TestRoundsOfABatchKeepTheirRanges(t *testing.T) {
	shots := enriched(t, roundsHeader+
		twoStrokes("2025-12-31", "A. Invented", "1", 1, 2)+
		twoStrokes("2026-01-01", "A. Invented", "1", 1)+
		twoStrokes("2026-01-01", "B. Invented", "1", 1, 2, 3), transform.Options{})
	var ranges []string
	for round := range shots.Rounds.Len() {
		first, end := shots.Rounds.HoleRange(round, &shots.Holes)
		from, _ := shots.RowRange(first)
		_, to := shots.RowRange(end - 1)
		ranges = append(ranges, fmt.Sprintf("%d: holes %d to %d, rows %d to %d", shots.RoundSeason(round), first, end, from, to))
	}
	if want := []string{"2025: holes 0 to 2, rows 0 to 4", "2026: holes 2 to 3, rows 4 to 6", "2026: holes 3 to 6, rows 6 to 12"}; !slices.Equal(ranges, want) {
		t.Errorf("%q, expected %q", ranges, want)
	}
	if got := fmt.Sprint(shots.Season); got != "[2025 2025 2025 2025 2026 2026 2026 2026 2026 2026 2026 2026]" {
		t.Errorf("seasons %s", got)
	}
}

// The keys sort as dates do, then by player, round and course; "Al" stands
// before "Al B", whatever its rounds are called.
func TestRoundOrder(t *testing.T) {
	inOrder := []string{
		twoStrokes("1969-12-30", "Z", "1", 1),
		twoStrokes("1969-12-31", "Z", "1", 1),
		twoStrokes("1970-01-01", "Z", "1", 1),
		twoStrokes("2026-05-02", "", "1", 1),
		twoStrokes("2026-05-02", "Al", "2", 1),
		twoStrokes("2026-05-02", "Al", "3", 1),
		twoStrokes("2026-05-02", "Al B", "1", 1),
		twoStrokes("2026-05-03", "Al", "1", 1),
	}
	var keys []string
	for _, round := range inOrder {
		keys = append(keys, enriched(t, roundsHeader+round, transform.Options{}).RoundOrder(0))
	}
	if !slices.IsSorted(keys) {
		t.Errorf("%q", keys)
	}
}
