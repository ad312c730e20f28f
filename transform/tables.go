package transform

import (
	"math"
	"sync"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"

	"roundmill/ingest"
)

// Schemas of the three tables that the stage emits. Every field carries its
// unit and meaning as metadata.
var (
	ShotsSchema  = sync.OnceValue(func() *arrow.Schema { return schemaOf(shotColumns) })
	HolesSchema  = sync.OnceValue(func() *arrow.Schema { return schemaOf(holeColumns) })
	RoundsSchema = sync.OnceValue(func() *arrow.Schema { return schemaOf(roundColumns) })
)

// ShotsRecord is the batch as rows of the shots table.
func (s *Shots) ShotsRecord() arrow.RecordBatch {
	return recordOf(shotColumns, ShotsSchema(), s, s.N)
}

// HolesRecord is the batch's holes as rows of the holes table.
func (s *Shots) HolesRecord() arrow.RecordBatch {
	return recordOf(holeColumns, HolesSchema(), s, s.Holes.Len())
}

// RoundsRecord is the batch's rounds as rows of the rounds table.
func (s *Shots) RoundsRecord() arrow.RecordBatch {
	return recordOf(roundColumns, RoundsSchema(), s, s.Rounds.Len())
}

func emptyBatch() *ingest.Batch {
	empty := array.NewRecordBuilder(memory.DefaultAllocator, ingest.RawSchema)
	return &ingest.Batch{Record: empty.NewRecordBatch()}
}

var classList = classNames[:]

var categoryList = func() []string {
	list := make([]string, ingest.CategoryCount)
	for c := range ingest.CategoryCount {
		list[c] = c.String()
	}
	return list
}()

func categories(values []ingest.Category) arrow.Array {
	return dictionary(len(values), categoryList, func(i int) int32 {
		if values[i] == ingest.NoCategory {
			return -1
		}
		return int32(values[i])
	})
}

var shotColumns = []column{
	{"season", "", "year of the date", func(s *Shots) arrow.Array { return integers(s.Season, always) }},
	{"date", "", "day played", func(s *Shots) arrow.Array { return dates(s.Date) }},
	{"player", "", "as named in the log", func(s *Shots) arrow.Array { return wordColumn(s.Player) }},
	{"course", "", "as named in the log", func(s *Shots) arrow.Array { return wordColumn(s.Course) }},
	{"tees", "", "as named in the log", func(s *Shots) arrow.Array { return wordColumn(s.Tees) }},
	{"round", "", "as named in the log", func(s *Shots) arrow.Array { return wordColumn(s.Round) }},
	{"hole", "", "number of the hole, 1 to 36", func(s *Shots) arrow.Array { return integers(s.Hole, always) }},
	{"par", "strokes", "par of the hole", func(s *Shots) arrow.Array { return integers(s.Par, always) }},
	{"hole_length_yd", "yd", "length of the hole; else the first distance to the hole", func(s *Shots) arrow.Array { return numbers(s.HoleLengthYd) }},
	{"stroke_index", "", "order of difficulty, 1 to 18", func(s *Shots) arrow.Array {
		return integers(s.StrokeIndex, func(i int) bool { return s.StrokeIndex[i] > 0 })
	}},
	{"shot", "", "number of the stroke in the hole, as logged", func(s *Shots) arrow.Array { return integers(s.Shot, always) }},
	{"lie", "", "where the ball lay, as written", func(s *Shots) arrow.Array { return wordColumn(s.Lie) }},
	{"lie_category", "", "tee, fairway, rough, sand, recovery or green", func(s *Shots) arrow.Array { return categories(s.Category) }},
	{"to_hole_yd", "yd", "distance to the hole before the stroke", func(s *Shots) arrow.Array { return numbers(s.ToHoleYd) }},
	{"club", "", "club in one spelling", func(s *Shots) arrow.Array { return wordColumn(s.Club) }},
	{"finish_yd", "yd", "distance to the hole after the stroke; after a penalty where play resumed; 0 when holed", func(s *Shots) arrow.Array { return numbers(s.FinishYd) }},
	{"finish_lie", "", "where the stroke finished, as written", func(s *Shots) arrow.Array { return wordColumn(s.FinishLie) }},
	{"finish_category", "", "lie category after the stroke, or holed", func(s *Shots) arrow.Array { return categories(s.FinishCategory) }},
	{"proximity_ft", "ft", "distance from the hole of a stroke that came to rest in play", func(s *Shots) arrow.Array { return numbers(s.ProximityFt) }},
	{"shot_class", "", "tee shot, approach, short game or putt", func(s *Shots) arrow.Array {
		return dictionary(s.N, classList, func(i int) int32 { return int32(s.Class[i]) })
	}},
	{"at_green", "", "an approach that could reach and was meant to", func(s *Shots) arrow.Array {
		return booleans(s.N, func(i int) bool { return s.AtGreen[i] }, always)
	}},
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
	{"penalty", "strokes", "penalty strokes that the stroke caused", func(s *Shots) arrow.Array { return integers(s.Penalty, always) }},
	{"penalty_kind", "", "penalty area, out of bounds, lost ball, unplayable or other", func(s *Shots) arrow.Array { return wordColumn(s.PenaltyKind) }},
	{"long_yd", "yd", "miss from the hole along the line of play, long is positive", func(s *Shots) arrow.Array { return numbers(s.LongYd) }},
	{"right_yd", "yd", "miss from the hole across the line of play, right is positive", func(s *Shots) arrow.Array { return numbers(s.RightYd) }},
	{"plays_like_yd", "yd", "to_hole_yd with wind and slope; null where neither is logged", func(s *Shots) arrow.Array { return numbers(s.PlaysLikeYd) }},
	{"short_sided", "", "missed the green on the side or at the depth where the hole is cut", func(s *Shots) arrow.Array { return answers(s.ShortSided, always) }},
	{"intent", "", "attack, safe, lay up or get out", func(s *Shots) arrow.Array { return wordColumn(s.Intent) }},
	{"fault", "", "decision or execution, the player's own verdict", func(s *Shots) arrow.Array { return wordColumn(s.Fault) }},
	{"headwind_mph", "mph", "wind into the shot is positive", func(s *Shots) arrow.Array { return numbers(s.HeadwindMph) }},
	{"crosswind_mph", "mph", "wind from the left is positive", func(s *Shots) arrow.Array { return numbers(s.CrosswindMph) }},
	{"elevation_yd", "yd", "climb to the target, uphill is positive", func(s *Shots) arrow.Array { return numbers(s.ElevationYd) }},
	{"putt_slope", "", "uphill, level or downhill", func(s *Shots) arrow.Array { return wordColumn(s.PuttSlope) }},
	{"putt_break", "", "left to right, straight or right to left", func(s *Shots) arrow.Array { return wordColumn(s.PuttBreak) }},
	{"pin_side", "", "where the hole is cut: left, centre or right", func(s *Shots) arrow.Array { return wordColumn(s.PinSide) }},
	{"pin_depth", "", "where the hole is cut: front, middle or back", func(s *Shots) arrow.Array { return wordColumn(s.PinDepth) }},
	{"holed", "", "the stroke finished in the hole", func(s *Shots) arrow.Array {
		return booleans(s.N, func(i int) bool { return s.Holed[i] }, always)
	}},
	{"hole_complete", "", "every stroke of the hole is logged, to the last", func(s *Shots) arrow.Array {
		return booleans(s.N, func(i int) bool { return s.HoleComplete[i] }, always)
	}},
	{"note", "", "as written", func(s *Shots) arrow.Array { return wordColumn(s.Note) }},
	{"source_file", "", "file of the record", func(s *Shots) arrow.Array { return wordColumn(s.SourceFile) }},
	{"source_line", "", "line of the record", func(s *Shots) arrow.Array { return integers(s.SourceLine, always) }},
	{"aim_long_short_yd", "yd", "target beyond (+) or short of the hole", func(s *Shots) arrow.Array { return numbers(s.AimLongYd) }},
	{"aim_left_right_yd", "yd", "target right (+) or left of the hole", func(s *Shots) arrow.Array { return numbers(s.AimRightYd) }},
	{"green_depth_yd", "yd", "depth of the green played to", func(s *Shots) arrow.Array { return numbers(s.GreenDepth) }},
	{"green_width_yd", "yd", "width of the green played to", func(s *Shots) arrow.Array { return numbers(s.GreenWide) }},
	{"course_rating", "strokes", "course rating of the tees", func(s *Shots) arrow.Array { return numbers(s.CourseRating) }},
	{"slope_rating", "", "slope rating of the tees, 55 to 155", func(s *Shots) arrow.Array { return numbers(s.SlopeRating) }},
}

// ofHole is a column that a hole takes from its first row.
func ofHole[V any](get func(*Shots) []V, build func([]V) arrow.Array) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array { return build(at(get(s), s.Holes.From)) }
}

func plainIntegers(values []int32) arrow.Array { return integers(values, always) }

func completeAnswers(get func(*Holes) []Known) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array {
		return answers(get(&s.Holes), func(i int) bool { return s.Holes.Complete[i] })
	}
}

var holeColumns = []column{
	{"season", "", "year of the date", ofHole(func(s *Shots) []int32 { return s.Season }, plainIntegers)},
	{"date", "", "day played", ofHole(func(s *Shots) []int32 { return s.Date }, dates)},
	{"player", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Player, s.Holes.From) }},
	{"course", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Course, s.Holes.From) }},
	{"round", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Round, s.Holes.From) }},
	{"hole", "", "number of the hole, 1 to 36", ofHole(func(s *Shots) []int32 { return s.Hole }, plainIntegers)},
	{"par", "strokes", "par of the hole", ofHole(func(s *Shots) []int32 { return s.Par }, plainIntegers)},
	{"hole_length_yd", "yd", "length of the hole", func(s *Shots) arrow.Array { return numbers(s.Holes.LengthYd) }},
	{"strokes", "strokes", "strokes logged", func(s *Shots) arrow.Array { return integers(s.Holes.Strokes, always) }},
	{"penalties", "strokes", "penalty strokes logged", func(s *Shots) arrow.Array { return integers(s.Holes.Penalties, always) }},
	{"score", "strokes", "strokes and penalties; null where the hole is not complete", func(s *Shots) arrow.Array {
		return integers(s.Holes.Score, func(i int) bool { return s.Holes.Complete[i] })
	}},
	{"putts", "strokes", "strokes from the green; null where the hole is not complete", func(s *Shots) arrow.Array {
		return integers(s.Holes.Putts, func(i int) bool { return s.Holes.Complete[i] })
	}},
	{"fairway_hit", "", "tee shot of a par 4 or more finished on the fairway or the green", completeAnswers(func(h *Holes) []Known { return h.FairwayHit })},
	{"green_in_regulation", "", "on the green in par - 2 strokes or fewer, penalties counted", completeAnswers(func(h *Holes) []Known { return h.GreenInReg })},
	{"up_and_down", "", "two strokes or fewer from the first short-game stroke", completeAnswers(func(h *Holes) []Known { return h.UpAndDown })},
	{"sand_save", "", "two strokes or fewer from the first short-game stroke from sand", completeAnswers(func(h *Holes) []Known { return h.SandSave })},
	{"three_putt", "", "three putts or more", completeAnswers(func(h *Holes) []Known { return h.ThreePutt })},
	{"strokes_gained", "strokes", "sum over the hole; null where it is not complete", func(s *Shots) arrow.Array {
		return fixed(arrow.PrimitiveTypes.Float64, s.Holes.StrokesGained, func(i int) bool {
			return s.Holes.Complete[i] && s.Holes.StrokesGained[i] == s.Holes.StrokesGained[i]
		})
	}},
	{"hole_complete", "", "every stroke is logged, to the last", func(s *Shots) arrow.Array {
		return booleans(s.Holes.Len(), func(i int) bool { return s.Holes.Complete[i] }, always)
	}},
}

// ofRound is a column that a round takes from its first row.
func ofRound[V any](get func(*Shots) []V, build func([]V) arrow.Array) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array { return build(at(get(s), s.Rounds.From)) }
}

func roundTotal(get func(*Rounds) []int32) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array { return integers(get(&s.Rounds), always) }
}

var roundColumns = append([]column{
	{"season", "", "year of the date", ofRound(func(s *Shots) []int32 { return s.Season }, plainIntegers)},
	{"date", "", "day played", ofRound(func(s *Shots) []int32 { return s.Date }, dates)},
	{"player", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Player, s.Rounds.From) }},
	{"course", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Course, s.Rounds.From) }},
	{"tees", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Tees, s.Rounds.From) }},
	{"round", "", "as named in the log", func(s *Shots) arrow.Array { return wordsAt(s.Round, s.Rounds.From) }},
	{"holes", "", "complete holes; what follows is over these", roundTotal(func(r *Rounds) []int32 { return r.Holes })},
	{"holes_logged", "", "holes with at least one shot", roundTotal(func(r *Rounds) []int32 { return r.HolesLogged })},
	{"par", "strokes", "sum of par", roundTotal(func(r *Rounds) []int32 { return r.Par })},
	{"score", "strokes", "strokes and penalties", roundTotal(func(r *Rounds) []int32 { return r.Score })},
	{"to_par", "strokes", "score - par", func(s *Shots) arrow.Array {
		toPar := make([]int32, s.Rounds.Len())
		for i := range toPar {
			toPar[i] = s.Rounds.Score[i] - s.Rounds.Par[i]
		}
		return integers(toPar, always)
	}},
	{"putts", "strokes", "strokes from the green", roundTotal(func(r *Rounds) []int32 { return r.Putts })},
	{"fairways_hit", "", "fairways hit off the tee", roundTotal(func(r *Rounds) []int32 { return r.FairwaysHit })},
	{"fairways", "", "holes with a fairway to hit", roundTotal(func(r *Rounds) []int32 { return r.Fairways })},
	{"greens_in_regulation", "", "greens hit in par - 2 strokes or fewer", roundTotal(func(r *Rounds) []int32 { return r.Greens })},
	{"penalties", "strokes", "penalty strokes", roundTotal(func(r *Rounds) []int32 { return r.Penalties })},
	{"strokes_gained", "strokes", "sum over complete holes", func(s *Shots) arrow.Array { return numbers(s.Rounds.StrokesGained) }},
}, append(classColumns(),
	column{"complete", "", "every hole is complete, and there are 9, 18, 27 or 36", func(s *Shots) arrow.Array {
		return booleans(s.Rounds.Len(), func(i int) bool { return s.Rounds.Complete[i] }, always)
	}},
	column{"course_rating", "strokes", "course rating of the tees", ofRound(func(s *Shots) []float64 { return s.CourseRating }, numbers)},
	column{"slope_rating", "", "slope rating of the tees", ofRound(func(s *Shots) []float64 { return s.SlopeRating }, numbers)},
)...)

func classColumns() (columns []column) {
	for class, name := range [ClassCount]string{"tee_shot", "approach", "short_game", "putt"} {
		columns = append(columns, column{"strokes_gained_" + name, "strokes", "of that, by " + classNames[class] + "s",
			func(s *Shots) arrow.Array { return numbers(s.Rounds.ByClass[class]) }})
	}
	return columns
}
