package metrics

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"roundmill/testdata/demo"
	"roundmill/testdata/demo/golfer"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

// A figureGroup is a group of figures as these tests see it: something to add
// batches to, which ends as tables.
type figureGroup struct {
	Figures
	tables   func() []Table
	warnings func() []Warning
}

// figureGroups are empty accumulators of the groups by club, of the short game,
// of putting, of wind and slope, and of misses.
func figureGroups() []figureGroup {
	options := Options{Baseline: "test", Seed: 1}
	tee, yardages, short := newTeeClubFigures(options), newClubYardageFigures(options), newShortGameFigures(options)
	putting, wind := newPuttingFigures(options, baseline.Professional()), newWindSlopeFigures(options)
	options.BandsYd = transform.DefaultBandsYd()
	misses := newMissPatternFigures(options)
	return []figureGroup{
		{tee, func() []Table {
			return []Table{TableOf("tee_clubs", "", tee.Rows()), TableOf("tee_club_differences", "", tee.DifferenceRows())}
		}, tee.warnings},
		{yardages, func() []Table {
			return []Table{TableOf("club_yardages", "", yardages.Rows()), TableOf("between_clubs", "", yardages.BetweenRows()), TableOf("distance_control", "", yardages.ControlRows())}
		}, yardages.warnings},
		{short, func() []Table {
			return []Table{TableOf("short_game", "", short.Rows()), TableOf("short_sided", "", short.SidedRows())}
		}, short.warnings},
		{putting, func() []Table {
			return []Table{
				TableOf("putting", "", putting.Rows()), TableOf("putting_ground", "", putting.GroundRows()),
				TableOf("putting_ground_differences", "", putting.GroundDifferenceRows()), TableOf("putting_model", "", putting.ModelRows()),
			}
		}, putting.warnings},
		{wind, func() []Table {
			return []Table{TableOf("wind_slope", "", wind.Rows()), TableOf("wind_slope_effects", "", wind.EffectRows())}
		}, wind.warnings},
		{misses, func() []Table { return []Table{TableOf("miss_pattern", "", misses.Rows())} }, misses.warnings},
	}
}

func groupTables(batches []*transform.Shots) (tables []Table, warnings []Warning) {
	for _, group := range figureGroups() {
		for _, batch := range batches {
			group.Add(batch)
		}
		tables = append(tables, group.tables()...)
		warnings = append(warnings, group.warnings()...)
	}
	return tables, warnings
}

func tableNamed(t *testing.T, tables []Table, name string) *Table {
	t.Helper()
	for i := range tables {
		if tables[i].Name == name {
			return &tables[i]
		}
	}
	t.Fatalf("no table %s", name)
	return nil
}

// seasonsOfTwo is the log of two invented players, a few rounds each.
func seasonsOfTwo(t testing.TB, rounds int) []byte {
	t.Helper()
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Field(5, 2, rounds)); err != nil {
		t.Fatal(err)
	}
	return log.Bytes()
}

func TestGroupTablesAreTheSameInAnyBatchesAndOrder(t *testing.T) {
	log := seasonsOfTwo(t, 7)
	whole, wholeWarnings := groupTables(enriched(t, log))
	var batches []*transform.Shots
	for _, round := range roundsOf(log) {
		batches = append(batches, enriched(t, round)...)
	}
	for seed := range uint64(20) {
		random := rand.New(rand.NewPCG(seed, 0))
		groups := figureGroups()
		for _, i := range random.Perm(len(batches)) {
			for _, group := range groups {
				group.Add(batches[i])
			}
		}
		var tables []Table
		var warnings []Warning
		for _, group := range groups {
			tables = append(tables, group.tables()...)
			warnings = append(warnings, group.warnings()...)
		}
		sameRows(t, "tables", whole, tables)
		sameRows(t, "warnings", wholeWarnings, warnings)
		if t.Failed() {
			t.Fatalf("order of seed %d", seed)
		}
	}
}

func TestGroupTablesOfAPlayerDoNotHangOnTheOthers(t *testing.T) {
	log := seasonsOfTwo(t, 6)
	lines := strings.SplitAfter(string(log), "\n")
	both, _ := groupTables(enriched(t, log))
	for _, player := range []string{"Wenlo Tarrowby", golfer.Amateur(5, 1).Name} {
		alone := []byte(lines[0])
		for _, line := range lines[1:] {
			if strings.Contains(line, player) {
				alone = append(alone, line...)
			}
		}
		tables, _ := groupTables(enriched(t, alone))
		for i, table := range tables {
			if table.Rows == 0 {
				t.Errorf("%s of %s is empty", table.Name, player)
			}
			sameRows(t, table.Name+" of "+player, objectsOf(t, &table, player), objectsOf(t, &both[i], player))
		}
	}
}

// objects are the rows as summary.json has them.
func objects(t *testing.T, table *Table) (rows []map[string]any) {
	t.Helper()
	text := fmt.Appendf(nil, "[%s]", appendRows(nil, table))
	if err := json.Unmarshal(text, &rows); err != nil {
		t.Fatal(err)
	}
	return rows
}

func objectsOf(t *testing.T, table *Table, player string) []map[string]any {
	return slices.DeleteFunc(objects(t, table), func(row map[string]any) bool { return row["player"] != player })
}

func TestGroupTablesHaveNoIntervalUnderFiveRounds(t *testing.T) {
	for rounds, wanted := range map[int]bool{4: false, 12: true} {
		tables, _ := groupTables(enriched(t, simulated(t, 3, steady(), rounds)))
		for _, table := range tables {
			found := false
			for key, interval := range intervalsOf(&table) {
				if math.IsNaN(interval.lo) != math.IsNaN(interval.hi) {
					t.Errorf("%s: half an interval", key)
				}
				found = found || !math.IsNaN(interval.lo)
			}
			if found != wanted {
				t.Errorf("%s of %d rounds has an interval: %v", table.Name, rounds, found)
			}
		}
	}
}

// without cuts columns out of a log.
func without(t *testing.T, log []byte, columns ...string) []byte {
	t.Helper()
	records, err := csv.NewReader(bytes.NewReader(log)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	writer := csv.NewWriter(&out)
	header := records[0]
	for _, record := range records {
		var kept []string
		for i, field := range record {
			if !slices.Contains(columns, header[i]) {
				kept = append(kept, field)
			}
		}
		if err := writer.Write(kept); err != nil {
			t.Fatal(err)
		}
	}
	writer.Flush()
	return out.Bytes()
}

func TestLeavingOutColumnsLeavesOutOnlyWhatNeedsThem(t *testing.T) {
	whole, before := groupTables(enriched(t, demo.CSV))
	for _, c := range []struct {
		columns []string
		changed []string // tables
		empty   []string // of these, tables without a row
		says    []string // words of the warnings
	}{
		{[]string{"club"}, []string{"tee_clubs", "tee_club_differences", "club_yardages", "between_clubs", "wind_slope_effects"},
			[]string{"tee_clubs", "tee_club_differences", "club_yardages", "between_clubs", "wind_slope_effects"}, []string{"club"}},
		{[]string{"putt_slope"}, []string{"putting_ground", "putting_ground_differences"}, nil, []string{"putt_slope"}},
		{[]string{"putt_slope", "putt_break"}, []string{"putting_ground", "putting_ground_differences"},
			[]string{"putting_ground", "putting_ground_differences"}, []string{"putt_slope", "putt_break"}},
		{[]string{"pin_side", "pin_depth"}, []string{"short_sided"}, []string{"short_sided"}, []string{"pin_side", "pin_depth"}},
		{[]string{"left_right_yd"}, []string{"tee_clubs", "short_sided", "miss_pattern"}, []string{"miss_pattern"}, []string{"left_right"}},
		{[]string{"green_depth_yd", "green_width_yd"}, []string{"miss_pattern"}, nil, nil},
		{[]string{"long_short_yd"}, []string{"club_yardages", "between_clubs", "distance_control", "short_sided", "wind_slope", "wind_slope_effects", "miss_pattern"},
			[]string{"distance_control", "wind_slope", "wind_slope_effects", "miss_pattern"}, []string{"long_short"}},
		{[]string{"headwind_mph", "crosswind_mph"}, []string{"club_yardages", "between_clubs", "wind_slope", "wind_slope_effects"}, nil, []string{"headwind", "crosswind"}},
		{[]string{"elevation_yd"}, []string{"club_yardages", "between_clubs", "wind_slope", "wind_slope_effects"}, nil, []string{"elevation"}},
		{[]string{"headwind_mph", "crosswind_mph", "elevation_yd"}, []string{"club_yardages", "between_clubs", "wind_slope", "wind_slope_effects"},
			[]string{"wind_slope", "wind_slope_effects"}, []string{"headwind", "crosswind", "elevation"}},
	} {
		tables, warnings := groupTables(enriched(t, without(t, demo.CSV, c.columns...)))
		for i, table := range tables {
			if !slices.Contains(c.changed, table.Name) {
				sameRows(t, table.Name+" without "+strings.Join(c.columns, " and "), whole[i], table)
			}
			if empty := slices.Contains(c.empty, table.Name); empty != (table.Rows == 0) {
				t.Errorf("%s has %d rows without %v", table.Name, table.Rows, c.columns)
			}
		}
		for _, word := range c.says {
			said := slices.ContainsFunc(warnings, func(w Warning) bool {
				return strings.Contains(w.Text, word) && !slices.Contains(before, w) && slices.Contains(c.changed, w.Figure)
			})
			if !said {
				t.Errorf("without %v no warning names %s: %v", c.columns, word, warnings)
			}
		}
	}
	effect := objects(t, tableNamed(t, whole, "wind_slope_effects"))[0]
	if effect["climb_yd_per_yd"] == nil {
		t.Errorf("%v", effect)
	}
	level, _ := groupTables(enriched(t, without(t, demo.CSV, "elevation_yd")))
	effect = objects(t, tableNamed(t, level, "wind_slope_effects"))[0]
	if effect["climb_yd_per_yd"] != nil || effect["into_pct_per_mph"] == nil {
		t.Errorf("without elevation: %v", effect)
	}
}

func TestEveryColumnOfGroupTablesSaysWhatItIs(t *testing.T) {
	tables, _ := groupTables(enriched(t, demo.CSV))
	for _, table := range tables {
		record := table.Record()
		if int(record.NumRows()) != table.Rows || table.Rows == 0 || table.Columns[0].Name != "player" {
			t.Errorf("%s: %d rows, first column %s", table.Name, table.Rows, table.Columns[0].Name)
		}
		record.Release()
		seen := map[string]bool{}
		for _, column := range table.Columns {
			if seen[column.Name] || column.About == "" {
				t.Errorf("%s: column %s is there twice, or says nothing", table.Name, column.Name)
			}
			seen[column.Name] = true
		}
	}
}
