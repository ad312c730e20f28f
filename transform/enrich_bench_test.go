package transform_test

import (
	"bytes"
	"sync"
	"testing"

	"roundmill/ingest"
	"roundmill/testdata/demo/golfer"
	"roundmill/transform"
)

// manyRounds is the log of an invented golfer, as batches of whole rounds.
var manyRounds = sync.OnceValue(func() []byte {
	const rounds = 1400 // about a hundred thousand strokes
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Season(1, golfer.Scratch(), golfer.Courses(), rounds)); err != nil {
		panic(err)
	}
	return log.Bytes()
})

func reportRows(b *testing.B, batches []*ingest.Batch) {
	rows := int64(0)
	for _, batch := range batches {
		rows += batch.Record.NumRows()
	}
	b.ReportMetric(float64(rows)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
	b.ReportMetric(float64(rows)/float64(len(batches)), "rows/batch")
}

func BenchmarkEnrich(b *testing.B) {
	batches, options := checked(b, string(manyRounds())), transform.Options{}.WithDefaults()
	b.ReportAllocs()
	for b.Loop() {
		for _, batch := range batches {
			transform.Enrich(batch, options)
		}
	}
	reportRows(b, batches)
}

func BenchmarkRecords(b *testing.B) {
	batches, options := checked(b, string(manyRounds())), transform.Options{}.WithDefaults()
	var shots []*transform.Shots
	for _, batch := range batches {
		shots = append(shots, transform.Enrich(batch, options))
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, s := range shots {
			s.ShotsRecord()
			s.HolesRecord()
			s.RoundsRecord()
		}
	}
	reportRows(b, batches)
}

func BenchmarkEnrichAndShotsRecord(b *testing.B) {
	batches, options := checked(b, string(manyRounds())), transform.Options{}.WithDefaults()
	b.ReportAllocs()
	for b.Loop() {
		for _, batch := range batches {
			transform.Enrich(batch, options).ShotsRecord()
		}
	}
	reportRows(b, batches)
}
