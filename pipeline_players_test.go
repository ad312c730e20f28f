package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"roundmill/ingest"
	"roundmill/ingest/disk"
	"roundmill/ingest/store"
	"roundmill/metrics"
	"roundmill/plots"
	"roundmill/testdata/demo/golfer"
	"roundmill/transform"
)

// byDate is a log of several players, in the order of the days, with rounds of
// scorecards for two of them, one of whom logs nothing else.
func byDate(t *testing.T, players, rounds int) []byte {
	t.Helper()
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Field(7, players, rounds)); err != nil {
		t.Fatal(err)
	}
	header, shots, _ := strings.Cut(strings.TrimSpace(log.String()), "\n")
	lines := strings.Split(shots, "\n")
	slices.SortStableFunc(lines, func(a, b string) int { return strings.Compare(a[:len("2026-05-31")], b[:len("2026-05-31")]) })
	columns := strings.Split(header, ",")
	both := strings.SplitN(lines[0], ",", 3)[1]
	for i, player := range []string{both, "Only Cards"} {
		for hole := range 18 {
			record := map[string]string{
				"date": fmt.Sprintf("2026-06-1%d", i), "player": player, "course": "Cardstead", "round": "1",
				"hole": fmt.Sprint(1 + hole), "par": "4", "score": fmt.Sprint(4 + hole%3),
			}
			var cells []string
			for _, column := range columns {
				cells = append(cells, record[column])
			}
			lines = slices.Insert(lines, len(lines)/(2+i)/100*100, strings.Join(cells, ",")+","+record["score"])
		}
	}
	return []byte(header + ",score\n" + strings.Join(lines, "\n") + "\n")
}

// keptOf are the rounds of a log by player.
func keptOf(t *testing.T, log []byte) (kept *players, whole *metrics.Results) {
	t.Helper()
	reader, err := ingest.OpenText("log.csv", log, ingest.Options{Gather: true, Scratch: disk.Scratch{Folder: t.TempDir()}})
	if err != nil {
		t.Fatal(err)
	}
	kept = newPlayers(store.NewPile(ingest.RawSchema, disk.Scratch{Folder: t.TempDir()}))
	set := metrics.NewSet(metrics.Options{})
	var packer store.Packer
	for rounds, err := range reader.Rounds(context.Background()) {
		if err != nil {
			t.Fatal(err)
		}
		batch := rounds.Check()
		if len(batch.Rejects) > 0 {
			t.Fatal(batch.Rejects[0])
		}
		if batch.Record == nil {
			continue
		}
		shots := transform.Enrich(batch, transform.Options{})
		set.Add(shots)
		if err := kept.add(packPlayers(&packer, batch, shots)); err != nil {
			t.Fatal(err)
		}
	}
	return kept, set.Finish()
}

// However many players' figures are made at once, they are those of a set that
// was given everything.
func TestFiguresDoNotHangOnHowManyPlayersAreTakenTogether(t *testing.T) {
	kept, want := keptOf(t, byDate(t, 5, 12))
	byPlayer := func(a, b metrics.Warning) int {
		return strings.Compare(a.Player+a.Figure+a.Text, b.Player+b.Figure+b.Text)
	}
	slices.SortFunc(want.Warnings, byPlayer)
	if names := slices.Sorted(maps.Keys(kept.rounds)); len(names) != 6 || !kept.rounds["Only Cards"].scorecards {
		t.Fatalf("players: %q", names)
	}
	for together, parts := range map[int]int{1: 6, 1500: 3, 1 << 30: 1} {
		kept.together = together
		var got metrics.Results
		n := 0
		err := kept.figures(context.Background(), &settings{workers: 2}, func(batch *ingest.Batch) *transform.Shots {
			return transform.Enrich(batch, transform.Options{})
		}, func(part *metrics.Results) error {
			n++
			got.Append(part)
			return nil
		})
		metrics.RankSquad(got.Squad)
		slices.SortFunc(got.Warnings, byPlayer)
		if err != nil || n != parts {
			t.Errorf("%d records together: %d parts, expected %d; %v", together, n, parts, err)
		}
		if diff := cmp.Diff(want, &got, cmpopts.EquateNaNs(), cmpopts.IgnoreUnexported(metrics.SquadPlayer{})); diff != "" {
			t.Errorf("%d records together (-whole +parts):\n%s", together, diff)
		}
	}
}

// A player of more records than are unpacked at once comes in several batches.
func TestALongLogOfOnePlayerComesInBatches(t *testing.T) {
	var log bytes.Buffer
	shots, err := golfer.WriteCSV(&log, golfer.Field(7, 1, 800))
	if err != nil {
		t.Fatal(err)
	}
	kept, want := keptOf(t, log.Bytes())
	batches, records := 0, 0
	for batch, err := range kept.batches(kept.rounds[want.Seasons[0].Player]) {
		if err != nil {
			t.Fatal(err)
		}
		batches++
		for _, n := range batch.RoundRows {
			records += n
		}
		if int(batch.Record.NumRows()) > 4*recordsAtOnce {
			t.Errorf("a batch of %d records", batch.Record.NumRows())
		}
	}
	if batches < 2 || records != shots {
		t.Errorf("%d records of %d in %d batches", records, shots, batches)
	}
}

// Of a squad larger than is shown player by player, every player is in the
// tables and in summary.json, and in the ranks.
func TestEveryPlayerOfALargeSquadIsInTheTables(t *testing.T) {
	folder := t.TempDir()
	log, out := filepath.Join(folder, "log.csv"), filepath.Join(folder, "out")
	const squad = plots.MostPlayers + 3
	writeField(t, log, squad, 6)
	mustRun(t, "--no-charts", "-o", out, log)
	var summary struct {
		Tables map[string][]struct {
			Player string
			RankTo int `json:"rank_to"`
		}
	}
	if err := json.Unmarshal([]byte(outFiles(t, out)["summary.json"]), &summary); err != nil {
		t.Fatal(err)
	}
	for _, table := range []string{"seasons", "squad", "strokes_gained", "approach_proximity", "priorities", "putting", "scoring", "trend_change"} {
		var names []string
		for _, row := range summary.Tables[table] {
			names = append(names, row.Player)
			if table == "squad" && (row.RankTo < 1 || row.RankTo > squad) {
				t.Errorf("%s may be last at rank %d of %d", row.Player, row.RankTo, squad)
			}
		}
		if names = slices.Compact(names); len(names) != squad || !slices.IsSorted(names) {
			t.Errorf("%s has %d players of %d, in order: %v", table, len(names), squad, slices.IsSorted(names))
		}
	}
}
