package ingest

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"golang.org/x/text/encoding/charmap"
	"pgregory.net/rapid"
)

func utf16Bytes(text string, bigEndian bool) string {
	var out []byte
	for _, unit := range append([]uint16{0xFEFF}, utf16.Encode([]rune(text))...) {
		if bigEndian {
			out = append(out, byte(unit>>8), byte(unit))
		} else {
			out = append(out, byte(unit), byte(unit>>8))
		}
	}
	return string(out)
}

// One hole, written in every way that means the same.
func TestOneHoleInEveryShape(t *testing.T) {
	plain := "date,course,hole,par,shot,lie,to_hole,club\n" +
		"2026-05-31,Café,1,4,1,tee,402,driver\n2026-05-31,Café,1,4,2,rough,148.5,8i\n2026-05-31,Café,1,4,3,green,24,putter\n2026-05-31,Café,1,4,4,green,3,putter\n"
	semicolons := strings.ReplaceAll(strings.ReplaceAll(plain, ",", ";"), "148.5", "148,5")
	windows1252, err := charmap.Windows1252.NewEncoder().String(plain)
	if err != nil {
		t.Fatal(err)
	}
	object := func(shot int, lie, toHole, club string) string {
		return fmt.Sprintf(`{"date": "2026-05-31", "course": "Café", "hole": 1, "par": 4, "shot": %d, "lie": %q, "to_hole": %s, "club": %q}`, shot, lie, toHole, club)
	}
	objects := []string{object(1, "tee", "402", "driver"), object(2, "rough", "148.5", "8i"), object(3, "green", "24", "putter"), object(4, "green", `"3"`, "putter")}
	for name, text := range map[string]string{
		"plain":                  plain,
		"semicolons and commas":  semicolons,
		"tabs":                   strings.ReplaceAll(plain, ",", "\t"),
		"bars":                   strings.ReplaceAll(plain, ",", "|"),
		"CRLF":                   strings.ReplaceAll(plain, "\n", "\r\n"),
		"CR":                     strings.ReplaceAll(plain, "\n", "\r"),
		"no last line break":     strings.TrimSuffix(plain, "\n"),
		"BOM":                    "\ufeff" + plain,
		"UTF-16LE":               utf16Bytes(plain, false),
		"UTF-16BE":               utf16Bytes(plain, true),
		"Windows-1252":           windows1252,
		"quoted":                 `"` + strings.ReplaceAll(strings.ReplaceAll(strings.TrimSuffix(plain, "\n"), ",", `","`), "\n", "\"\n\"") + "\"\n",
		"spaces":                 strings.ReplaceAll(plain, ",", " , "),
		"blank lines":            "\n\n" + strings.ReplaceAll(plain, "\n", "\n\n,,,,\n"),
		"comments above":         "# my log\n# since May\n" + plain,
		"header in other words":  strings.Replace(plain, "date,course,hole,par,shot,lie,to_hole,club", "Date Played,COURSE,Hole no.,Par,Shot Number,Lie,Distance to Hole,Club used", 1),
		"lies in other words":    strings.NewReplacer(",tee,", ",Tee,", ",rough,", ",ROUGH,", ",green,", ",Greens,").Replace(plain),
		"clubs in other words":   strings.NewReplacer("driver", "D", "8i", "Iron 8", "putter", "Putter").Replace(plain),
		"other columns":          strings.NewReplacer("club\n", "club,mood\n", "putter\n", "putter,calm\n").Replace(plain),
		"array":                  "[" + strings.Join(objects, ",\n") + "]",
		"one a line":             strings.Join(objects, "\n"),
		"pretty":                 strings.Join(objects, "\n\n"),
		"rounds that hold shots": `{"rounds": [{"holes": [{"shots": [` + strings.Join(objects, ",") + `], "par": 4}]}]}`,
		"values after the array": `[{"shots": [{"lie":"tee","to_hole":402,"club":"driver"},{"lie":"rough","to_hole":148.5,"club":"8i"},{"lie":"green","to_hole":24,"club":"putter"},{"lie":"green","to_hole":3,"club":"putter"}], "hole":1, "par":4, "date":"2026-05-31", "course":"Café"}]`,
	} {
		t.Run(name, func(t *testing.T) {
			o := readLog(t, "log", text, Options{})
			if len(o.rejects) > 0 || o.tally.Kept != 4 || o.rounds != 1 {
				t.Fatalf("%+v: %v", o.tally, o.rejects)
			}
			for column, want := range map[string]string{
				"date": "2026-05-31 2026-05-31 2026-05-31 2026-05-31", "course": "Café Café Café Café", "hole": "1 1 1 1", "par": "4 4 4 4", "shot": "1 2 3 4",
				"to_hole_yd": "402 148.5 8 1", "club": "driver 8i putter putter", HoleState: "0 0 0 0",
			} {
				if got := strings.Join(o.column(column), " "); got != want {
					t.Errorf("%s: %s, expected %s", column, got, want)
				}
			}
			if lies := strings.Join(o.column("lie"), " "); lies != "tee rough green green" && lies != "tee rough greens greens" {
				t.Errorf("lies %s", lies)
			}
		})
	}
}

// 1 yd = 0.9144 m and 1 ft = 0.3048 m exactly: international yard and pound
// agreement, 1959. 1 mile = 1,609.344 m follows.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		header, options string
		putt            Unit
		want            [2]string // from the tee, on the green
	}{
		{"to_hole", "", NoUnit, [2]string{"150", "3"}},
		{"To hole (yd)", "", NoUnit, [2]string{"150", "9"}},
		{"to_hole_ft", "", NoUnit, [2]string{"50", "3"}},
		{"to_hole_m", "", NoUnit, [2]string{num(150 / 0.9144), num(9 / 0.9144)}},
		{"to_hole", "", Yards, [2]string{"150", "9"}},
		{"to_hole", "", Metres, [2]string{"150", num(9 / 0.9144)}},
		{"to_hole_yd", "", Feet, [2]string{"150", "3"}},
		{"TOHOLE", "", NoUnit, [2]string{"150", "3"}},
		{"Yards to hole", "", NoUnit, [2]string{"150", "3"}},
	} {
		o := readLog(t, "log.csv", "date,hole,par,lie,"+c.header+"\n2026-05-31,1,3,tee,150\n2026-05-31,1,3,green,9\n", Options{PuttUnit: c.putt})
		if got := o.column("to_hole_yd"); len(got) != 2 || got[0] != c.want[0] || got[1] != c.want[1] {
			t.Errorf("%s, putts in %v: %v, expected %v (%v)", c.header, c.putt, got, c.want, o.rejects)
		}
	}
	for header, want := range map[string]string{"headwind": "10", "headwind_mph": "10", "Headwind (km/h)": num(10 / 1.609344), "headwind_m/s": num(10 / (1609.344 / 3600))} {
		o := readLog(t, "log.csv", "date,hole,par,lie,to_hole,"+header+"\n2026-05-31,1,3,tee,150,10\n", Options{})
		if got := o.column("headwind_mph"); len(got) != 1 || !near(got[0], want) {
			t.Errorf("%s: %v, expected %s (%v)", header, got, want, o.rejects)
		}
	}
}

func num(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func near(a, b string) bool {
	x, _ := strconv.ParseFloat(a, 64)
	y, _ := strconv.ParseFloat(b, 64)
	return math.Abs(x-y) < 1e-12*math.Abs(y)
}

// left without a unit is in feet where the ball ends on the green, as finish_lie
// or the next shot tells, and in yards elsewhere.
func TestLeftIsInFeetOnTheGreen(t *testing.T) {
	o := readLog(t, "log.csv", `date,hole,par,shot,lie,to_hole,left,finish_lie
2026-05-31,1,5,1,tee,500,240,fairway
2026-05-31,1,5,2,fairway,240,30,
2026-05-31,1,5,3,rough,30,12,
2026-05-31,1,5,4,green,12,3,green
2026-05-31,1,5,5,green,3,0,holed
`, Options{})
	if got := strings.Join(o.column("left_yd"), " "); got != "240 30 4 1 0" {
		t.Errorf("left %s (%v %v)", got, o.rejects, o.notes)
	}
}

// A longer putt takes the place of to_hole on the green.
func TestPuttLengthIsInFeet(t *testing.T) {
	o := readLog(t, "log.csv", "date,hole,par,lie,to_hole,putt_length\n2026-05-31,1,3,tee,150,\n2026-05-31,1,3,green,5,12\n2026-05-31,1,3,green,,3\n", Options{})
	if got := strings.Join(o.column("to_hole_yd"), " "); got != "150 4 1" {
		t.Errorf("%s (%v)", got, o.rejects)
	}
}

func TestNumbers(t *testing.T) {
	for text, want := range map[string]float64{
		"0": 0, "12": 12, "12.5": 12.5, "12,5": 12.5, "-3.25": -3.25, "+7": 7, ".5": 0.5, "5.": 5, "\u22124": -4, "1e2": 100,
		"0.1": 0.1, "123456789012345678": 123456789012345678, "3.14159265358979323846": math.Pi, "1,23": 1.23, "0,1234": 0.1234,
	} {
		if got, ok := parseNumber([]byte(text)); !ok || got != want {
			t.Errorf("%q is %v %v, expected %v", text, got, ok, want)
		}
	}
	for _, text := range []string{"", "-", ".", "1,234", "1,", "1.2.3", "NaN", "inf", "1e999", "0x10", "12 yd", "1_000", "--1", "\u2212", "1 2"} {
		if got, ok := parseNumber([]byte(text)); ok {
			t.Errorf("%q was read as %v", text, got)
		}
	}
}

func TestNumbersAgreeWithTheStandardLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`-?[0-9]{1,9}(\.[0-9]{1,9})?`).Draw(t, "text")
		want, err := strconv.ParseFloat(text, 64)
		if got, ok := parseNumber([]byte(text)); err != nil || !ok || got != want {
			t.Fatalf("%s: %v %v, expected %v %v", text, got, ok, want, err)
		}
	})
}

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
	} {
		o := readLog(t, "log.csv", c.text, Options{})
		if got := strings.Join(o.column("date"), " "); got != c.want {
			t.Errorf("%s: %s (%v)", c.name, got, o.rejects)
		}
	}
	contradictory := readLog(t, "log.csv", rows("13/04/2026", "04/13/2026"), Options{})
	if len(contradictory.rejects) != 1 || contradictory.tally.Kept != 0 {
		t.Errorf("dates that contradict one another: %v", contradictory.rejects)
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

func TestClubsHaveOneSpelling(t *testing.T) {
	for text, want := range map[string]string{
		"Driver": "driver", "1W": "driver", "3w": "3 wood", "3-wood": "3 wood", "Wood 3": "3 wood", "4H": "4 hybrid", "7i": "7i", "7 Iron": "7i",
		"iron 7": "7i", "Pitching wedge": "PW", "pw": "PW", "54": "54", "54°": "54", "56 degree": "56", "60w": "60", "Putter": "putter", "Chipper": "chipper",
	} {
		if got := clubSpelling(text); got != want {
			t.Errorf("%q is %q, expected %q", text, got, want)
		}
	}
}

func TestMappingAndLiesSayWhichLineIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"Dist to_hole\n":            "m.txt:1: \"Dist to_hole\": expected a line `left = right`",
		"# fine\n\nDist = tohoel\n": `m.txt:3: "tohoel" is no field of the shot log; did you mean to_hole?`,
		"Dist = to_hole parsec\n":   `m.txt:1: "to_hole parsec" is no field of the shot log: expected one of player, course`,
	} {
		if _, err := ReadMapping("m.txt", strings.NewReader(text)); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v, expected %s", text, err, want)
		}
	}
	lies := DefaultLies()
	if err := lies.ReadLies("l.txt", strings.NewReader("first cut = fairway\nMud-bath = rough # wet\n")); err == nil {
		t.Error("a comment behind a category was taken")
	}
	lies = DefaultLies()
	if err := lies.ReadLies("l.txt", strings.NewReader("first cut = Fairway\nMud-bath = rough\n")); err != nil || lies["first cut"] != Fairway || lies["mud bath"] != Rough {
		t.Errorf("%v %v", err, lies)
	}
	if err := lies.ReadLies("l.txt", strings.NewReader("x = swamp\n")); err == nil || err.Error() != `l.txt:1: "swamp" is no lie category: expected tee, fairway, rough, sand, recovery or green` {
		t.Error(err)
	}
}

func TestFoldersAreReadInPathOrderWithoutResults(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{
		"b.csv": "date,hole,par,lie,to_hole\n2026-05-02,1,3,tee,150\n", "a/z.csv": "date,hole,par,lie,to_hole\n2026-05-01,1,3,tee,150\n",
		"out/run.json": "{}", "out/shots.csv": "date,hole,par,lie,to_hole\n2026-05-03,1,3,tee,150\n", ".hidden": "x",
	} {
		path := filepath.Join(folder, name)
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(folder, filepath.Join(folder, "loop")); err != nil {
		t.Skip(err)
	}
	reader, err := Open([]string{folder, filepath.Join(folder, "b.csv")}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	o := readAll(t, reader)
	if got := strings.Join(o.column("date"), " "); got != "2026-05-01 2026-05-02" {
		t.Errorf("dates %s (%v)", got, o.rejects)
	}
	if len(o.notes) != 4 { // the results, the link, and two holes out of 150 yd
		t.Errorf("notes %q", o.notes)
	}
	if _, err := Open([]string{filepath.Join(folder, "missing")}, nil, Options{}); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a path that is not there: %v", err)
	}
}

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

func TestReadingStopsWithItsContext(t *testing.T) {
	reader, err := OpenText("log.csv", []byte(plainHeader+goodHole), Options{})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	for _, err := range reader.Rounds(ctx) {
		if errors.Is(err, context.Canceled) {
			return
		}
	}
	t.Error("a stopped reader ends without an error")
}
