package ingest

import (
	"context"
	"strings"
	"testing"
)

// However many lines of rubbish there are, they are all counted and refused,
// but only one of them is kept in mind.
func TestAFileOfRubbishTakesNoRoom(t *testing.T) {
	lines := strings.SplitAfter(goodHole, "\n")
	log := plainHeader + "x\nx\n" + lines[0] + lines[1] + strings.Repeat("x\n", 5000) + lines[2] + lines[3] + strings.ReplaceAll(goodHole, ",9,", ",10,")
	reader, err := OpenText("log.csv", []byte(log), Options{})
	if err != nil {
		t.Fatal(err)
	}
	reader.chunkBytes = 1000
	held := 0
	for p, err := range reader.parse(context.Background()) {
		if err != nil {
			t.Fatal(err)
		}
		if p.rows != nil {
			held += p.rows.n
		}
	}
	if held != 9 {
		t.Errorf("%d records are held, of 8 good ones and 5002 of rubbish", held)
	}
	o := readInPieces(t, []byte(log), 1000)
	if o.tally.Kept != 8 || o.tally.Refused != 5002 || len(o.rejects) != 5002 {
		t.Errorf("%+v, %d rejects", o.tally, len(o.rejects))
	}
	if states := strings.Join(o.column(HoleState), ""); states != "2222"+"0000" {
		t.Errorf("hole states %s", states)
	}
}
