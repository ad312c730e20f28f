package ingest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// What spreadsheets and their users put round the shots is read past, and said.
func TestWhatStandsRoundTheShots(t *testing.T) {
	const header, shots = "date,hole,par,shot,lie,to_hole\n", "2026-05-31,1,3,1,tee,150\n2026-05-31,1,3,2,green,20\n2026-05-31,1,3,3,green,2\n"
	for _, c := range []struct{ name, text, note string }{
		{"a title", "My season 2026\n" + header + shots, "log: 1 title line above the header skipped, line 1"},
		{"titles and blank lines", "Shots,,,,,\n,,,,,\nInvented player,,,,,\n\n" + header + shots, "log: 2 title lines above the header skipped, the first on line 1, the last on line 3"},
		{"a title that looks like part of a header", "Date,Course\n2026,Invented\n" + header + shots, "log: 2 title lines above the header skipped, lines 1 to 2"},
		{"the declared separator", "sep=,\n" + header + shots, "log: 1 title line above the header skipped, line 1"},
		{"a total", header + shots + "Total,,3,,,172\n", "log: 1 total line skipped, line 5"},
		{"totals between", header + strings.Replace(shots, "\n", "\n,,,Round total,,150\nSum,,,,,\n", 1), "log: 2 total lines skipped, the first on line 3"},
		{"the header again", header + strings.Replace(shots, "\n", "\n"+header, 1), "log: 1 repeated header line skipped, line 3"},
		{"comments between", header + strings.Replace(shots, "\n", "\n# rain, at last\n", 1), "log: 1 comment skipped, line 3"},
		{"a line of units", header + ",,,,,yd|ft\n" + shots, ""},
		{"a row of units", header + ",,,,-,(ft)\n" + shots, "log: line 2 read as the units of the columns"},
		{"UTF-16 without a mark", utf16Bytes(header+shots, false)[2:], ""},
		{"UTF-16 without a mark, big-endian", utf16Bytes(header+shots, true)[2:], ""},
		{"mixed line ends", header + strings.Replace(strings.Replace(shots, "\n", "\r", 1), "\n", "\r\n", 1), ""},
		{"one line break of another kind", strings.ReplaceAll(header+shots, "\n", "\r") + "\n", ""},
		{"Windows-1252", strings.Replace(header, "lie", "lie,course", 1) + strings.ReplaceAll(strings.ReplaceAll(shots, "tee,", "tee,Caf\xe9,"), "green,", "green,Caf\xe9,"), "log: what is not UTF-8 read as Windows-1252, such as on line 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, pieces := range []int{defaultChunkBytes, 1, 30} {
				reader, err := OpenText("log", []byte(c.text), Options{Workers: 1})
				if err != nil {
					t.Fatal(err)
				}
				reader.chunkBytes = pieces
				o := readAll(t, reader)
				if c.name == "a line of units" {
					if o.tally.Refused != 1 {
						t.Errorf("a line that holds more than units: %q", o.rejects)
					}
					continue
				}
				if len(o.rejects) > 0 || o.tally.Kept != 3 || strings.Join(o.column(HoleState), "") != "000" {
					t.Errorf("in pieces of %d: %+v %q %v", pieces, o.tally, o.rejects, o.column(HoleState))
				}
				if c.note != "" && !slices.Contains(o.notes, c.note) || c.note == "" && len(o.notes) > 0 {
					t.Errorf("notes %q, expected %s", o.notes, c.note)
				}
			}
		})
	}
}

// A total that is a shot is one: only a line that cannot be read is looked at.
func TestAShotOfAPlayerCalledSumIsKept(t *testing.T) {
	o := readLog(t, "log", "player,date,hole,par,lie,to_hole\nSum,2026-05-31,1,3,tee,40\n", Options{})
	if o.tally.Kept != 1 || o.tally.Skipped != 0 {
		t.Errorf("%+v %q", o.tally, o.rejects)
	}
}

func TestNumbersAsPeopleWriteThem(t *testing.T) {
	for _, c := range []struct {
		header, written string
		decimalComma    bool
		want            string // as stored; "" for refused
	}{
		{"x", "1.234,5", false, "1234.5"},
		{"x", "1,234.5", false, "1234.5"},
		{"x", "1 234,5", false, "1234.5"},
		{"x", "1\u202f234.5", false, "1234.5"},
		{"x", "12'345", false, "12345"},
		{"x", "1,234", false, ""},
		{"x", "1,234", true, "1.234"},
		{"x", "1.234", false, "1.234"},
		{"x", "1.234", true, ""},
		{"x", "12.5", true, "12.5"},
		{"x", "1.23.4", false, ""},
		{"x", "1,23,456", false, ""},
		{"x", "-1.234,5", false, "-1234.5"},
		{"x", "12 yd", false, "12"},
		{"x", "9.144m", false, "10"},
		{"x", "12,5 yards", false, "12.5"},
		{"x", "12 mph", false, ""},
		{"x", "12'", false, "4"},
		{"x", "4' 6\"", false, "1.5"},
		{"x", "4 ft 6 in", false, "1.5"},
		{"x", "18\"", false, "0.5"},
		{"x", "4'13\"", false, ""},
		{"x", "4'6", false, ""},
		{"x_m", "12 yd", false, ""},
		{"x_m", "9.144 m", false, "10"},
		{"x_yd", "12'", false, ""},
		{"headwind", "10 mph", false, "10"},
		{"headwind", "10 yd", false, ""},
		{"slope_rating", "113 yd", false, ""},
		{"lat", "56.5° N", false, "56.5"},
		{"lat", "S 56.5", false, "-56.5"},
		{"lat", "56.5 W", false, ""},
		{"lat", "-56.5 S", false, ""},
		{"lon", "2.75W", false, "-2.75"},
	} {
		m, _ := matchName(c.header)
		log := "date;hole;par;lie;to_hole;" + c.header + ";aim_left_right\n2026-05-31;1;3;tee;40;\"" + strings.ReplaceAll(c.written, `"`, `""`) + "\";"
		if c.decimalComma {
			log += "1,5"
		}
		o := readLog(t, "log", log+"\n", Options{})
		got := o.column(definitions[m.field].columnName())
		if fmt.Sprint(got) != fmt.Sprint([]string{c.want}) && !(c.want == "" && len(got) == 0 && len(o.rejects) == 1) {
			t.Errorf("%s %q, decimal commas %v: %q, expected %q (%q)", c.header, c.written, c.decimalComma, got, c.want, o.rejects)
		}
	}
}

// Nothing is guessed in silence.
func TestEveryFileSaysHowItWasRead(t *testing.T) {
	text := "Played;Hole;Par;Lie;Distance to pin;left_right\n2026-05-31;1;3;Bunkers;150,5;3 m\n2026-05-31;1;3;green;1.200,5 ft;\n"
	mapping, err := ReadMapping("m", strings.NewReader("Played = date year first\n"))
	if err != nil {
		t.Fatal(err)
	}
	reader, err := OpenText("log", []byte(text), Options{Columns: mapping})
	if err != nil {
		t.Fatal(err)
	}
	readAll(t, reader)
	want := []string{
		"CSV, separated by semicolons, UTF-8",
		`columns: "Played" as date, year first, "Distance to pin" as to_hole`,
		"no unit named: to_hole in yards, on the green in ft; left_right in yards",
		"decimal commas, such as 150,5 on line 2",
		"numbers in the unit that stands in the cell, such as 3 m on line 2",
		"lies: bunkers as sand",
	}
	if got := reader.ReadAs(); len(got) != 1 || strings.Join(got[0], "\n") != strings.Join(want, "\n") {
		t.Errorf("%s\nexpected\n%s", strings.Join(got[0], "\n"), strings.Join(want, "\n"))
	}
}
