package transform

import (
	"math"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"

	"roundmill/ingest"
)

// load reads the raw columns. A column without nulls is used as it stands, one
// of nothing but nulls shares its emptiness with the others, the rest are
// copied with NaN, -1 or 0 where the value is absent. None may be written to.
func load(raw arrow.RecordBatch) *Shots {
	s := &Shots{N: int(raw.NumRows()), raw: raw}
	noWords := repeated(int32(-1), s.N)
	for name, into := range map[string]*Words{
		"player": &s.Player, "course": &s.Course, "tees": &s.Tees, "round": &s.Round, "lie": &s.Lie, "club": &s.Club,
		"finish_lie": &s.FinishLie, "pin_side": &s.PinSide, "pin_depth": &s.PinDepth, "putt_slope": &s.PuttSlope,
		"putt_break": &s.PuttBreak, "penalty_kind": &s.PenaltyKind, "intent": &s.Intent, "fault": &s.Fault,
		"note": &s.Note, ingest.SourceFile: &s.SourceFile,
	} {
		*into = words(rawColumn(raw, name).(*array.Dictionary), noWords)
	}
	noIntegers := make([]int32, s.N)
	for name, into := range map[string]*[]int32{
		"hole": &s.Hole, "par": &s.Par, "stroke_index": &s.StrokeIndex, "shot": &s.Shot, "penalty": &s.Penalty,
		ingest.SourceLine: &s.SourceLine, ingest.HoleState: &s.holeState,
	} {
		integers := rawColumn(raw, name).(*array.Int32)
		*into = filled(integers, integers.Int32Values(), 0, noIntegers)
	}
	noNumbers := repeated(math.NaN(), s.N)
	for name, into := range map[string]*[]float64{
		"course_rating": &s.CourseRating, "slope_rating": &s.SlopeRating, "hole_length_yd": &s.HoleLengthYd,
		"to_hole_yd": &s.ToHoleYd, "left_yd": &s.left, "long_short_yd": &s.longShort, "left_right_yd": &s.leftRight,
		"aim_long_short_yd": &s.AimLongYd, "aim_left_right_yd": &s.AimRightYd,
		"headwind_mph": &s.HeadwindMph, "crosswind_mph": &s.CrosswindMph, "elevation_yd": &s.ElevationYd,
		"green_depth_yd": &s.GreenDepth, "green_width_yd": &s.GreenWide,
		"lat_deg": &s.latitude, "lon_deg": &s.longitude, "hole_lat_deg": &s.holeLatitude, "hole_lon_deg": &s.holeLongitude,
		"x_yd": &s.localX, "y_yd": &s.localY, "hole_x_yd": &s.holeX, "hole_y_yd": &s.holeY,
	} {
		numbers := rawColumn(raw, name).(*array.Float64)
		*into = filled(numbers, numbers.Float64Values(), math.NaN(), noNumbers)
	}
	notSaid := repeated(int32(-1), s.N)
	for name, into := range map[string]*[]int32{"score": &s.score, "putts": &s.putts} {
		integers := rawColumn(raw, name).(*array.Int32)
		*into = filled(integers, integers.Int32Values(), -1, notSaid)
	}
	days := rawColumn(raw, "date").(*array.Date32)
	s.Date = make([]int32, s.N)
	for row, day := range days.Date32Values() {
		s.Date[row] = int32(day)
	}
	for name, into := range map[string]*[]Known{"holed": &s.holedAsLogged, "fairway": &s.fairway, "green": &s.green} {
		written := rawColumn(raw, name).(*array.Boolean)
		*into = repeated(Unknown, s.N)
		for row := range s.N {
			if written.IsValid(row) {
				(*into)[row] = known(written.Value(row))
			}
		}
	}
	return s
}

func rawColumn(raw arrow.RecordBatch, name string) arrow.Array {
	return raw.Column(raw.Schema().FieldIndices(name)[0])
}

func repeated[V any](value V, n int) []V {
	values := make([]V, n)
	for i := range values {
		values[i] = value
	}
	return values
}

// filled is the values of a column with absent in place of nulls; nothing is
// what that makes of a column of nulls.
func filled[V any](column arrow.Array, values []V, absent V, nothing []V) []V {
	switch column.NullN() {
	case 0:
		return values
	case len(values):
		return nothing
	}
	present, from := column.NullBitmapBytes(), column.Data().Offset()
	complete := make([]V, len(values))
	for row, value := range values {
		if bit := from + row; present[bit>>3]>>(bit&7)&1 == 0 {
			value = absent
		}
		complete[row] = value
	}
	return complete
}

func words(column *array.Dictionary, nothing []int32) Words {
	codes := column.Indices().(*array.Int32)
	list := column.Dictionary().(*array.String)
	w := Words{Codes: filled(column, codes.Int32Values(), -1, nothing), List: make([]string, list.Len()), list: list}
	for code := range w.List {
		w.List[code] = list.Value(code)
	}
	return w
}

// spelled are the words in another spelling.
func (w Words) spelled(by func(word string) string) Words {
	list := make([]string, len(w.List))
	for code, word := range w.List {
		list[code] = by(word)
	}
	return Words{Codes: w.Codes, List: list}
}

// categories puts every row's word into a category, each word once.
func (w Words) categories(of func(word string) ingest.Category) []ingest.Category {
	ofCode := make([]ingest.Category, len(w.List))
	for code, word := range w.List {
		ofCode[code] = of(word)
	}
	rows := make([]ingest.Category, len(w.Codes))
	for row, code := range w.Codes {
		if code >= 0 {
			rows[row] = ofCode[code]
		}
	}
	return rows
}
