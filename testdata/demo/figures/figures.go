// Package figures takes a log through all stages, for the tests of what comes
// after them.
package figures

import (
	"context"

	"roundmill/ingest"
	"roundmill/metrics"
	"roundmill/transform"
)

// OfLog is every figure of a CSV log, par as the goal. It panics on a log that
// cannot be read.
func OfLog(log []byte) *metrics.Results {
	reader, err := ingest.OpenText("log.csv", log, ingest.Options{Workers: 1})
	if err != nil {
		panic(err)
	}
	set := metrics.NewSet(metrics.Options{Goal: metrics.GoalToPar(0)})
	for rounds, err := range reader.Rounds(context.Background()) {
		if err != nil {
			panic(err)
		}
		if batch := rounds.Check(); batch.Record != nil {
			set.Add(transform.Enrich(batch, transform.Options{}))
		}
	}
	return set.Finish()
}
