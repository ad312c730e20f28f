package ingest

import (
	"fmt"
	"strings"
	"testing"
)

func TestDatesAreDecidedByTheWholeFile(t *testing.T) {
	rows := func(dates ...string) string {
		text := "date,hole,par,lie,to_hole\n"
		for i, date := range dates {
			text += fmt.Sprintf("%s,%d,3,tee,150\n", date, i+1)
		}
		return text
	}
	for _, c := range []struct{ name, text, want string }{
		{"year first", rows("2026-04-03", "2026-04-13"), "2026-04-03 2026-04-13"},
		{"with a time of day", rows("2026-04-03T09:30:00", "2026-04-13 10:00"), "2026-04-03 2026-04-13"},
		{"without separators", rows("20260403"), "2026-04-03"},
		{"day first, settled last", rows("03/04/2026", "13/04/2026"), "2026-04-03 2026-04-13"},
		{"month first, settled last", rows("04/03/2026", "04/13/2026"), "2026-04-03 2026-04-13"},
		{"points", rows("3.4.2026", "13.4.2026"), "2026-04-03 2026-04-13"},
		{"day first, settled by a bad date's neighbour", rows("soon", "13/04/2026", "03/04/2026"), "2026-04-13 2026-04-03"},
		{"day first, the first cell blank", rows("", "03/04/2026", "13/04/2026"), "2026-04-03 2026-04-13"},
		{"day first, a year first among them", rows("03/04/2026", "2026-04-05", "13/04/2026"), "2026-04-03 2026-04-05 2026-04-13"},
	} {
		o := readLog(t, "log.csv", c.text, Options{})
		if got := strings.Join(o.column("date"), " "); got != c.want {
			t.Errorf("%s: %s (%v)", c.name, got, o.rejects)
		}
	}
	contradictory := readLog(t, "log.csv", rows("13/04/2026", "04/13/2026"), Options{})
	const want = `log.csv:1: date "13/04/2026" on line 2 can only be day first, "04/13/2026" on line 3 only month first; write dates as 2026-05-31, or say which in a --columns file: date = date day first`
	if len(contradictory.rejects) != 1 || contradictory.rejects[0] != want || contradictory.tally.Kept != 0 {
		t.Errorf("dates that contradict one another: %q", contradictory.rejects)
	}
	mapping, err := ReadMapping("m", strings.NewReader("Date = date month first\n"))
	if err != nil {
		t.Fatal(err)
	}
	stated := readLog(t, "log.csv", rows("04/03/2026"), Options{Columns: mapping})
	if got := stated.column("date"); len(got) != 1 || got[0] != "2026-04-03" {
		t.Errorf("stated: %v (%v)", got, stated.rejects)
	}
}

func TestDatesThatAreNone(t *testing.T) {
	for _, text := range []string{
		"2026-02-29", "2100-02-29", "2026-04-31", "2026-00-10", "2026-13-10", "2026-05-00", "2026-05-32", "1899-12-31", "2201-01-01",
		"26-05-31", "31.5.26", "2026-5", "2026", "2026-05-31-1", "2026-05/31", "2026.05-31", "2026-05-31 or so", "2026-05-31T", "2026-05-31T9", "2026-05-3110:00",
		"20260532", "2026053", "202605311", "May 31, 2026", "5 31 2026", "-2026-05-31", "2026--05-31", "12026-05-31",
	} {
		for order := yearFirst; order < unsettled; order++ {
			if days, ok := parseDate([]byte(text), order); ok {
				t.Errorf("%q, %s, was read as %s", text, order, dateOf(days).Format("2006-01-02"))
			}
		}
	}
}

// 29 February: every fourth year but not every hundredth, though every four
// hundredth (Gregorian calendar, 1582).
func TestLeapYears(t *testing.T) {
	for text, real := range map[string]bool{"2024-02-29": true, "2000-02-29": true, "1900-02-29": false, "2025-02-29": false} {
		if _, ok := parseDate([]byte(text), yearFirst); ok != real {
			t.Errorf("%s: %v", text, ok)
		}
	}
	if days, _ := parseDate([]byte("1970-01-01"), yearFirst); days != 0 {
		t.Errorf("the epoch is day %v", days)
	}
}
