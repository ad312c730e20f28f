package plots

import (
	"reflect"
	"strings"
	"testing"

	"roundmill/ingest"
)

func TestRejectsOfOneCauseAreCountedTogether(t *testing.T) {
	cause := func(expected string) Cause {
		return CauseOf(ingest.Reject{Scope: ingest.RecordScope, Field: "shot", Expected: expected})
	}
	if a, b := cause("shot 3 of hole 7 is there already, at a.csv:3"), cause("shot 12 of hole 1 is there already, at b.csv:70"); a != b {
		t.Errorf("%v and %v", a, b)
	}
	if got := cause("expected a date such as 2026-05-31").Expected; got != "expected a date such as 2026-05-31" {
		t.Errorf("a date in an expectation became %q", got)
	}
	if a, b := cause("expected a number"), cause("expected a whole number"); a == b {
		t.Error("two causes count as one")
	}
}

func TestCheckPutsTheMostCommonCauseFirst(t *testing.T) {
	var out strings.Builder
	err := WriteCheck(&out, Reading{
		Files: []ingest.FileInfo{{Name: "a.csv"}}, Tallies: []ingest.Tally{{Records: 1234, Kept: 1230, Refused: 4}}, Rounds: []int{9},
		Total:  ingest.Tally{Records: 1234, Kept: 1230, Refused: 4},
		Causes: map[Cause]int{{"lie", "expected a known word"}: 1, {"date", "expected a date"}: 3},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := `
  rounds  records     kept  refused  file
       9    1,234    1,230        4  a.csv

Rejects by cause, most common first
       3  date: expected a date
       1  lie: expected a known word
`
	if out.String() != want {
		t.Errorf("check prints\n%s", &out)
	}
}

func TestPuttsReadAs(t *testing.T) {
	for _, c := range []struct {
		settled string
		feet    int
		doubt   bool
	}{{"", 16, false}, {"", 2, true}, {"m", 61, true}, {"ft", 60, false}, {"", 3, false}} {
		said := PuttsReadAs(c.settled, c.feet)
		if strings.Contains(said, "--putt-unit:") {
			t.Error(said)
		}
		if got := strings.Contains(said, "unusual"); got != c.doubt {
			t.Errorf("%q, %d ft: %s", c.settled, c.feet, said)
		}
	}
}

func TestHolesThatEndFromAfarAreDoubted(t *testing.T) {
	for _, c := range []struct {
		holes   int64
		feet    int
		doubted bool
	}{{36, 3, false}, {36, 6, false}, {36, 7, true}, {9, 17, true}, {8, 17, false}} {
		if said := LastPuttsDoubted(c.holes, c.feet); (said != "") != c.doubted {
			t.Errorf("%d holes, %d ft: %q", c.holes, c.feet, said)
		}
	}
}

// A terminal knows other scripts and directions itself, and is not to be steered.
func TestNamesOnATerminalAreAsWritten(t *testing.T) {
	for name, want := range map[string]string{
		"山田 太郎": "山田 太郎", "שרה": "שרה", "José  Niño": "José Niño",
		"a\x1b[31mb": "a[31mb", "a\u202eb": "ab", "line\nbreak": "linebreak", strings.Repeat("x", 30): strings.Repeat("x", 23) + "…",
	} {
		if got := shortName(name); got != want {
			t.Errorf("%q is printed as %q, want %q", name, got, want)
		}
	}
}

func TestFilesReadAlikeStandTogether(t *testing.T) {
	var r Reading
	for _, name := range []string{"1.csv", "2.csv", "3.json", "4.csv", "5.csv", "6.csv"} {
		r.Files = append(r.Files, ingest.FileInfo{Name: name})
		how := []string{"CSV", "no unit named"}
		if name == "3.json" {
			how = []string{"JSON"}
		}
		r.FilesReadAs = append(r.FilesReadAs, how)
	}
	want := []ReadAlike{{[]string{"1.csv", "2.csv", "4.csv"}, 2, []string{"CSV", "no unit named"}}, {[]string{"3.json"}, 0, []string{"JSON"}}}
	if got := r.FilesAlike(); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
