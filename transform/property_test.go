package transform_test

import (
	"math"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roundmill/ingest"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

// drawShots enriches some drawn rounds.
func drawShots(t *rapid.T) *transform.Shots {
	var log strings.Builder
	log.WriteString(drawnHeader)
	for number := range rapid.IntRange(1, 3).Draw(t, "rounds") {
		log.WriteString(drawRound(t, number+1))
	}
	return enrichedLog(t, log.String())
}

// enrichedLog is a log in one batch; nil when all of it was refused.
func enrichedLog(t *rapid.T, log string) *transform.Shots {
	reader, err := ingest.OpenText("log.csv", []byte(log), ingest.Options{Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	var shots *transform.Shots
	for rounds, err := range reader.Rounds(t.Context()) {
		if err != nil {
			t.Fatal(err)
		}
		if batch := rounds.Check(); batch.Record != nil {
			if shots != nil {
				t.Fatal("a log so small came in two batches")
			}
			shots = transform.Enrich(batch, transform.Options{})
		}
	}
	return shots
}

// Mathematics: the strokes gained of a complete hole add up to what is expected
// from the tee less the score.
func TestStrokesGainedAddUpOverEveryCompleteHole(t *testing.T) {
	complete := 0
	rapid.Check(t, func(t *rapid.T) {
		shots := drawShots(t)
		if shots == nil {
			return
		}
		for hole := range shots.Holes.Len() {
			if !shots.Holes.Complete[hole] {
				continue
			}
			complete++
			from, to := shots.RowRange(hole)
			var gained float64
			for row := from; row < to; row++ {
				gained += shots.StrokesGained[row]
			}
			fromTee := baseline.Professional().Strokes(shots.Category[from], shots.ToHoleYd[from])
			if want := fromTee - float64(shots.Holes.Score[hole]); !(math.Abs(gained-want) < 1e-9) || !(math.Abs(shots.Holes.StrokesGained[hole]-want) < 1e-9) {
				t.Fatalf("strokes gained of hole %d add up to %v, in the holes table %v, expected %v", shots.Hole[from], gained, shots.Holes.StrokesGained[hole], want)
			}
		}
	})
	if complete == 0 {
		t.Error("no complete hole was drawn, so nothing was checked")
	}
}

func TestProximityIsThreeTimesTheFinishInYardsOrNotKnown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shots := drawShots(t)
		if shots == nil {
			return
		}
		for row := range shots.N {
			proximity, finish := shots.ProximityFt[row], shots.FinishYd[row]
			switch {
			case shots.Penalty[row] > 0:
				if !math.IsNaN(proximity) {
					t.Fatalf("a proximity of %v ft after a penalty", proximity)
				}
			case !math.IsNaN(proximity) && proximity != 3*finish:
				t.Fatalf("%v ft of %v yd", proximity, finish)
			case math.IsNaN(proximity) && !math.IsNaN(finish) && shots.HoleComplete[row]:
				t.Fatalf("no proximity of a stroke that finished in play, %v yd away", finish)
			}
			if shots.Holed[row] && (finish != 0 || shots.FinishCategory[row] != ingest.Holed || shots.ExpectedAfter[row] != 0) {
				t.Fatalf("holed, %v yd away, %s", finish, shots.FinishCategory[row])
			}
		}
	})
}

func TestEveryStrokeIsInOneClassAndAtMostOneBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shots := drawShots(t)
		if shots == nil {
			return
		}
		for row := range shots.N {
			offGreen, onTee := shots.Category[row] != ingest.Green, shots.Category[row] == ingest.Tee && shots.Par[row] > 3
			near := shots.ToHoleYd[row] <= 50
			is := map[transform.Class]bool{
				transform.Putt:      !offGreen,
				transform.TeeShot:   onTee,
				transform.ShortGame: offGreen && !onTee && near,
				transform.Approach:  offGreen && !onTee && !near,
			}
			for class, in := range is {
				if in != (shots.Class[row] == class) {
					t.Fatalf("from %s, %v yd, par %d: %s", shots.Category[row], shots.ToHoleYd[row], shots.Par[row], shots.Class[row])
				}
			}
			if shots.AtGreen[row] && shots.Class[row] != transform.Approach {
				t.Fatalf("a %s at the green", shots.Class[row])
			}
			within := 0
			for i := range len(shots.BandsYd) - 1 {
				if low, high := shots.BandsYd[i], shots.BandsYd[i+1]; low <= shots.ToHoleYd[row] && shots.ToHoleYd[row] < high {
					within++
					if int(shots.Band[row]) != i {
						t.Fatalf("%v yd in band %d", shots.ToHoleYd[row], shots.Band[row])
					}
				}
			}
			if within == 0 && shots.Band[row] != -1 {
				t.Fatalf("%v yd in band %d", shots.ToHoleYd[row], shots.Band[row])
			}
		}
	})
}

func TestHolesAddUpToRounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shots := drawShots(t)
		if shots == nil {
			return
		}
		rounds, holes := &shots.Rounds, &shots.Holes
		for round := range rounds.Len() {
			var got, want struct {
				Holes, Score, Putts, Penalties, Par, Greens, Hit, Fairways int32
				Complete                                                   bool
			}
			got.Holes, got.Score, got.Putts, got.Penalties = rounds.Holes[round], rounds.Score[round], rounds.Putts[round], rounds.Penalties[round]
			got.Par, got.Greens, got.Hit, got.Fairways = rounds.Par[round], rounds.Greens[round], rounds.FairwaysHit[round], rounds.Fairways[round]
			got.Complete = rounds.Complete[round]
			var gained float64
			first, end := rounds.HoleRange(round, holes)
			for hole := first; hole < end; hole++ {
				if !holes.Complete[hole] {
					continue
				}
				from, to := shots.RowRange(hole)
				want.Holes++
				want.Par += shots.Par[from]
				for row := from; row < to; row++ {
					want.Score += 1 + shots.Penalty[row]
					want.Penalties += shots.Penalty[row]
					if shots.Category[row] == ingest.Green {
						want.Putts++
					}
					gained += shots.StrokesGained[row]
				}
				if holes.GreenInReg[hole] == transform.Yes {
					want.Greens++
				}
				if holes.FairwayHit[hole] != transform.Unknown {
					want.Fairways++
				}
				if holes.FairwayHit[hole] == transform.Yes {
					want.Hit++
				}
			}
			want.Complete = int(want.Holes) == end-first && want.Holes%9 == 0
			if diff := cmp.Diff(want, got); diff != "" {
				t.Fatal(diff)
			}
			var ofClasses float64
			for class := range transform.ClassCount {
				ofClasses += rounds.ByClass[class][round]
			}
			if !(math.Abs(rounds.StrokesGained[round]-gained) < 1e-9) || !(math.Abs(ofClasses-gained) < 1e-9) {
				t.Fatalf("strokes gained %v, by class %v, of the strokes %v", rounds.StrokesGained[round], ofClasses, gained)
			}
		}
	})
}

func TestRoundsEnrichedApartOrTogetherGiveTheSameRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first, second := drawRound(t, 1), drawRound(t, 2)
		together := enrichedLog(t, drawnHeader+first+second)
		apart := []*transform.Shots{enrichedLog(t, drawnHeader+first), enrichedLog(t, drawnHeader+second)}
		for name, records := range map[string]func(*transform.Shots) arrow.RecordBatch{
			"shots": (*transform.Shots).ShotsRecord, "holes": (*transform.Shots).HolesRecord, "rounds": (*transform.Shots).RoundsRecord,
		} {
			var want, got []string
			for _, shots := range apart {
				want = append(want, rowsOf(shots, records)...)
			}
			if got = rowsOf(together, records); !cmp.Equal(want, got) {
				t.Fatalf("%s: %s", name, cmp.Diff(want, got))
			}
		}
	})
}

// rowsOf is the rows of a table as text, without where they stood in the file.
func rowsOf(shots *transform.Shots, record func(*transform.Shots) arrow.RecordBatch) (rows []string) {
	if shots == nil {
		return nil
	}
	batch := record(shots)
	for row := range int(batch.NumRows()) {
		var cells strings.Builder
		for i, field := range batch.Schema().Fields() {
			if field.Name == ingest.SourceLine {
				continue
			}
			values := batch.Column(i)
			cells.WriteString(field.Name + "=" + values.ValueStr(row) + " ")
		}
		rows = append(rows, cells.String())
	}
	return rows
}

// Measured anew against the same table, nothing changes; against another one,
// everything follows it.
func TestMeasuringAgainstATable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := drawnHeader + drawRound(t, 1) + drawRound(t, 2)
		shots, again := enrichedLog(t, log), enrichedLog(t, log)
		if shots == nil {
			return
		}
		again.MeasureAgainst(func(*transform.Shots, int) *baseline.Table { return baseline.Professional() })
		if diff := cmp.Diff(rowsOf(shots, (*transform.Shots).RoundsRecord), rowsOf(again, (*transform.Shots).RoundsRecord)); diff != "" {
			t.Fatal(diff)
		}
		var level [ingest.CategoryCount][]baseline.Row
		for category := ingest.Tee; category <= ingest.Green; category++ {
			level[category] = []baseline.Row{{Yd: 0, Value: 3}}
		}
		again.MeasureAgainst(func(*transform.Shots, int) *baseline.Table {
			return baseline.New("three from everywhere", "this test", level, nil)
		})
		for hole := range again.Holes.Len() {
			if want := float64(3 - again.Holes.Score[hole]); again.Holes.Complete[hole] && again.Holes.StrokesGained[hole] != want {
				t.Fatalf("%v strokes gained, expected %v", again.Holes.StrokesGained[hole], want)
			}
		}
	})
}
