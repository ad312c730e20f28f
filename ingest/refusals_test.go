package ingest

import (
	"fmt"
	"strings"
	"testing"
)

const plainHeader = "date,hole,par,shot,lie,to_hole,club,penalty,left,finish_lie,holed,note\n"

// A hole of four strokes that nothing is wrong with.
const goodHole = `2026-05-31,9,4,1,tee,402,driver,,,,,
2026-05-31,9,4,2,rough,148,8i,,,,,
2026-05-31,9,4,3,green,24,putter,,,,,
2026-05-31,9,4,4,green,3,putter,,,,,
`

// Every kind of bad record, what is said of it, and how many records stay. The
// hole that nothing is wrong with is always kept.
func TestBadRecordsAreRefusedAloneAndSayWhatToDo(t *testing.T) {
	words := "expected a known word, such as tee, fairway, rough, bunker, recovery, green; "
	for _, c := range []struct {
		name, records string
		kept          int
		rejects       []string
	}{
		{"unknown lie", "2026-05-31,1,3,1,tee,150,,,,,,\n2026-05-31,1,3,2,gren,10,,,,,,\n", 1,
			[]string{`log.csv:3: lie "gren": ` + words + "did you mean green?"}},
		{"unknown lie, nothing near", "2026-05-31,1,3,1,moon,150,,,,,,\n", 0,
			[]string{`log.csv:2: lie "moon": ` + words + "a word of your own can be added with --lies (`word = category`)"}},
		{"no number in figures", "2026-05-31,1,3,one,tee,150,,,,,,\n", 0,
			[]string{`log.csv:2: shot "one": expected a number; a whole number in figures, nothing else in the cell`}},
		{"negative distance", "2026-05-31,1,3,1,tee,-150,,,,,,\n", 0,
			[]string{`log.csv:2: to_hole "-150": expected a distance, not a negative number`}},
		{"distance beyond any hole", "2026-05-31,1,3,1,tee,701,,,,,,\n", 0,
			[]string{`log.csv:2: to_hole "701": expected 0 to 700 yd`}},
		{"putt of more than 200 ft", "2026-05-31,1,3,1,tee,150,,,,,,\n2026-05-31,1,3,2,green,201,,,,,,\n", 1,
			[]string{`log.csv:3: to_hole "201": expected a putt of at most 200 ft; putts are read in feet unless the header or --putt-unit says otherwise`}},
		{"no number", "2026-05-31,1,3,1,tee,far,,,,,,\n", 0,
			[]string{`log.csv:2: to_hole "far": expected a number; such as 137.5, with yd, m or ft behind it if you like`}},
		{"not finite", "2026-05-31,1,3,1,tee,NaN,,,,,,\n2026-05-31,1,3,2,green,Inf,,,,,,\n", 0, []string{
			`log.csv:2: to_hole "NaN": expected a number; such as 137.5, with yd, m or ft behind it if you like`,
			`log.csv:3: to_hole "Inf": expected a number; such as 137.5, with yd, m or ft behind it if you like`}},
		{"no distance", "2026-05-31,1,3,1,tee,,,,,,,\n", 0,
			[]string{"log.csv:2: to_hole: expected a distance, the cell is empty; every stroke needs the distance to the hole before it"}},
		{"shot number twice", "2026-05-31,1,3,1,tee,150,,,,,,\n2026-05-31,1,3,2,green,20,,,,,,\n2026-05-31,1,3,2,green,2,,,,,,\n", 2,
			[]string{`log.csv:4: shot "2": shot 2 of hole 1 is there already, at log.csv:3; number the shots of a hole 1, 2, 3 in order of play, or remove the copy`}},
		{"gap in the numbers", "2026-05-31,1,4,1,tee,350,,,,,,\n2026-05-31,1,4,3,green,20,,,,,,\n", 2,
			[]string{`log.csv:3: shot "3": expected shot 2 after shot 1; add the missing shots, or number them 1, 2, 3 (hole 1 of 2026-05-31 is left out of scores)`}},
		{"no first shot", "2026-05-31,1,4,2,fairway,150,,,,,,\n", 1,
			[]string{`log.csv:2: shot "2": expected shot 1 first; add the shots before it (hole 1 of 2026-05-31 is left out of scores)`}},
		{"first shot not from the tee", "2026-05-31,1,4,1,fairway,150,,,,,,\n", 1,
			[]string{`log.csv:2: lie "fairway": expected the first shot of a hole to be from the tee; write tee, or add the shots before it (hole 1 of 2026-05-31 is left out of scores)`}},
		{"hole without an end: left", "2026-05-31,1,4,1,tee,350,,,,,,\n2026-05-31,1,4,2,fairway,120,,,12,green,,\n", 2,
			[]string{`log.csv:3: shot "2": hole 1 has no end: the last record does not finish in the hole; add the shots that are missing, or write holed = no if it was picked up (hole 1 of 2026-05-31 is left out of scores)`}},
		{"hole without an end: only a drive", "2026-05-31,1,4,1,tee,350,,,,,,\n", 1,
			[]string{`log.csv:2: shot "1": hole 1 has no end: the last record is a stroke from 350 yd; add the shots that are missing, or write holed = yes (hole 1 of 2026-05-31 is left out of scores)`}},
		{"picked up is no fault", "2026-05-31,1,4,1,tee,350,,,,,no,\n", 1, nil},
		{"holed too early", "2026-05-31,1,4,1,tee,350,,,,,yes,\n2026-05-31,1,4,2,green,12,,,,,,\n", 2,
			[]string{`log.csv:2: holed "yes": expected no shot after the one that was holed, found shot 2; only the last shot of a hole is holed (hole 1 of 2026-05-31 is left out of scores)`}},
		{"par changes", "2026-05-31,1,4,1,tee,350,,,,,,\n2026-05-31,1,5,2,green,12,,,,,,\n", 2,
			[]string{`log.csv:3: par "5": expected par 4 as for the first shot of the hole (hole 1 of 2026-05-31 is left out of scores)`}},
		{"no lie", "2026-05-31,1,4,1,,350,,,,,,\n2026-05-31,1,4,2,,12,,,,,,\n", 1,
			[]string{"log.csv:3: lie: expected where the ball lay, the cell is empty; only the first shot of a hole is taken to be from the tee"}},
		{"hole out of range", "2026-05-31,37,4,1,tee,350,,,,,,\n", 0, []string{`log.csv:2: hole "37": expected 1 to 36`}},
		{"par out of range", "2026-05-31,1,7,1,tee,350,,,,,,\n", 0, []string{`log.csv:2: par "7": expected 3 to 6`}},
		{"half a hole", "2026-05-31,1.5,4,1,tee,350,,,,,,\n", 0, []string{`log.csv:2: hole "1.5": expected a whole number`}},
		{"three penalty strokes", "2026-05-31,1,4,1,tee,350,,3,,,,\n", 0, []string{`log.csv:2: penalty "3": expected 0 to 2`}},
		{"no date", ",1,4,1,tee,350,,,,,,\n", 0, []string{"log.csv:2: date: expected a value, the cell is empty; every record needs it; where cells were merged, write it on every line"}},
		{"no such day", "2026-02-30,1,4,1,tee,350,,,,,,\n", 0,
			[]string{`log.csv:2: date "2026-02-30": expected a date such as 2026-05-31; there is no such day`}},
		{"year last in a log that has it first", "2026-06-07,1,4,1,tee,350,,,,,yes,\n7/6/2026,2,4,1,tee,350,,,,,yes,\n", 1,
			[]string{`log.csv:3: date "7/6/2026": expected a date such as 2026-05-31; day first or month first? The dates above have the year first: write this one so too, or say which in a --columns file: date = date day first`}},
		{"year last in a log that has it first, the day plain", "2026-06-07,1,4,1,tee,350,,,,,yes,\n31/5/2026,2,4,1,tee,350,,,,,yes,\n", 1,
			[]string{`log.csv:3: date "31/5/2026": expected a date such as 2026-05-31; the dates above have the year first: write this one so too`}},
		{"two letters that changed places", "2026-05-31,1,4,1,ruogh,350,,,,,yes,\n", 0,
			[]string{`log.csv:2: lie "ruogh": expected a known word, such as tee, fairway, rough, bunker, recovery, green; did you mean rough?`}},
		{"year of two digits", "31.5.26,1,4,1,tee,350,,,,,,\n", 0,
			[]string{`log.csv:2: date "31.5.26": expected a date such as 2026-05-31; write the year with four digits, year first`}},
		{"neither yes nor no", "2026-05-31,1,4,1,tee,350,,,,,perhaps,\n", 0, []string{`log.csv:2: holed "perhaps": expected yes or no`}},
		{"too many cells", "2026-05-31,1,4,1,tee,350,,,,,,,surplus\n", 0,
			[]string{"log.csv:2: expected 12 fields as in the header, found 13; put a cell that holds the separator in quotes"}},
		{"a quote that is not closed", "2026-05-31,1,4,1,tee,350,,,,,,\"oh\n", 0,
			[]string{"log.csv:2: expected a closing quote; close the quote, or double every quote inside a quoted cell"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := readLog(t, "log.csv", plainHeader+c.records+goodHole, Options{})
			if fmt.Sprint(o.rejects) != fmt.Sprint(c.rejects) {
				t.Errorf("rejects\n%s\nexpected\n%s", strings.Join(o.rejects, "\n"), strings.Join(c.rejects, "\n"))
			}
			if o.tally.Kept != int64(c.kept+4) {
				t.Errorf("%d records kept, expected %d", o.tally.Kept, c.kept+4)
			}
		})
	}
}

// A bad record makes its own hole incomplete; one that does not say its hole
// throws doubt on those beside it, and on no others.
func TestAHoleThatLostARecordIsNotSound(t *testing.T) {
	log := plainHeader + strings.ReplaceAll(goodHole, ",9,", ",1,") + strings.ReplaceAll(goodHole, ",9,", ",2,") + strings.ReplaceAll(goodHole, ",9,", ",3,")
	lines := strings.SplitAfter(log, "\n")
	for _, c := range []struct {
		name   string
		line   int
		from   string
		to     string
		states string
	}{
		{"in the middle", 6, "148", "-148", "0000" + "111" + "0000"},
		{"at the end", 8, ",green,3", ",grn,3", "0000" + "222" + "0000"},
		{"without its hole, last of hole 2", 8, ",2,4,4", ",x,4,4", "0000" + "222" + "2222"},
		{"without its hole, first of hole 2", 5, ",2,4,1", ",,4,1", "1111" + "222" + "0000"},
	} {
		t.Run(c.name, func(t *testing.T) {
			changed := append([]string{}, lines...)
			changed[c.line] = strings.Replace(changed[c.line], c.from, c.to, 1)
			if changed[c.line] == lines[c.line] {
				t.Fatalf("nothing to change in %q", lines[c.line])
			}
			o := readLog(t, "log.csv", strings.Join(changed, ""), Options{})
			if states := strings.Join(o.column(HoleState), ""); states != c.states {
				t.Errorf("hole states %s, expected %s (%v)", states, c.states, o.rejects)
			}
			if len(o.rejects) != 1 {
				t.Errorf("one cause, and %d rejects: %v", len(o.rejects), o.rejects)
			}
		})
	}
}

// What cannot be read as a file at all.
func TestBadFilesAreRefusedWhole(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "log:1: the file is empty: expected a header and one line a shot, or JSON"},
		{"blank", " \n\n", "log:1: the file is empty: expected a header and one line a shot, or JSON"},
		{"binary", "\x89PNG\x00\x01\x02", "log:1: not text: expected CSV or JSON"},
		{"zip", "PK\x03\x04", "log:1: a zip archive inside another, a damaged one or a workbook: save the sheet as CSV, or unpack it"},
		{"gzip", "\x1f\x8b\x08", "log:1: packed with gzip, and cannot be unpacked: unexpected EOF; copy the file again, it may be cut or damaged"},
		{"parquet", "PAR1", "log:1: a Parquet file that cannot be read: parquet: file too small (size=4); copy the file again, it may be cut or damaged"},
		{"prose", "A good day out.\n", "log:1: no column for date, hole, par, to_hole and lie; name the column so, or map yours with --columns (`their name = our name`); not known: A good day out."},
		{"a slip in the header", "date,hole,par,lie,tohoel\n", `log:1: no column for to_hole; is "tohoel" meant as to_hole? Then rename it, or map it with --columns`},
		{"a column twice", "date,hole,par,lie,to_hole,To hole (m)\n", `log:1: columns "to_hole" and "To hole (m)" both mean to_hole: rename one, or say with --columns which is meant`},
		{"broken JSON", "[{]", "log:1: expected JSON, invalid character ']' at start of string (expecting '\"')"},
		{"day or month first", "date,hole,par,lie,to_hole\n03/04/2026,1,3,tee,150\n", `log:1: date "03/04/2026": day first or month first? No date in the file settles it; write dates as 2026-05-31, or say which in a --columns file: date = date day first`},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := readLog(t, "log", c.text, Options{})
			if len(o.rejects) != 1 || o.rejects[0] != c.want {
				t.Errorf("rejects %q, expected %q", o.rejects, c.want)
			}
			if o.tally.Records != 0 {
				t.Errorf("tally %+v", o.tally)
			}
		})
	}
}
