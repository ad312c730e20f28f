package ingest

import (
	"strings"
	"testing"
	"time"
)

func day(of int) time.Time { return time.Date(2026, 5, of, 0, 0, 0, 0, time.UTC) }

func TestNarrowing(t *testing.T) {
	log := "date,player,course,hole,par,lie,to_hole\n2026-05-01,Ann,Hill,1,3,tee,90\n2026-05-02,Bo,Hill,1,3,tee,90\n2026-05-03,Ann,Dale,1,3,tee,90\n"
	for _, c := range []struct {
		narrow Narrow
		want   string
	}{
		{Narrow{}, "2026-05-01 2026-05-02 2026-05-03"},
		{Narrow{Players: []string{"ann"}}, "2026-05-01 2026-05-03"},
		{Narrow{Players: []string{"Ann", "Bo"}, Course: "hill"}, "2026-05-01 2026-05-02"},
		{Narrow{From: day(2), To: day(2)}, "2026-05-02"},
	} {
		o := readLog(t, "log.csv", log, Options{Narrow: c.narrow})
		if got := strings.Join(o.column("date"), " "); got != c.want {
			t.Errorf("%+v: %s, expected %s", c.narrow, got, c.want)
		}
		if o.tally.Narrowed != 3-o.tally.Kept {
			t.Errorf("tally %+v", o.tally)
		}
	}
}
