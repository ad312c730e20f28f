package ingest

import (
	"bytes"
	"context"
	"testing"

	"roundmill/testdata/demo/golfer"
)

// BenchmarkReadCSV reads seasons of ten invented players from memory, to
// checked batches, on one parsing worker.
func BenchmarkReadCSV(b *testing.B) {
	var text bytes.Buffer
	records, err := golfer.WriteCSV(&text, golfer.Field(1, 10, 100))
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(text.Len()))
	b.ReportAllocs()
	for b.Loop() {
		reader, err := OpenText("seasons.csv", text.Bytes(), Options{Workers: 1})
		if err != nil {
			b.Fatal(err)
		}
		kept := int64(0)
		for rounds, err := range reader.Rounds(context.Background()) {
			if err != nil {
				b.Fatal(err)
			}
			for _, tally := range rounds.Check().Tallies {
				kept += tally.Kept
			}
		}
		if kept != int64(records) {
			b.Fatalf("kept %d of %d records", kept, records)
		}
	}
	b.ReportMetric(float64(records)*float64(b.N)/b.Elapsed().Seconds(), "records/s")
}
