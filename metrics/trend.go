package metrics

import (
	"fmt"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// Trend is one row of the table trend: strokes gained of one player in one class
// of strokes, or all, in one round and over the window of rounds that ends with
// it, per 18 complete holes.
//
// Windows overlap: neighbours share nine rounds of ten, so a run of rising
// values is no more than a few good rounds passing through. Whether anything
// changed is the question of the table trend_change. There is a window to every
// round and class, too many to draw each anew: their intervals are Student's
// about the ratio of sums ([estimate.RatioError]).
type Trend struct {
	Player       string    `col:"player" about:"player as named in the log, null when the log names none"`
	Class        string    `col:"shot_class" about:"tee shot, approach, short game, putt, or all"`
	Number       int64     `col:"round_number" about:"1 for the player's first round with a complete hole"`
	Date         time.Time `col:"date" about:"day of the round"`
	Course       string    `col:"course" about:"course as named in the log"`
	Round        string    `col:"round" about:"round as named in the log"`
	RoundGained  float64   `col:"round_strokes_gained" unit:"strokes" about:"strokes gained in this round per 18 complete holes"`
	WindowRounds int64     `col:"window_rounds" about:"rounds in the window: this one and those before it, 10 at most"`
	WindowHoles  int64     `col:"n" about:"complete holes in the window"`
	PerRound     float64   `col:"per_round" unit:"strokes" about:"strokes gained per 18 complete holes of a full window of 10 rounds, null before"`
	PerRoundLo   float64   `col:"per_round_lo" unit:"strokes" about:"lower end of its 90 % interval (Student, over the 10 rounds)"`
	PerRoundHi   float64   `col:"per_round_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline     string    `col:"baseline" about:"what strokes gained are measured against"`
}

// TrendWindow is how many rounds a rolling figure is over.
const TrendWindow = 10

// allClasses names the rows over all classes; its sums stand behind those of
// the classes.
const (
	allClasses = "all"
	allPlace   = int(transform.ClassCount)
)

// className names a class by its place in classGains.
func className(place int) string {
	if place == allPlace {
		return allClasses
	}
	return transform.Class(place).String()
}

// TrendFigures keep strokes gained by round and class, over complete holes
// whose every stroke the baseline knows.
type TrendFigures struct {
	options Options
	split   time.Time
	players byPlayer[classGains]
}

type classGains struct{ rounds []classGain }

// classGain is the strokes gained of one round by class, and in all.
type classGain struct {
	key    roundKey
	holes  int32
	gained [allPlace + 1]float64
}

// newTrendFigures compares rounds before the day of the split with those on it
// and after; the zero time splits every player's rounds into halves.
func newTrendFigures(options Options, split time.Time) *TrendFigures {
	return &TrendFigures{options: options, split: split, players: byPlayer[classGains]{}}
}

// Add adds the rounds of a batch.
func (f *TrendFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		if gain := classGainOf(s, round); gain.holes > 0 {
			player := f.players.of(s.Player.At(int(from)))
			player.rounds = append(player.rounds, gain)
		}
	}
}

func classGainOf(s *transform.Shots, round int) classGain {
	gain := classGain{key: keyOf(s, int(s.Rounds.From[round]))}
	first, end := s.Rounds.HoleRange(round, &s.Holes)
	for hole := first; hole < end; hole++ {
		if !s.Holes.Complete[hole] || math.IsNaN(s.Holes.StrokesGained[hole]) {
			continue
		}
		gain.holes++
		from, to := s.RowRange(hole)
		for row := from; row < to; row++ {
			gain.gained[s.Class[row]] += s.StrokesGained[row]
			gain.gained[allPlace] += s.StrokesGained[row]
		}
	}
	return gain
}

func (g *classGains) sort() {
	slices.SortFunc(g.rounds, func(a, b classGain) int { return a.key.compare(b.key) })
}

// columns are strokes gained of a class, or all, and holes over 18, by round.
func columns(rounds []classGain, place int) (gained, per18 []float64) {
	gained, per18 = make([]float64, len(rounds)), make([]float64, len(rounds))
	for i := range rounds {
		gained[i], per18[i] = rounds[i].gained[place], float64(rounds[i].holes)/18
	}
	return gained, per18
}

// Rows are the finished rows: players in order, all and then the classes,
// rounds in order.
func (f *TrendFigures) Rows() []Trend {
	return rowsOf(f.players, func(name string, player *classGains) (rows []Trend) {
		player.sort()
		t := distuv.StudentsT{Sigma: 1, Nu: TrendWindow - 1}.Quantile((1 + Level) / 2)
		for _, place := range classPlaces() {
			gained, per18 := columns(player.rounds, place)
			for i, round := range player.rounds {
				from := max(0, i+1-TrendWindow)
				row := Trend{
					Player: name, Class: className(place), Number: int64(i + 1),
					Date: round.key.day(), Course: round.key.course, Round: round.key.round,
					RoundGained: gained[i] / per18[i], WindowRounds: int64(i + 1 - from),
					PerRound: math.NaN(), PerRoundLo: math.NaN(), PerRoundHi: math.NaN(), Baseline: f.options.Baseline,
				}
				for _, in := range player.rounds[from : i+1] {
					row.WindowHoles += int64(in.holes)
				}
				if row.WindowRounds == TrendWindow {
					perRound, standardError, _ := estimate.RatioError(gained[from:i+1], per18[from:i+1])
					row.PerRound, row.PerRoundLo, row.PerRoundHi = perRound, perRound-t*standardError, perRound+t*standardError
				}
				rows = append(rows, row)
			}
		}
		return rows
	})
}

// classPlaces are the places of classGains in the order of the rows.
func classPlaces() []int {
	places := []int{allPlace}
	for class := range allPlace {
		places = append(places, class)
	}
	return places
}

// warnings names the players with too few rounds for a window, or for a
// comparison.
func (f *TrendFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		player := f.players[name]
		player.sort()
		if n := len(player.rounds); n < TrendWindow {
			warnings = append(warnings, Warning{Figure: "trend", Player: name,
				Text: fmt.Sprintf("%d of the %d rounds that a rolling figure is over: none is given", n, TrendWindow)})
		}
		before := f.before(player.rounds)
		if after := len(player.rounds) - before; min(before, after) < leastRounds {
			warnings = append(warnings, Warning{Figure: "trend_change", Player: name,
				Text: fmt.Sprintf("rounds before the split: %d, after it: %d; %d on each side are needed to tell a change from chance", before, after, leastRounds)})
		}
	}
	return warnings
}
