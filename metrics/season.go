package metrics

import (
	"fmt"
	"math"
	"slices"
	"time"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// Season is one row of the table seasons: what one player's log holds, over all
// its rounds. Means are per 18 complete holes, shares over complete holes: of
// those that tell, where a scorecard gives the score of a hole and no more.
type Season struct {
	Player             string    `col:"player" about:"player as named in the log, null when the log names none"`
	From               time.Time `col:"from_date" about:"first day played"`
	To                 time.Time `col:"to_date" about:"last day played"`
	Rounds             int64     `col:"rounds" about:"rounds in the log"`
	Holes              int64     `col:"holes" about:"complete holes"`
	HolesIncomplete    int64     `col:"holes_incomplete" about:"holes left out of scores and strokes gained"`
	Shots              int64     `col:"shots" about:"strokes logged"`
	Score              float64   `col:"score_per_18" unit:"strokes" about:"mean score"`
	ToPar              float64   `col:"to_par_per_18" unit:"strokes" about:"mean score above par"`
	ToParLo            float64   `col:"to_par_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	ToParHi            float64   `col:"to_par_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Putts              float64   `col:"putts_per_18" unit:"strokes" about:"mean strokes from the green"`
	Penalties          float64   `col:"penalties_per_18" unit:"strokes" about:"mean penalty strokes"`
	FairwayShare       float64   `col:"fairway_share" unit:"share" about:"fairways hit off the tee, of holes with one to hit"`
	GreenShare         float64   `col:"green_in_regulation_share" unit:"share" about:"greens in regulation"`
	UpAndDownShare     float64   `col:"up_and_down_share" unit:"share" about:"up and down, of holes with a short-game stroke"`
	BirdiesOrBetter    float64   `col:"birdies_or_better_per_18" about:"holes under par"`
	DoublesOrWorse     float64   `col:"doubles_or_worse_per_18" about:"holes two over par or more"`
	ThreePuttsOrMore   float64   `col:"three_putts_per_18" about:"holes with three putts or more"`
	BestToPar          float64   `col:"best_to_par" unit:"strokes" about:"best complete round of 18 holes, over par"`
	CompleteRoundsOf18 int64     `col:"complete_rounds_of_18" about:"complete rounds of 18 holes"`
	UnderParRoundsOf18 int64     `col:"under_par_rounds_of_18" about:"of these, rounds under par"`
}

// SeasonFigures adds up what every player's log holds.
type SeasonFigures struct {
	options Options
	players byPlayer[roundScores]
}

type roundScores struct{ rounds []roundScore }

// roundScore is the counts of one round, over its complete holes. Some of these
// may be known by their score alone, or by that and their putts or the green.
type roundScore struct {
	key                                    roundKey
	complete                               bool
	shots, holes, incomplete, score, toPar int32
	putts, penalties, greens, threePutts   int32
	fairways, fairwaysHit                  int32
	upAndDowns, upAndDownTries             int32
	birdies, doubles                       int32

	scorecards, puttsKnown, greensKnown, noFairway int32 // holes
}

func newSeasonFigures(options Options) *SeasonFigures {
	return &SeasonFigures{options: options, players: byPlayer[roundScores]{}}
}

// Add adds the rounds of a batch.
func (f *SeasonFigures) Add(s *transform.Shots) {
	for round := range s.Rounds.Len() {
		from := int(s.Rounds.From[round])
		r := roundScore{
			key: keyOf(s, from), complete: s.Rounds.Complete[round],
			holes: s.Rounds.Holes[round], incomplete: s.Rounds.HolesLogged[round] - s.Rounds.Holes[round],
			score: s.Rounds.Score[round], toPar: s.Rounds.Score[round] - s.Rounds.Par[round],
			scorecards: s.Rounds.Scorecards[round],
		}
		first, last := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < last; hole++ {
			r.addHole(s, hole)
		}
		player := f.players.of(s.Player.At(from))
		player.rounds = append(player.rounds, r)
	}
}

func (r *roundScore) addHole(s *transform.Shots, hole int) {
	h := &s.Holes
	r.shots += max(0, h.Strokes[hole])
	if !h.Complete[hole] {
		return
	}
	row, _ := s.RowRange(hole)
	r.penalties += max(0, h.Penalties[hole])
	if putts := h.Putts[hole]; putts >= 0 {
		r.puttsKnown++
		r.putts += putts
	}
	r.fairwaysHit += tally(h.FairwayHit[hole], &r.fairways)
	r.greens += tally(h.GreenInReg[hole], &r.greensKnown)
	r.upAndDowns += tally(h.UpAndDown[hole], &r.upAndDownTries)
	if h.IsScorecard(hole) && h.FairwayHit[hole] == transform.Unknown && s.Par[row] > 3 {
		r.noFairway++
	}
	switch toPar := h.Score[hole] - s.Par[row]; {
	case toPar < 0:
		r.birdies++
	case toPar >= 2:
		r.doubles++
	}
	if h.ThreePutt[hole] == transform.Yes {
		r.threePutts++
	}
}

// tally is 1 for yes, and counts yes and no among the known.
func tally(answer transform.Known, known *int32) int32 {
	if answer == transform.Unknown {
		return 0
	}
	*known++
	return int32(answer)
}

// Rows are the finished rows, players in order.
func (f *SeasonFigures) Rows() []Season {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *roundScores) []Season {
		slices.SortFunc(player.rounds, func(a, b roundScore) int { return a.key.compare(b.key) })
		return []Season{seasonOf(name, player.rounds, draws.of(len(player.rounds)))}
	})
}

func seasonOf(player string, rounds []roundScore, draws *estimate.Resampler) Season {
	total := func(get func(*roundScore) int32) (sum int64) {
		for i := range rounds {
			sum += int64(get(&rounds[i]))
		}
		return sum
	}
	s := Season{
		Player: player, Rounds: int64(len(rounds)), BestToPar: math.NaN(),
		From: rounds[0].key.day(), To: rounds[len(rounds)-1].key.day(),
		Holes:           total(func(r *roundScore) int32 { return r.holes }),
		HolesIncomplete: total(func(r *roundScore) int32 { return r.incomplete }),
		Shots:           total(func(r *roundScore) int32 { return r.shots }),
	}
	per18 := func(get func(*roundScore) int32) float64 { return float64(18*total(get)) / float64(s.Holes) }
	withPutts := total(func(r *roundScore) int32 { return r.puttsKnown })
	withStrokes := s.Holes - total(func(r *roundScore) int32 { return r.scorecards })
	share := func(get, of func(*roundScore) int32) float64 { return float64(total(get)) / float64(total(of)) }
	s.Score = per18(func(r *roundScore) int32 { return r.score })
	s.ToPar = per18(func(r *roundScore) int32 { return r.toPar })
	s.Putts = float64(18*total(func(r *roundScore) int32 { return r.putts })) / float64(withPutts)
	s.Penalties = float64(18*total(func(r *roundScore) int32 { return r.penalties })) / float64(withStrokes)
	s.BirdiesOrBetter = per18(func(r *roundScore) int32 { return r.birdies })
	s.DoublesOrWorse = per18(func(r *roundScore) int32 { return r.doubles })
	s.ThreePuttsOrMore = float64(18*total(func(r *roundScore) int32 { return r.threePutts })) / float64(withPutts)
	s.FairwayShare = share(func(r *roundScore) int32 { return r.fairwaysHit }, func(r *roundScore) int32 { return r.fairways })
	s.GreenShare = share(func(r *roundScore) int32 { return r.greens }, func(r *roundScore) int32 { return r.greensKnown })
	s.UpAndDownShare = share(func(r *roundScore) int32 { return r.upAndDowns }, func(r *roundScore) int32 { return r.upAndDownTries })

	toPar, eighteens := make([]float64, len(rounds)), make([]float64, len(rounds))
	for i, r := range rounds {
		toPar[i], eighteens[i] = float64(r.toPar), float64(r.holes)/18
		if r.complete && r.holes == 18 {
			if s.CompleteRoundsOf18 == 0 || float64(r.toPar) < s.BestToPar {
				s.BestToPar = float64(r.toPar)
			}
			s.CompleteRoundsOf18++
			if r.toPar < 0 {
				s.UnderParRoundsOf18++
			}
		}
	}
	interval := draws.Ratio(toPar, eighteens, Level)
	s.ToParLo, s.ToParHi = interval.Lo, interval.Hi
	return s
}

// warnings names the players whose rounds are too few for intervals, and counts
// what scorecards do not say.
func (f *SeasonFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		if n := len(f.players[name].rounds); n < leastRounds {
			warnings = append(warnings, Warning{Figure: "every interval", Player: name,
				Text: fmt.Sprintf("%d of the %d rounds that an interval needs: none is given", n, leastRounds)})
		}
		if text := f.players[name].scorecardsLeftOut(); text != "" {
			warnings = append(warnings, Warning{Figure: "seasons", Player: name, Text: text})
		}
	}
	return warnings
}

// scorecardsLeftOut counts the holes of scorecards and what is not written there,
// "" without any.
func (p *roundScores) scorecardsLeftOut() string {
	var holes, cards, noPutts, noFairway, noGreen int32
	for i := range p.rounds {
		r := &p.rounds[i]
		holes += r.holes
		cards += r.scorecards
		noPutts += r.holes - r.puttsKnown
		noFairway += r.noFairway
		noGreen += r.holes - r.greensKnown
	}
	if cards == 0 {
		return ""
	}
	text := fmt.Sprintf("holes known by their scorecard alone: %d of %d complete ones; they count in scores, not in strokes gained, penalties, or up and down", cards, holes)
	for _, unsaid := range [...]struct {
		figure string
		n      int32
	}{{"putts", noPutts}, {"fairways", noFairway}, {"greens", noGreen}} {
		if unsaid.n > 0 {
			text += fmt.Sprintf("; left out of %s: %d", unsaid.figure, unsaid.n)
		}
	}
	return text
}
