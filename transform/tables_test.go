package transform_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roundmill/ingest"
	"roundmill/transform"
)

// A table is one of those that the stage emits.
type table struct {
	name   string
	schema func() *arrow.Schema
	record func(*transform.Shots) arrow.RecordBatch
}

var tables = []table{
	{"shots", transform.ShotsSchema, (*transform.Shots).ShotsRecord},
	{"holes", transform.HolesSchema, (*transform.Shots).HolesRecord},
	{"rounds", transform.RoundsSchema, (*transform.Shots).RoundsRecord},
}

// Columns that other tools rely on, in their order; more may follow.
var promised = map[string]string{
	"shots": `season, date, player, course, tees, round, hole, par, hole_length_yd, stroke_index, shot, lie, lie_category, to_hole_yd, club, finish_yd, finish_lie, finish_category, proximity_ft, shot_class, at_green,
		band_from_yd, expected_before, expected_after, strokes_gained, penalty, penalty_kind, long_yd, right_yd, plays_like_yd, short_sided, intent, fault, headwind_mph, crosswind_mph, elevation_yd, putt_slope, putt_break,
		pin_side, pin_depth, holed, hole_complete, note, source_file, source_line`,
	"holes":  `season, date, player, course, round, hole, par, hole_length_yd, strokes, penalties, score, putts, fairway_hit, green_in_regulation, up_and_down, sand_save, three_putt, strokes_gained, hole_complete`,
	"rounds": `season, date, player, course, tees, round, holes, par, score, to_par, putts, fairways_hit, fairways, greens_in_regulation, penalties, strokes_gained, strokes_gained_tee_shot, strokes_gained_approach, strokes_gained_short_game, strokes_gained_putt, complete`,
}

func TestTablesHaveTheColumnsThatOthersRelyOn(t *testing.T) {
	for _, table := range tables {
		var names []string
		for _, field := range table.schema().Fields() {
			names = append(names, field.Name)
		}
		at := -1
		for _, name := range strings.Split(promised[table.name], ",") {
			name = strings.TrimSpace(name)
			if next := slices.Index(names, name); next > at {
				at = next
			} else {
				t.Errorf("%s: no column %s, or not in its order", table.name, name)
			}
		}
	}
}

func TestEveryFieldSaysItsUnitAndMeaning(t *testing.T) {
	units := map[string]string{"_yd": "yd", "_ft": "ft", "_mph": "mph"}
	for _, table := range tables {
		for _, field := range table.schema().Fields() {
			unit, hasUnit := field.Metadata.GetValue(transform.UnitKey)
			about, hasAbout := field.Metadata.GetValue(transform.AboutKey)
			if !hasUnit || !hasAbout || about == "" {
				t.Errorf("%s.%s: unit %q, about %q", table.name, field.Name, unit, about)
			}
			inName := ""
			for suffix, of := range units {
				if strings.HasSuffix(field.Name, suffix) {
					inName = of
				}
			}
			if inName == "" && (unit == "yd" || unit == "ft" || unit == "mph") || inName != "" && inName != unit {
				t.Errorf("%s.%s is in %q", table.name, field.Name, unit)
			}
		}
	}
}

// A log of the needed fields only: everything optional is null, never zero or
// "".
func TestWhatTheLogDoesNotSayIsNull(t *testing.T) {
	shots := enriched(t, "date,hole,par,lie,to_hole\n2026-05-02,1,4,tee,400\n2026-05-02,1,4,green,10\n", transform.Options{})
	absent := map[string]string{
		"shots": `player, course, tees, round, stroke_index, club, finish_lie, penalty_kind, long_yd, right_yd, plays_like_yd, short_sided, intent, fault,
			headwind_mph, crosswind_mph, elevation_yd, putt_slope, putt_break, pin_side, pin_depth, note, band_from_yd,
			aim_long_short_yd, aim_left_right_yd, green_depth_yd, green_width_yd, course_rating, slope_rating`,
		"holes":  `player, course, round, up_and_down, sand_save`,
		"rounds": `player, course, tees, round, course_rating, slope_rating`,
	}
	for _, table := range tables {
		record := table.record(shots)
		for i, field := range record.Schema().Fields() {
			want := 0
			if slices.Contains(strings.FieldsFunc(absent[table.name], func(r rune) bool { return strings.ContainsRune(", \n\t", r) }), field.Name) {
				want = int(record.NumRows())
			}
			if got := record.Column(i).NullN(); got != want {
				t.Errorf("%s.%s: %d nulls, expected %d", table.name, field.Name, got, want)
			}
		}
	}
}

func TestWhatTheLogSaysGoesOutUnchanged(t *testing.T) {
	shots := enriched(t, `date,player,course,tees,course_rating,slope_rating,round,hole,par,hole_length_yd,stroke_index,shot,lie,to_hole,club,finish_lie,pin_side,pin_depth,headwind_mph,crosswind_mph,green_depth_yd,green_width_yd,elevation_yd,putt_slope,putt_break,penalty,penalty_kind,intent,fault,aim_long_short_yd,aim_left_right_yd,note
2026-05-02,A. Invented,Invented Heath,white,71.8,129,7,3,4,384,9,1,Tee,377,driver,semi-rough,left,front,4,-5,33,29,-2,,,1,ob,attack,decision,-105,-4.2,invented
2026-05-02,A. Invented,Invented Heath,white,71.8,129,7,3,4,384,9,2,Tee,377,driver,,,,,,,,,,,,,,,,,
2026-05-02,A. Invented,Invented Heath,white,71.8,129,7,3,4,384,9,3,green,9,putter,,,,,,,,,uphill,left to right,,,,,,,
`, transform.Options{})
	record := shots.ShotsRecord()
	for name, cells := range map[string][3]string{
		"season": {"2026", "2026", "2026"}, "date": {"2026-05-02", "2026-05-02", "2026-05-02"},
		"player": {"A. Invented", "A. Invented", "A. Invented"}, "course": {"Invented Heath", "Invented Heath", "Invented Heath"},
		"tees": {"white", "white", "white"}, "round": {"7", "7", "7"}, "hole": {"3", "3", "3"}, "par": {"4", "4", "4"},
		"hole_length_yd": {"384", "384", "384"}, "stroke_index": {"9", "9", "9"}, "shot": {"1", "2", "3"},
		"lie": {"Tee", "Tee", "green"}, "lie_category": {"tee", "tee", "green"}, "to_hole_yd": {"377", "377", "3"},
		"club": {"driver", "driver", "putter"}, "finish_lie": {"semi-rough", "(null)", "(null)"}, "pin_side": {"left", "(null)", "(null)"},
		"pin_depth": {"front", "(null)", "(null)"}, "headwind_mph": {"4", "(null)", "(null)"}, "crosswind_mph": {"-5", "(null)", "(null)"},
		"green_depth_yd": {"33", "(null)", "(null)"}, "green_width_yd": {"29", "(null)", "(null)"}, "elevation_yd": {"-2", "(null)", "(null)"},
		"putt_slope": {"(null)", "(null)", "uphill"}, "putt_break": {"(null)", "(null)", "left to right"}, "penalty": {"1", "0", "0"},
		"penalty_kind": {"out of bounds", "(null)", "(null)"}, "intent": {"attack", "(null)", "(null)"}, "fault": {"decision", "(null)", "(null)"},
		"aim_long_short_yd": {"-105", "(null)", "(null)"}, "aim_left_right_yd": {"-4.2", "(null)", "(null)"}, "note": {"invented", "(null)", "(null)"},
		"course_rating": {"71.8", "71.8", "71.8"}, "slope_rating": {"129", "129", "129"},
		"source_file": {"log.csv", "log.csv", "log.csv"}, "source_line": {"2", "3", "4"},
	} {
		for row, want := range cells {
			if got := column(t, record, name).ValueStr(row); got != want {
				t.Errorf("row %d: %s is %s, expected %s", row+1, name, got, want)
			}
		}
	}
	rounds := shots.RoundsRecord()
	for name, want := range map[string]string{"tees": "white", "course_rating": "71.8", "to_par": "0", "holes": "1", "holes_logged": "1", "complete": "false"} {
		if got := column(t, rounds, name).ValueStr(0); got != want {
			t.Errorf("round: %s is %s, expected %s", name, got, want)
		}
	}
}

func TestRecordsAreValidArrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shots := drawShots(t)
		if shots == nil {
			return
		}
		for _, table := range tables {
			record := table.record(shots)
			if !record.Schema().Equal(table.schema()) {
				t.Fatalf("%s: not in its schema", table.name)
			}
			for i, field := range record.Schema().Fields() {
				values := record.Column(i)
				if err := array.ValidateFull(values); err != nil {
					t.Fatalf("%s.%s: %v", table.name, field.Name, err)
				}
				if !arrow.TypeEqual(values.DataType(), field.Type) {
					t.Fatalf("%s.%s is of type %s, declared %s", table.name, field.Name, values.DataType(), field.Type)
				}
				if words, ok := values.(*array.Dictionary); ok {
					for row, code := range words.Indices().(*array.Int32).Int32Values() {
						if code < 0 || int(code) >= max(1, words.Dictionary().Len()) {
							t.Fatalf("%s.%s: word %d of %d in row %d", table.name, field.Name, code, words.Dictionary().Len(), row)
						}
					}
				}
				numbers, ok := values.(*array.Float64)
				for row := 0; ok && row < numbers.Len(); row++ {
					if v := numbers.Value(row); numbers.IsValid(row) && (math.IsNaN(v) || math.IsInf(v, 0)) {
						t.Fatalf("%s.%s: %v in row %d", table.name, field.Name, v, row)
					}
				}
			}
		}
	})
}

func TestNoRowsAreATableToo(t *testing.T) {
	empty := array.NewRecordBuilder(memory.DefaultAllocator, ingest.RawSchema)
	shots := transform.Enrich(&ingest.Batch{Record: empty.NewRecordBatch()}, transform.Options{})
	for _, table := range tables {
		record := table.record(shots)
		if record.NumRows() != 0 || !record.Schema().Equal(table.schema()) {
			t.Errorf("%s: %d rows", table.name, record.NumRows())
		}
		for i := range record.Columns() {
			if err := array.ValidateFull(record.Column(i)); err != nil {
				t.Errorf("%s.%s: %v", table.name, record.ColumnName(i), err)
			}
		}
	}
}

// A batch is read only: enriched twice it gives the same, and is what it was.
func TestEnrichingLeavesTheBatchAsItWas(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		log := drawnHeader + drawRound(rt, 1)
		batches, untouched := checked(t, log), checked(t, log)
		for i, batch := range batches {
			first := transform.Enrich(batch, transform.Options{})
			transform.Enrich(batch, transform.Options{ShortGameYd: 20, ReachYd: 100})
			second := transform.Enrich(batch, transform.Options{})
			for _, table := range tables {
				if diff := cmp.Diff(rowsOf(first, table.record), rowsOf(second, table.record)); diff != "" {
					rt.Fatalf("%s: %s", table.name, diff)
				}
			}
			if !array.RecordEqual(batch.Record, untouched[i].Record) {
				rt.Fatal("the batch has changed")
			}
		}
	})
}
