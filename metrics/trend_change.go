package metrics

import (
	"cmp"
	"math"
	"slices"
	"time"

	"roundmill/metrics/estimate"
)

// TrendChange is one row of the table trend_change: strokes gained of one player
// in one class of strokes, or all, in the first half of the rounds against the
// second, or before a date against from it on; per 18 complete holes.
//
// P is that of a permutation test: how often rounds dealt at random into two
// parts of these sizes would differ at least as much, either way. It asks about
// chance alone. Other courses, other weather or the time of year make a change
// as well as a lesson does, and a date that was picked because of what came
// after it makes P too small. Of four classes one is apt to look changed, hence
// P corrected for the four: S. Holm (1979), "A simple sequentially rejective
// multiple test procedure", Scandinavian Journal of Statistics 6:65-70.
type TrendChange struct {
	Player       string    `col:"player" about:"player as named in the log, null when the log names none"`
	Class        string    `col:"shot_class" about:"tee shot, approach, short game, putt, or all"`
	SplitBy      string    `col:"split_by" about:"halves of the rounds (the odd one goes to the second), or date"`
	SplitDate    time.Time `col:"split_date" about:"first day of the second part; with halves, rounds of that day may be in the first part"`
	BeforeRounds int64     `col:"before_rounds" about:"rounds in the first part"`
	BeforeHoles  int64     `col:"before_n" about:"complete holes in the first part"`
	Before       float64   `col:"before_per_round" unit:"strokes" about:"strokes gained per 18 complete holes in the first part"`
	BeforeLo     float64   `col:"before_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	BeforeHi     float64   `col:"before_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	AfterRounds  int64     `col:"after_rounds" about:"rounds in the second part"`
	AfterHoles   int64     `col:"after_n" about:"complete holes in the second part"`
	After        float64   `col:"after_per_round" unit:"strokes" about:"strokes gained per 18 complete holes in the second part"`
	AfterLo      float64   `col:"after_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	AfterHi      float64   `col:"after_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Change       float64   `col:"change" unit:"strokes" about:"second part less first: above zero is better"`
	ChangeLo     float64   `col:"change_lo" unit:"strokes" about:"lower end of its 90 % interval (from the two bootstrap intervals, Zou and Donner 2008)"`
	ChangeHi     float64   `col:"change_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	P            float64   `col:"p" about:"permutation test over rounds, two-sided"`
	PCorrected   float64   `col:"p_corrected" about:"p corrected for the four classes (Holm); p itself for all"`
	Baseline     string    `col:"baseline" about:"what strokes gained are measured against"`
}

// Ways to split the rounds.
const (
	SplitHalves = "halves"
	SplitByDate = "date"
)

// permutations is how often rounds are dealt anew when there are too many ways
// to try them all: with what was observed, as many as the bootstrap draws.
const permutations = Resamples - 1

// before is how many of a player's rounds, in order, are in the first part.
func (f *TrendFigures) before(rounds []classGain) int {
	if f.split.IsZero() {
		return len(rounds) / 2
	}
	n, _ := slices.BinarySearchFunc(rounds, f.split, func(r classGain, split time.Time) int {
		return dayOf(r.key.date).Compare(split)
	})
	return n
}

// ChangeRows are the finished rows: players in order, all and then the classes.
func (f *TrendFigures) ChangeRows() []TrendChange {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *classGains) (rows []TrendChange) {
		player.sort()
		before := f.before(player.rounds)
		for _, place := range classPlaces() {
			row := changeOf(player.rounds, before, place, &draws)
			row.Player, row.Class, row.SplitBy, row.Baseline = name, className(place), SplitHalves, f.options.Baseline
			switch {
			case !f.split.IsZero():
				row.SplitBy, row.SplitDate = SplitByDate, f.split
			case before < len(player.rounds):
				row.SplitDate = player.rounds[before].key.day()
			}
			rows = append(rows, row)
		}
		f.test(rows, player.rounds, before)
		return rows
	})
}

func changeOf(rounds []classGain, before, place int, draws *resamplers) TrendChange {
	row := TrendChange{
		BeforeRounds: int64(before), AfterRounds: int64(len(rounds) - before),
		P: math.NaN(), PCorrected: math.NaN(),
	}
	for i := range rounds {
		if i < before {
			row.BeforeHoles += int64(rounds[i].holes)
		} else {
			row.AfterHoles += int64(rounds[i].holes)
		}
	}
	gained, per18 := columns(rounds, place)
	part := func(from, to int) (float64, estimate.Interval) {
		if from == to {
			return math.NaN(), estimate.None()
		}
		return ratioOverRounds(gained[from:to], per18[from:to], draws)
	}
	was, ofWas := part(0, before)
	is, ofIs := part(before, len(rounds))
	row.Before, row.BeforeLo, row.BeforeHi = withEnds(was, ofWas)
	row.After, row.AfterLo, row.AfterHi = withEnds(is, ofIs)
	row.Change, row.ChangeLo, row.ChangeHi = withEnds(is-was, estimate.IndependentDifference(is, was, ofIs, ofWas))
	return row
}

// test sets the P of the rows of a player: all, and then the classes.
func (f *TrendFigures) test(rows []TrendChange, rounds []classGain, before int) {
	if min(before, len(rounds)-before) < leastRounds {
		return
	}
	first := make([]bool, len(rounds))
	for i := range before {
		first[i] = true
	}
	var gained [][]float64
	var per18 []float64
	for _, place := range classPlaces() {
		var ofPlace []float64
		ofPlace, per18 = columns(rounds, place)
		gained = append(gained, ofPlace)
	}
	for i, tested := range estimate.PermutationTests(gained, per18, first, permutations, f.options.Seed) {
		rows[i].P, rows[i].PCorrected = tested.P, tested.P
	}
	correct(rows[1:])
}

// correct sets the P of rows that are tested together, by Holm's method: the
// smallest times their number, the next times one fewer, never falling.
func correct(rows []TrendChange) {
	byP := make([]*TrendChange, len(rows))
	for i := range rows {
		byP[i] = &rows[i]
	}
	slices.SortStableFunc(byP, func(a, b *TrendChange) int { return cmp.Compare(a.P, b.P) })
	least := 0.0
	for i, row := range byP {
		least = max(least, min(1, float64(len(byP)-i)*row.P))
		row.PCorrected = least
	}
}
