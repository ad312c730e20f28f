package transform_test

import (
	"context"
	"testing"

	"roundmill/ingest"
	"roundmill/transform"
)

// checked reads a log into batches of whole rounds. Rejects and notes are left
// in the batches.
func checked(t testing.TB, log string) (batches []*ingest.Batch) {
	t.Helper()
	reader, err := ingest.OpenText("log.csv", []byte(log), ingest.Options{Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	for rounds, err := range reader.Rounds(context.Background()) {
		if err != nil {
			t.Fatal(err)
		}
		if batch := rounds.Check(); batch.Record != nil {
			batches = append(batches, batch)
		}
	}
	return batches
}

// enriched is a log small enough to come in one batch.
func enriched(t testing.TB, log string, options transform.Options) *transform.Shots {
	t.Helper()
	batches := checked(t, log)
	if len(batches) != 1 {
		t.Fatalf("%d batches, expected one", len(batches))
	}
	return transform.Enrich(batches[0], options)
}
