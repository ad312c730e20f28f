package metrics

import (
	"fmt"
	"math"
	"slices"
	"time"

	"roundmill/transform"
)

// Handicap is one row of the table handicap: one round of one player and the
// Handicap Index after it, by the Rules of Handicapping (World Handicap System,
// R&A and USGA, 2024).
//
// It is an estimate. Only an authorised association issues a Handicap Index: it
// has every acceptable score, also those that are not in the log, the playing
// conditions calculation and peer review, of which nothing is known here.
//
// Complete rounds of 18 holes with a Course Rating and a Slope Rating count; the
// others are listed with the reason in note, and change nothing. Rounds count
// in the order of their days, and a round is played to the index that earlier
// days gave. The lowest index of 365 days is looked for among all of the log,
// those from fewer than 20 scores too.
type Handicap struct {
	Player         string    `col:"player" about:"player as named in the log, null when the log names none"`
	Date           time.Time `col:"date" about:"day played"`
	Course         string    `col:"course" about:"course as named in the log"`
	Tees           string    `col:"tees" about:"tees as named in the log"`
	Round          string    `col:"round" about:"round as named in the log"`
	Holes          int64     `col:"holes" about:"complete holes"`
	Gross          float64   `col:"gross" unit:"strokes" about:"score of a round that is not left out"`
	AdjustedGross  float64   `col:"adjusted_gross" unit:"strokes" about:"score with no hole above its maximum: par + 5 before there is an index, then net double bogey"`
	CourseRating   float64   `col:"course_rating" unit:"strokes" about:"Course Rating as logged"`
	SlopeRating    float64   `col:"slope_rating" about:"Slope Rating as logged"`
	Differential   float64   `col:"differential" unit:"strokes" about:"Score Differential without playing conditions, before any exceptional score reduction"`
	Scores         int64     `col:"scores" about:"scores in the record after the round"`
	Counted        int64     `col:"differentials_counted" about:"how many of the lowest of the last 20 differentials count"`
	IndexBefore    float64   `col:"index_before" unit:"strokes" about:"index that the round was played to, from the scores of earlier days; null before there is one"`
	CourseHandicap float64   `col:"course_handicap" unit:"strokes" about:"Course Handicap at that index"`
	IndexAfter     float64   `col:"index_after" unit:"strokes" about:"estimated Handicap Index after the round, from the third score on"`
	LowIndex       float64   `col:"low_index" unit:"strokes" about:"Low Handicap Index: the lowest index of the 365 days before the day of the round, however few scores it was of; null until there are 20 scores"`
	Cap            string    `col:"cap" about:"soft, hard, or maximum (54.0): what held the index back"`
	Exceptional    float64   `col:"exceptional_reduction" unit:"strokes" about:"what the round, being exceptional, added to each of the last 20 differentials: 0, -1 or -2"`
	Note           string    `col:"note" about:"why the round is left out, or how it was adjusted"`
	Standing       string    `col:"standing" about:"that this is an estimate"`
}

// HandicapStanding stands in every row.
const HandicapStanding = "estimate: only an authorised association issues a Handicap Index"

// HandicapFigures keep the scores by hole of every round.
type HandicapFigures struct {
	players byPlayer[handicapRounds]
}

type handicapRounds struct{ rounds []handicapRound }

type handicapRound struct {
	key                       roundKey
	tees                      string
	courseRating, slopeRating float64
	logged                    int
	complete                  []handicapHole
}

func newHandicapFigures(Options) *HandicapFigures {
	return &HandicapFigures{players: byPlayer[handicapRounds]{}}
}

// Add adds the rounds of a batch.
func (f *HandicapFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		r := handicapRound{
			key: keyOf(s, int(from)), tees: s.RoundTees(round),
			courseRating: s.Rounds.CourseRating[round], slopeRating: s.Rounds.SlopeRating[round],
			logged: int(s.Rounds.HolesLogged[round]), complete: make([]handicapHole, 0, s.Rounds.Holes[round]),
		}
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if s.Holes.Complete[hole] {
				row := s.Holes.From[hole]
				r.complete = append(r.complete, handicapHole{int8(s.Par[row]), int8(s.Holes.Score[hole]), int8(s.StrokeIndexOf(hole))})
			}
		}
		player := f.players.of(s.Player.At(int(from)))
		player.rounds = append(player.rounds, r)
	}
}

func (h *handicapRounds) sort() {
	slices.SortFunc(h.rounds, func(a, b handicapRound) int { return a.key.compare(b.key) })
}

// Rows are the finished rows: players in order, rounds in order.
func (f *HandicapFigures) Rows() []Handicap {
	return rowsOf(f.players, func(name string, player *handicapRounds) (rows []Handicap) {
		player.sort()
		var record scoringRecord
		for i := range player.rounds {
			row := player.rounds[i].post(&record)
			row.Player, row.Standing = name, HandicapStanding
			rows = append(rows, row)
		}
		return rows
	})
}

// Why a round does not count.
const (
	noteIncomplete = "left out, a hole is not complete"
	noteHoles      = "left out, not a round of 18 holes"
	noteRating     = "left out, no course_rating or no slope_rating"
)

// leftOut is why a round does not count, "" when it does.
func (r *handicapRound) leftOut() string {
	switch {
	case r.logged != holesOfHandicap:
		return noteHoles
	case len(r.complete) != r.logged:
		return noteIncomplete
	case math.IsNaN(r.courseRating) || math.IsNaN(r.slopeRating):
		return noteRating
	}
	return ""
}

// noteNoStrokeIndex tells of a round that cannot be adjusted to net double bogey.
const noteNoStrokeIndex = "no stroke_index from 1 to 18, a hole counts up to par + 5"

// post enters a round in the record, when it counts.
func (r *handicapRound) post(record *scoringRecord) Handicap {
	row := Handicap{
		Date: r.key.day(), Course: r.key.course, Tees: r.tees, Round: r.key.round, Holes: int64(len(r.complete)),
		Gross: math.NaN(), AdjustedGross: math.NaN(), CourseRating: r.courseRating, SlopeRating: r.slopeRating,
		Differential: math.NaN(), IndexBefore: math.NaN(), CourseHandicap: math.NaN(), IndexAfter: math.NaN(),
		LowIndex: math.NaN(), Exceptional: math.NaN(), Scores: int64(len(record.differentials)), Note: r.leftOut(),
	}
	if row.Note != "" {
		return row
	}
	course := ratedAs(r.courseRating, r.slopeRating)
	maximum := mostWithoutIndex
	if index, known := record.inForce(r.key.date); known {
		courseHandicap := course.courseHandicap(index, r.par())
		row.IndexBefore, row.CourseHandicap = index.strokes(), float64(courseHandicap)
		if hasStrokeIndexes(r.complete) {
			maximum = mostWithIndex(courseHandicap)
		} else {
			row.Note = noteNoStrokeIndex
		}
	}
	gross, adjusted := adjustedGross(r.complete, maximum)
	differential := course.differential(adjusted)
	p := record.post(r.key.date, differential)
	row.Gross, row.AdjustedGross, row.Differential = float64(gross), float64(adjusted), differential.strokes()
	row.Scores, row.Counted, row.Exceptional, row.Cap = int64(len(record.differentials)), int64(p.counted), 0, p.capped
	if p.reduction > 0 {
		row.Exceptional = (-p.reduction).strokes()
	}
	if p.hasIndex {
		row.IndexAfter = p.index.strokes()
	}
	if p.hasLow {
		row.LowIndex = p.low.strokes()
	}
	return row
}

func (r *handicapRound) par() (par int) {
	for _, hole := range r.complete {
		par += int(hole.par)
	}
	return par
}

// warnings says of every player with an index that it is an estimate, and
// counts the rounds that it leaves out or cannot adjust.
func (f *HandicapFigures) warnings() (warnings []Warning) {
	type noted struct{ player, note string }
	rounds, hasIndex := map[noted]int{}, map[string]bool{}
	for _, row := range f.Rows() {
		rounds[noted{row.Player, row.Note}]++
		hasIndex[row.Player] = hasIndex[row.Player] || !math.IsNaN(row.IndexAfter)
	}
	for _, name := range f.players.names() {
		warn := func(text string) {
			warnings = append(warnings, Warning{Figure: "handicap", Player: name, Text: text})
		}
		if hasIndex[name] {
			warn(HandicapStanding)
		}
		for _, note := range [...]string{noteIncomplete, noteHoles, noteRating, noteNoStrokeIndex} {
			if n := rounds[noted{name, note}]; n > 0 {
				warn(fmt.Sprintf("handicap, %s: %d of %d rounds", note, n, len(f.players[name].rounds)))
			}
		}
	}
	return warnings
}
