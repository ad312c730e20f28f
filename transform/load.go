package transform

import (
	"math"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"

	"roundmill/ingest"
)

// load reads the raw columns. A column without nulls is used as it stands, the
// others are copied with NaN, -1 or 0 where the value is absent.
func load(raw arrow.RecordBatch) *Shots {
	s := &Shots{N: int(raw.NumRows())}
	for name, into := range map[string]*Words{
		"player": &s.Player, "course": &s.Course, "tees": &s.Tees, "round": &s.Round, "lie": &s.Lie, "club": &s.Club,
		"finish_lie": &s.FinishLie, "pin_side": &s.PinSide, "pin_depth": &s.PinDepth, "putt_slope": &s.PuttSlope,
		"putt_break": &s.PuttBreak, "penalty_kind": &s.PenaltyKind, "intent": &s.Intent, "fault": &s.Fault,
		"note": &s.Note, ingest.SourceFile: &s.SourceFile,
	} {
		*into = words(rawColumn(raw, name).(*array.Dictionary))
	}
	for name, into := range map[string]*[]int32{
		"hole": &s.Hole, "par": &s.Par, "stroke_index": &s.StrokeIndex, "shot": &s.Shot, "penalty": &s.Penalty,
		ingest.SourceLine: &s.SourceLine, ingest.HoleState: &s.holeState,
	} {
		numbers := rawColumn(raw, name).(*array.Int32)
		*into = present(numbers, numbers.Int32Values(), 0)
	}
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
		*into = present(numbers, numbers.Float64Values(), math.NaN())
	}
	days := rawColumn(raw, "date").(*array.Date32)
	s.Date = make([]int32, s.N)
	for row, day := range days.Date32Values() {
		s.Date[row] = int32(day)
	}
	holed := rawColumn(raw, "holed").(*array.Boolean)
	s.holedAsLogged = make([]Known, s.N)
	for row := range s.N {
		s.holedAsLogged[row] = Unknown
		if holed.IsValid(row) {
			s.holedAsLogged[row] = known(holed.Value(row))
		}
	}
	return s
}

func rawColumn(raw arrow.RecordBatch, name string) arrow.Array {
	return raw.Column(raw.Schema().FieldIndices(name)[0])
}

func present[V any](column arrow.Array, values []V, absent V) []V {
	if column.NullN() == 0 {
		return values
	}
	filled := make([]V, len(values))
	for row := range values {
		filled[row] = absent
		if column.IsValid(row) {
			filled[row] = values[row]
		}
	}
	return filled
}

func words(column *array.Dictionary) Words {
	codes := column.Indices().(*array.Int32)
	list := column.Dictionary().(*array.String)
	w := Words{Codes: present(codes, codes.Int32Values(), -1), List: make([]string, list.Len())}
	for code := range w.List {
		w.List[code] = list.Value(code)
	}
	return w
}
