package ingest

import (
	"context"
	"errors"

	"github.com/apache/arrow-go/v18/arrow"
)

// A tester is a test, a fuzz run or one draw of a property.
type tester interface {
	Helper()
	Fatal(...any)
	Errorf(string, ...any)
}

// outcome is what came of a log.
type outcome struct {
	rejects, notes []string
	records        []arrow.RecordBatch
	tally          Tally
	rounds         int
	putts, last    FeetCounts
}

// readLog reads a log that is in memory, and again gathering when its rounds
// lie scattered.
func readLog(t tester, name, text string, options Options) outcome {
	t.Helper()
	reader, err := OpenText(name, []byte(text), options)
	if err != nil {
		t.Fatal(err)
	}
	return readAll(t, reader)
}

func readAll(t tester, reader *Reader) (o outcome) {
	t.Helper()
	for rounds, err := range reader.Rounds(context.Background()) {
		if errors.Is(err, ErrScattered) {
			return readAll(t, reader.Again())
		}
		if err != nil {
			t.Fatal(err)
		}
		o.take(rounds.Check())
	}
	if !o.tally.Balances() {
		t.Errorf("the books do not balance: %+v", o.tally)
	}
	return o
}

func (o *outcome) take(batch *Batch) {
	for _, reject := range batch.Rejects {
		o.rejects = append(o.rejects, reject.String())
	}
	for _, note := range batch.Notes {
		o.notes = append(o.notes, note.String())
	}
	for _, tally := range batch.Tallies {
		o.tally.Add(*tally)
	}
	o.putts.Add(batch.FirstPutts)
	o.last.Add(batch.LastPutts)
	o.rounds += len(batch.RoundRows)
	if batch.Record != nil {
		o.records = append(o.records, batch.Record)
	}
}

// column is a column of all kept records as text, "" where it is null.
func (o outcome) column(name string) (values []string) {
	for _, record := range o.records {
		column := record.Column(record.Schema().FieldIndices(name)[0])
		for row := range column.Len() {
			value := ""
			if column.IsValid(row) {
				value = column.ValueStr(row)
			}
			values = append(values, value)
		}
	}
	return values
}

// readInPieces reads with chunks of so many bytes.
func readInPieces(t tester, text []byte, chunkBytes int) outcome {
	t.Helper()
	reader, err := OpenText("log", text, Options{Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	reader.chunkBytes = chunkBytes
	return readAll(t, reader)
}
