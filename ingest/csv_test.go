package ingest

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const shortHeader = "date,hole,par,shot,lie,to_hole,note\n"

func shortRecord(shot int, lie, toHole, note string) string {
	return fmt.Sprintf("2026-05-31,1,5,%d,%s,%s,%s\n", shot, lie, toHole, note)
}

// What stands in a note is what was written, whatever the quotes.
func TestQuotedCells(t *testing.T) {
	for written, want := range map[string]string{
		`plain`:                   `plain`,
		`"in quotes"`:             `in quotes`,
		`  "after spaces"  `:      `after spaces`,
		`"a, comma"`:              `a, comma`,
		`"a ""quoted"" word"`:     `a "quoted" word`,
		"\"two\nlines\"":          "two\nlines",
		"\"two\r\nlines\"":        "two\r\nlines",
		`""`:                      ``,
		`""""`:                    `"`,
		`6" of rough`:             `6" of rough`,
		`he said "well"`:          `he said "well"`,
		`"` + "#" + ` hash"`:      `# hash`,
		"\"three\n\n\nlines, 3\"": "three\n\n\nlines, 3",
	} {
		o := readLog(t, "log.csv", shortHeader+shortRecord(1, "tee", "150", written)+shortRecord(2, "green", "9", "next"), Options{})
		if got := o.column("note"); len(o.rejects) > 0 || len(got) != 2 || got[0] != want || got[1] != "next" {
			t.Errorf("%s is %q (%q)", written, got, o.rejects)
		}
		if line := o.column(SourceLine)[1]; line != fmt.Sprint(3+strings.Count(written, "\n")) {
			t.Errorf("%q: the record behind it is on line %s", written, line)
		}
	}
}

// A stray quote is refused with its own line, and no other line is lost.
func TestAStrayQuoteCostsItsOwnLineOnly(t *testing.T) {
	good := shortRecord(1, "tee", "550", "") + shortRecord(2, "rough", "300", "6\" deep") + shortRecord(3, "fairway", "90", `"a ""fine"" one"`)
	after := shortRecord(5, "green", "20", "\"over\ntwo lines\"") + shortRecord(6, "green", "2", "\"\"")
	for _, c := range []struct{ name, note, want string }{
		{"closed by nothing but a quote of a later line", `"oh`, "expected a closing quote"},
		{"closed too early", `"oh" dear`, "expected a separator after the closing quote"},
		{"closed too early, then a comma", `"oh" dear, dear`, "expected a separator after the closing quote"},
		{"three quotes", `"""`, "expected a closing quote"},
	} {
		o := readLog(t, "log.csv", shortHeader+good+shortRecord(4, "fairway", "60", c.note)+after, Options{})
		if o.tally.Kept != 5 || o.tally.Refused != 1 || len(o.rejects) != 1 || !strings.HasPrefix(o.rejects[0], "log.csv:5: "+c.want) {
			t.Errorf("%s: %+v %q", c.name, o.tally, o.rejects)
		}
		if got := strings.Join(o.column("shot"), ""); got != "12356" {
			t.Errorf("%s: shots %s are kept", c.name, got)
		}
		if states := strings.Join(o.column(HoleState), ""); states != "11111" {
			t.Errorf("%s: hole states %s", c.name, states)
		}
	}
}

func TestRaggedRows(t *testing.T) {
	for _, c := range []struct{ name, record, reject string }{
		{"short of an optional cell", "2026-05-31,1,3,1,tee,150", ""},
		{"short of a needed cell", "2026-05-31,1,3,1,tee", "log.csv:2: to_hole: expected a distance, the cell is empty; every stroke needs the distance to the hole before it"},
		{"one cell only", "2026-05-31", "log.csv:2: hole: expected a value, the cell is empty; every record needs it; where cells were merged, write it on every line"},
		{"blank cells too many", "2026-05-31,1,3,1,tee,150,,,, ,", ""},
		{"one cell too many", "2026-05-31,1,3,1,tee,150,,x", "log.csv:2: expected 7 fields as in the header, found 8; put a cell that holds the separator in quotes"},
		{"a note with an open comma", "2026-05-31,1,3,1,tee,150,good, but short", "log.csv:2: expected 7 fields as in the header, found 8; put a cell that holds the separator in quotes"},
	} {
		o := readLog(t, "log.csv", shortHeader+c.record+"\n2026-06-01,1,3,1,tee,150,\n", Options{})
		if got := strings.Join(o.rejects, "\n"); got != c.reject {
			t.Errorf("%s: %s\nexpected %s", c.name, got, c.reject)
		}
		if want := 2 - int64(len(o.rejects)); o.tally.Kept != want {
			t.Errorf("%s: %d records kept, expected %d", c.name, o.tally.Kept, want)
		}
	}
}

func TestTheSeparatorIsTheOneThatMakesSenseOfTheHeader(t *testing.T) {
	for _, c := range []struct{ name, text string }{
		{"commas inside a semicolon file", "date;hole;par;lie;to_hole;clubs, balls, tees\n2026-05-31;1;3;tee;150,5;a, b\n"},
		{"semicolons inside a comma file", "date,hole,par,lie,to_hole,wind; rain; sun\n2026-05-31,1,3,tee,150.5,a; b; c\n"},
		{"quoted names", "\"date\";\"hole\";\"par\";\"lie\";\"to_hole\"\n2026-05-31;1;3;tee;\"150,5\"\n"},
		{"a quoted name with the separator", "date\thole\tpar\tlie\t\"To hole\"\t\"a\tb\"\n2026-05-31\t1\t3\ttee\t150.5\tx\n"},
		{"spaces round the bars", "date | hole | par | lie | to_hole\n2026-05-31 | 1 | 3 | tee | 150.5\n"},
		{"blank names", ",,date,hole,par,lie,to_hole,,,,\n,,2026-05-31,1,3,tee,150.5,x,,,\n"},
		{"a name over two lines", "date,hole,par,lie,\"To\nhole\"\n2026-05-31,1,3,tee,150.5\n"},
		{"comments and blank lines above", "# by hand; mostly\n\n,,,,\n#\ndate,hole,par,lie,to_hole\n2026-05-31,1,3,tee,150.5\n"},
	} {
		o := readLog(t, "log.csv", c.text, Options{})
		if got := strings.Join(o.column("to_hole_yd"), " "); got != "150.5" {
			t.Errorf("%s: %s (%q)", c.name, got, o.rejects)
		}
		if line := strings.Join(o.column(SourceLine), " "); line != fmt.Sprint(strings.Count(c.text, "\n")) {
			t.Errorf("%s: the record is said to be on line %s", c.name, line)
		}
	}
}

func TestLimitsOfAFile(t *testing.T) {
	record := shortRecord(1, "tee", "150", "")
	long := shortRecord(2, "green", "9", strings.Repeat("x", maxLine))
	o := readLog(t, "log.csv", shortHeader+record+long+shortRecord(3, "green", "2", ""), Options{})
	if len(o.rejects) != 1 || o.rejects[0] != "log.csv:3: expected a line of at most 1 MiB" || strings.Join(o.column("shot"), "") != "13" {
		t.Errorf("a line of a MiB: %q, %v", o.rejects, o.column("shot"))
	}
	o = readLog(t, "log.csv", shortHeader+record+strings.Repeat("x", 9<<20)+"\n"+shortRecord(2, "green", "2", ""), Options{})
	if len(o.rejects) != 1 || o.rejects[0] != "log.csv:3: expected a line of at most 1 MiB" || strings.Join(o.column(SourceLine), " ") != "2 4" {
		t.Errorf("a line of more than two chunks: %q, lines %v", o.rejects, o.column(SourceLine))
	}
	o = readLog(t, "log.csv", shortHeader+shortRecord(1, "tee", "150", `"`+strings.Repeat("x", maxField)+`"`)+shortRecord(2, "green", "2", ""), Options{})
	if len(o.rejects) != 1 || o.rejects[0] != "log.csv:2: expected a closing quote; close the quote, or double every quote inside a quoted cell" || o.tally.Kept != 1 {
		t.Errorf("a cell of 64 KiB: %q", o.rejects)
	}
	o = readLog(t, "log.csv", "date,hole,par,lie,to_hole"+strings.Repeat(",x", maxColumns)+"\n", Options{})
	if len(o.rejects) != 1 || o.rejects[0] != "log.csv:1: more than 2000 columns" {
		t.Errorf("many columns: %q", o.rejects)
	}
	o = readLog(t, "log.csv", strings.Repeat("x", headBytes)+",date,hole,par,lie,to_hole\n", Options{})
	if len(o.rejects) != 1 || o.rejects[0] != "log.csv:1: expected a header within the first 64 KiB: a line of column names, at most 2000" {
		t.Errorf("a header of 64 KiB: %q", o.rejects)
	}
}

// Whatever a cell holds, it comes back when it is quoted as RFC 4180 says.
func TestAnyNoteSurvivesQuoting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		notes := rapid.SliceOfN(rapid.StringOf(rapid.RuneFrom([]rune("ab ,;\"\n\r\t'#é="))), 1, 5).Draw(t, "notes")
		text := shortHeader
		for i, note := range notes {
			text += shortRecord(i+1, "green", "9", `"`+strings.ReplaceAll(note, `"`, `""`)+`"`)
		}
		got := readInPieces(t, []byte(text), rapid.IntRange(1, 300).Draw(t, "chunk")).column("note")
		for i, note := range notes {
			if len(got) != len(notes) || got[i] != strings.TrimSpace(note) {
				t.Fatalf("%q became %q", notes, got)
			}
		}
	})
}

// The fast way through a plain line and the careful one agree.
func TestPlainLinesAndCarefulOnesAgree(t *testing.T) {
	cell := rapid.SampledFrom([]string{"", " ", "1", "2", "3.5", "tee", "green", "rough", "2026-05-31", "2026-06-01", "x", "yes", "7i", "-1", "150"})
	rapid.Check(t, func(t *rapid.T) {
		text := ""
		for _, line := range rapid.SliceOfN(rapid.SliceOfN(cell, 1, 9), 1, 8).Draw(t, "lines") {
			for range rapid.IntRange(1, 2).Draw(t, "times") {
				text += strings.Join(line, ",") + "\n"
			}
		}
		h, err := matchHeader(strings.Split("date,course,hole,par,shot,lie,to_hole,left", ","), nil)
		if err != nil {
			t.Fatal(err)
		}
		parse := func(feed func(p *recordParser)) *recordParser {
			p := newRecordParser(&file{name: "f", dates: yearFirst}, 0, DefaultLies(), NoUnit)
			feed(p)
			p.rows.trim()
			return p
		}
		names := strings.Split("date,course,hole,par,shot,lie,to_hole,left", ",")
		fast := parse(func(p *recordParser) {
			(&file{dialect: dialect{',', '\n'}, meanings: h.meanings, names: names}).feed([]byte(text), 1, p)
		})
		careful := parse(func(p *recordParser) {
			f := csvFeeder{dialect: dialect{',', '\n'}, meanings: h.meanings, names: names, to: p}
			for i, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
				if !isBlank([]byte(line), ',') {
					f.careful([]byte(line), 1+i)
				}
			}
		})
		if fast.tally != careful.tally || fmt.Sprint(fast.rejects) != fmt.Sprint(careful.rejects) {
			t.Fatalf("%+v %q\n%+v %q", fast.tally, fast.rejects, careful.tally, careful.rejects)
		}
		for row := range fast.rows.n {
			if !fast.rows.refused[row] && !sameAcross(fast.rows, careful.rows, row) {
				t.Fatalf("record %d differs", row)
			}
		}
	})
}

func sameAcross(a, b *rows, row int) bool {
	for f := range fieldCount {
		if f.isText() && a.text(f, row) != b.text(f, row) || !f.isText() && fmt.Sprint(a.number(f, row)) != fmt.Sprint(b.number(f, row)) {
			return false
		}
	}
	return a.line[row] == b.line[row]
}
