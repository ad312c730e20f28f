package transform

import (
	"math"
	"slices"
	"sync"

	"github.com/apache/arrow-go/v18/arrow"
)

// Schemas of the three tables that the stage emits. Every field carries its
// unit and meaning as metadata.
var (
	ShotsSchema  = sync.OnceValue(func() *arrow.Schema { return schemaOf(shotColumns) })
	HolesSchema  = sync.OnceValue(func() *arrow.Schema { return schemaOf(holeColumns) })
	RoundsSchema = sync.OnceValue(func() *arrow.Schema { return schemaOf(roundColumns) })
)

// ShotsRecord is the strokes of the batch as rows of the shots table.
func (s *Shots) ShotsRecord() arrow.RecordBatch {
	return recordOf(shotColumns, ShotsSchema(), s.strokes, s.strokes.N)
}

// HolesRecord is the batch's holes as rows of the holes table.
func (s *Shots) HolesRecord() arrow.RecordBatch {
	return recordOf(holeColumns, HolesSchema(), s, s.Holes.Len())
}

// RoundsRecord is the batch's rounds as rows of the rounds table.
func (s *Shots) RoundsRecord() arrow.RecordBatch {
	return recordOf(roundColumns, RoundsSchema(), s, s.Rounds.Len())
}

var shotColumns = []column{
	{"season", "", "year of the date", func(s *Shots) arrow.Array { return integers(s.Season) }},
	{"date", "", "day played", logged("date")},
	{"player", "", "as named in the log", logged("player")},
	{"course", "", "as named in the log", logged("course")},
	{"tees", "", "as named in the log", logged("tees")},
	{"round", "", "as named in the log", logged("round")},
	{"hole", "", "number of the hole, 1 to 36", logged("hole")},
	{"par", "strokes", "par of the hole", logged("par")},
	{"hole_length_yd", "yd", "length of the hole; else the first distance to the hole", func(s *Shots) arrow.Array { return numbers(s.HoleLengthYd) }},
	{"stroke_index", "", "order of difficulty, 1 to 18", logged("stroke_index")},
	{"shot", "", "number of the stroke in the hole, as logged", logged("shot")},
	{"lie", "", "where the ball lay, as written", logged("lie")},
	{"lie_category", "", "tee, fairway, rough, sand, recovery or green", func(s *Shots) arrow.Array { return categories(s.Category) }},
	{"to_hole_yd", "yd", "distance to the hole before the stroke", func(s *Shots) arrow.Array { return numbers(s.ToHoleYd) }},
	{"club", "", "club in one spelling", logged("club")},
	{"finish_yd", "yd", "distance to the hole after the stroke; after a penalty where play resumed; 0 when holed", func(s *Shots) arrow.Array { return numbers(s.FinishYd) }},
	{"finish_lie", "", "where the stroke finished, as written", logged("finish_lie")},
	{"finish_category", "", "lie category after the stroke, or holed", func(s *Shots) arrow.Array { return categories(s.FinishCategory) }},
	{"proximity_ft", "ft", "distance from the hole of a stroke that came to rest in play", func(s *Shots) arrow.Array { return numbers(s.ProximityFt) }},
	{"shot_class", "", "tee shot (par 4 or longer), approach (the tee of a par 3 among them), short game or putt", func(s *Shots) arrow.Array { return classes(s.Class) }},
	{"at_green", "", "an approach that could reach and was meant to", func(s *Shots) arrow.Array { return booleans(s.AtGreen) }},
	{"band_from_yd", "yd", "lower edge of the yardage band of to_hole_yd", func(s *Shots) arrow.Array {
		from := make([]float64, s.N)
		for i, band := range s.Band {
			from[i] = math.NaN()
			if band >= 0 {
				from[i] = s.BandsYd[band]
			}
		}
		return numbers(from)
	}},
	{"expected_before", "strokes", "baseline strokes to hole out before the stroke", func(s *Shots) arrow.Array { return numbers(s.ExpectedBefore) }},
	{"expected_after", "strokes", "baseline strokes to hole out after the stroke", func(s *Shots) arrow.Array { return numbers(s.ExpectedAfter) }},
	{"strokes_gained", "strokes", "expected_before - expected_after - 1 - penalty", func(s *Shots) arrow.Array { return numbers(s.StrokesGained) }},
	{"penalty", "strokes", "penalty strokes that the stroke caused", func(s *Shots) arrow.Array { return integers(s.Penalty) }},
	{"penalty_kind", "", "penalty area, out of bounds, lost ball, unplayable or other", logged("penalty_kind")},
	{"long_yd", "yd", "miss from the hole along the line of play, long is positive", func(s *Shots) arrow.Array { return numbers(s.LongYd) }},
	{"right_yd", "yd", "miss from the hole across the line of play, right is positive", func(s *Shots) arrow.Array { return numbers(s.RightYd) }},
	{"plays_like_yd", "yd", "to_hole_yd with wind and slope; null where neither is logged", func(s *Shots) arrow.Array { return numbers(s.PlaysLikeYd) }},
	{"short_sided", "", "missed the green on the side where the hole is cut, or at that depth, whichever of the two it missed by more, either where they are equal; null where that one is not logged", func(s *Shots) arrow.Array { return answers(s.ShortSided) }},
	{"intent", "", "attack, safe, lay up or get out", logged("intent")},
	{"fault", "", "decision or execution, the player's own verdict", logged("fault")},
	{"headwind_mph", "mph", "wind into the shot is positive", logged("headwind_mph")},
	{"crosswind_mph", "mph", "wind from the left is positive", logged("crosswind_mph")},
	{"elevation_yd", "yd", "climb to the target, uphill is positive", logged("elevation_yd")},
	{"putt_slope", "", "uphill, level or downhill", logged("putt_slope")},
	{"putt_break", "", "left to right, straight or right to left", logged("putt_break")},
	{"pin_side", "", "where the hole is cut: left, centre or right", logged("pin_side")},
	{"pin_depth", "", "where the hole is cut: front, middle or back", logged("pin_depth")},
	{"holed", "", "the stroke finished in the hole", func(s *Shots) arrow.Array { return booleans(s.Holed) }},
	{"hole_complete", "", "every stroke of the hole is logged, to the last", func(s *Shots) arrow.Array { return booleans(s.HoleComplete) }},
	{"note", "", "as written", logged("note")},
	{"source_file", "", "file of the record", logged("source_file")},
	{"source_line", "", "line of the record", logged("source_line")},
	{"aim_long_short_yd", "yd", "target beyond (+) or short of the hole", logged("aim_long_short_yd")},
	{"aim_left_right_yd", "yd", "target right (+) or left of the hole", logged("aim_left_right_yd")},
	{"green_depth_yd", "yd", "depth of the green played to", logged("green_depth_yd")},
	{"green_width_yd", "yd", "width of the green played to", logged("green_width_yd")},
	{"course_rating", "strokes", "course rating of the tees", logged("course_rating")},
	{"slope_rating", "", "slope rating of the tees, 55 to 155", logged("slope_rating")},
}

// ofHole is a column that a hole takes from its first row.
func ofHole[V any](get func(*Shots) []V, build func([]V) arrow.Array) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array { return build(at(get(s), s.Holes.From)) }
}

// whereComplete is values of holes, absent where the hole is not complete.
func whereComplete[V any](h *Holes, values []V, absent V) []V {
	masked := make([]V, len(values))
	for hole, complete := range h.Complete {
		masked[hole] = absent
		if complete {
			masked[hole] = values[hole]
		}
	}
	return masked
}

func completeAnswers(get func(*Holes) []Known) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array { return answers(whereComplete(&s.Holes, get(&s.Holes), Unknown)) }
}

var holeColumns = []column{
	{"season", "", "year of the date", ofHole(func(s *Shots) []int32 { return s.Season }, integers)},
	{"date", "", "day played", ofHole(func(s *Shots) []int32 { return s.Date }, dates)},
	{"player", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Player, s.Holes.From) }},
	{"course", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Course, s.Holes.From) }},
	{"round", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Round, s.Holes.From) }},
	{"hole", "", "number of the hole, 1 to 36", ofHole(func(s *Shots) []int32 { return s.Hole }, integers)},
	{"par", "strokes", "par of the hole", ofHole(func(s *Shots) []int32 { return s.Par }, integers)},
	{"hole_length_yd", "yd", "length of the hole", func(s *Shots) arrow.Array { return numbers(s.Holes.LengthYd) }},
	{"strokes", "strokes", "strokes logged; null where only the score is known, from a scorecard", func(s *Shots) arrow.Array { return integersKnown(s.Holes.Strokes) }},
	{"penalties", "strokes", "penalty strokes logged; null where only the score is known", func(s *Shots) arrow.Array { return integersKnown(s.Holes.Penalties) }},
	{"score", "strokes", "strokes and penalties; null where the hole is not complete", func(s *Shots) arrow.Array { return integersWhere(s.Holes.Complete, s.Holes.Score) }},
	{"putts", "strokes", "strokes from the green; null where the hole is not complete or its scorecard does not say", func(s *Shots) arrow.Array {
		return integersKnown(whereComplete(&s.Holes, s.Holes.Putts, -1))
	}},
	{"fairway_hit", "", "tee shot of a par 4 or more finished on the fairway or the green", completeAnswers(func(h *Holes) []Known { return h.FairwayHit })},
	{"green_in_regulation", "", "on the green in par - 2 strokes or fewer, penalties counted", completeAnswers(func(h *Holes) []Known { return h.GreenInReg })},
	{"up_and_down", "", "two strokes or fewer from the first short-game stroke", completeAnswers(func(h *Holes) []Known { return h.UpAndDown })},
	{"sand_save", "", "two strokes or fewer from the first short-game stroke from sand", completeAnswers(func(h *Holes) []Known { return h.SandSave })},
	{"three_putt", "", "three putts or more", completeAnswers(func(h *Holes) []Known { return h.ThreePutt })},
	{"strokes_gained", "strokes", "sum over the hole; null where it is not complete or a stroke is not known", func(s *Shots) arrow.Array {
		return numbers(whereComplete(&s.Holes, s.Holes.StrokesGained, math.NaN()))
	}},
	{"hole_complete", "", "every stroke is logged, to the last, or the score is", func(s *Shots) arrow.Array { return booleans(s.Holes.Complete) }},
}

// ofRound is a column that a round takes from its first row.
func ofRound[V any](get func(*Shots) []V, build func([]V) arrow.Array) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array { return build(at(get(s), s.Rounds.From)) }
}

func roundTotal(get func(*Rounds) []int32) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array { return integers(get(&s.Rounds)) }
}

// scored is a total over the complete holes of a round, null where it has none
// or a hole does not say.
func scored(get func(*Rounds) []int32) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array {
		present := s.Rounds.scored()
		for round, total := range get(&s.Rounds) {
			present[round] = present[round] && total >= 0
		}
		return integersWhere(present, get(&s.Rounds))
	}
}

// gainedBy is strokes gained of rounds, null where there is no complete hole.
func gainedBy(get func(*Rounds) []float64) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array {
		gained := slices.Clone(get(&s.Rounds))
		for round, any := range s.Rounds.scored() {
			if !any {
				gained[round] = math.NaN()
			}
		}
		return numbers(gained)
	}
}

var roundColumns = append([]column{
	{"season", "", "year of the date", ofRound(func(s *Shots) []int32 { return s.Season }, integers)},
	{"date", "", "day played", ofRound(func(s *Shots) []int32 { return s.Date }, dates)},
	{"player", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Player, s.Rounds.From) }},
	{"course", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Course, s.Rounds.From) }},
	{"tees", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Tees, s.Rounds.TeesRow) }},
	{"round", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Round, s.Rounds.From) }},
	{"holes", "", "complete holes; what follows is over these", roundTotal(func(r *Rounds) []int32 { return r.Holes })},
	{"holes_logged", "", "holes in the log", roundTotal(func(r *Rounds) []int32 { return r.HolesLogged })},
	{"par", "strokes", "sum of par", scored(func(r *Rounds) []int32 { return r.Par })},
	{"score", "strokes", "strokes and penalties", scored(func(r *Rounds) []int32 { return r.Score })},
	{"to_par", "strokes", "score - par", func(s *Shots) arrow.Array {
		toPar := make([]int32, s.Rounds.Len())
		for i := range toPar {
			toPar[i] = s.Rounds.Score[i] - s.Rounds.Par[i]
		}
		return integersWhere(s.Rounds.scored(), toPar)
	}},
	{"putts", "strokes", "strokes from the green; null where a scorecard does not say", scored(func(r *Rounds) []int32 { return r.Putts })},
	{"fairways_hit", "", "fairways hit off the tee", scored(func(r *Rounds) []int32 { return r.FairwaysHit })},
	{"fairways", "", "holes with a fairway to hit", scored(func(r *Rounds) []int32 { return r.Fairways })},
	{"greens_in_regulation", "", "greens hit in par - 2 strokes or fewer; null where a scorecard does not say", scored(func(r *Rounds) []int32 { return r.Greens })},
	{"penalties", "strokes", "penalty strokes; null where a hole is known from a scorecard alone", scored(func(r *Rounds) []int32 { return r.Penalties })},
	{"strokes_gained", "strokes", "sum over complete holes; null where that of one is not known", gainedBy(func(r *Rounds) []float64 { return r.StrokesGained })},
}, append(classColumns(),
	column{"complete", "", "every hole is complete, and there are 9, 18, 27 or 36", func(s *Shots) arrow.Array { return booleans(s.Rounds.Complete) }},
	column{"course_rating", "strokes", "course rating of the tees", func(s *Shots) arrow.Array { return numbers(s.Rounds.CourseRating) }},
	column{"slope_rating", "", "slope rating of the tees", func(s *Shots) arrow.Array { return numbers(s.Rounds.SlopeRating) }},
)...)

func classColumns() (columns []column) {
	for class, name := range [ClassCount]string{"tee_shot", "approach", "short_game", "putt"} {
		columns = append(columns, column{"strokes_gained_" + name, "strokes", "of that, " + classNames[class],
			gainedBy(func(r *Rounds) []float64 { return r.ByClass[class] })})
	}
	return columns
}
