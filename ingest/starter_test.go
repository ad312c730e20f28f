package ingest

import (
	"bytes"
	"strings"
	"testing"
)

func TestTheStarterLogReadsBack(t *testing.T) {
	var starter bytes.Buffer
	if err := WriteStarter(&starter); err != nil {
		t.Fatal(err)
	}
	o := readLog(t, "starter.csv", starter.String(), Options{})
	if len(o.rejects)+len(o.notes) > 0 || o.tally.Kept != 4 || strings.Join(o.column(HoleState), "") != "0000" {
		t.Errorf("%+v %q %q", o.tally, o.rejects, o.notes)
	}
	for _, column := range starterColumns {
		if _, known := matchName(column.name); !known {
			t.Errorf("%s is no field", column.name)
		}
	}
}
