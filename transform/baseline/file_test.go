package baseline_test

import (
	"errors"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"testing/iotest"

	"roundmill/ingest"
	"roundmill/transform/baseline"
)

var malformedFiles = []struct{ name, text, message string }{
	{"empty", "", "b.csv: no table in it: expected a header that starts with distance_yd, distance_ft or distance_m"},
	{"only comments", "# nothing\n\n# more\n", "b.csv: no table in it: expected a header that starts with distance_yd, distance_ft or distance_m"},
	{"no header", "10,2.18\n", `b.csv:1: expected a header that starts with distance_yd, distance_ft or distance_m, found "10"`},
	{"the distance not first", "# strokes\nfairway,distance_yd\n2.18,10\n", `b.csv:2: expected a header that starts with distance_yd, distance_ft or distance_m, found "fairway"`},
	{"a distance without a unit", "distance,fairway\n10,2.18\n", `b.csv:1: "distance": expected distance_yd, distance_ft or distance_m`},
	{"semicolons", "distance_yd;fairway\n10;2.18\n", `b.csv:1: "distance_yd;fairway": expected distance_yd, distance_ft or distance_m`},
	{"no column of strokes", "distance_yd\n10\n", "b.csv:1: no column of strokes behind the distance"},
	{"an unknown lie", "distance_yd,fairway,lawn\n10,2.18,2.3\n", `b.csv:1: "lawn" is no lie category: expected tee, fairway, rough, sand, recovery, green, putts or made_share`},
	{"a column without a name", "distance_yd,fairway,\n10,2.18,\n", `b.csv:1: "" is no lie category: expected tee, fairway, rough, sand, recovery, green, putts or made_share`},
	{"a column twice in one table", "distance_yd,rough,Rough\n10,2.3,2.3\n", "b.csv:1: rough stands in the file twice"},
	{"green and putts, which are one", "distance_ft,green,putts\n10,1.6,1.6\n", "b.csv:1: putts stands in the file twice"},
	{"a column in two tables", "distance_yd,rough\n10,2.3\ndistance_yd,sand,rough\n10,2.4,2.3\n", "b.csv:3: rough stands in the file twice"},
	{"more cells than columns", "distance_yd,rough\n10,2.3,2.4\n", "b.csv:2: expected 2 cells as in the header, found 3"},
	{"a distance in words", "distance_yd,rough\nten,2.3\n", `b.csv:2: "ten": expected a distance`},
	{"a blank distance", "distance_yd,rough\n,2.3\n", `b.csv:2: "": expected a distance`},
	{"a negative distance", "distance_yd,rough\n-10,2.3\n", `b.csv:2: "-10": expected a distance`},
	{"a distance without end", "distance_yd,rough\ninf,2.3\n", `b.csv:2: "inf": expected a distance`},
	{"a distance that is not a number", "distance_yd,rough\nNaN,2.3\n", `b.csv:2: "NaN": expected a distance`},
	{"strokes in words", "distance_yd,rough\n10,two\n", `b.csv:2: rough "two": expected a number`},
	{"strokes that are not a number", "distance_yd,rough\n10,NaN\n", `b.csv:2: rough "NaN": expected a number`},
	{"strokes under one", "distance_yd,rough\n10,0.99\n", "b.csv:2: rough 0.99: expected strokes to hole out, from 1 to 20"},
	{"too many strokes", "distance_yd,rough\n10,21\n", "b.csv:2: rough 21: expected strokes to hole out, from 1 to 20"},
	{"a share in per cent", "distance_ft,putts,made_share\n8,1.5,50\n", "b.csv:2: made_share 50: expected a share from 0 to 1"},
	{"a negative share", "distance_ft,putts,made_share\n8,1.5,-0.5\n", "b.csv:2: made_share -0.5: expected a share from 0 to 1"},
	{"a distance twice", "distance_yd,rough\n10,2.3\n10,2.4\n", "b.csv:3: rough: distances must rise from row to row"},
	{"falling distances", "distance_yd,rough\n20,2.6\n10,2.3\n", "b.csv:3: rough: distances must rise from row to row"},
	{"strokes that fall", "distance_yd,rough\n10,2.6\n20,2.3\n", "b.csv:3: rough: strokes fall from 2.6 to 2.3 as the distance grows"},
	{"a quote that is not closed", "distance_yd,rough\n10,\"2.3\n", `b.csv:2: extraneous or missing " in quoted-field`},
	{"a stray quote", "distance_yd,rough\n1\"0,2.3\n", `b.csv:2: bare " in non-quoted-field`},
	{"a header and no rows", "distance_yd,rough\n", "b.csv: no strokes to hole out in it"},
	{"putts made, but no strokes", "distance_ft,made_share\n8,0.5\n", "b.csv: no strokes to hole out in it"},
}

func TestMalformedFilesAreRefusedByLine(t *testing.T) {
	for _, malformed := range malformedFiles {
		t.Run(malformed.name, func(t *testing.T) {
			table, err := baseline.Read("b.csv", strings.NewReader(malformed.text))
			if err == nil || err.Error() != malformed.message {
				t.Errorf("error %v, expected %s", err, malformed.message)
			}
			if table != nil {
				t.Error("a table came with the error")
			}
		})
	}
}

func TestAFileThatCannotBeReadIsAnErrorOfItsOwn(t *testing.T) {
	broken := errors.New("the disk is gone")
	if _, err := baseline.Read("b.csv", iotest.ErrReader(broken)); !errors.Is(err, broken) || !strings.HasPrefix(err.Error(), "b.csv: ") {
		t.Errorf("error %v, expected %v with the name of the file", err, broken)
	}
}

func TestForgivenInAFile(t *testing.T) {
	for name, text := range map[string]string{
		"a byte order mark":               "\ufeffdistance_yd,fairway\n100,2.8\n200,3.2\n",
		"a byte order mark and a comment": "\ufeff# mine\ndistance_yd,fairway\n100,2.8\n200,3.2\n",
		"a byte order mark and a quote":   "\ufeff\"distance_yd\",fairway\n100,2.8\n200,3.2\n",
		"case and spaces":                 " Distance_YD , Fairway \n 100 , 2.8 \n\n 200 , 3.2 \n",
		"carriage returns":                "distance_yd,fairway\r\n100,2.8\r\n200,3.2\r\n",
		"blank cells and short rows":      "distance_yd,fairway,sand\n100,2.8\n150,,3.2\n200,3.2,\n",
		"no line break at the end":        "distance_yd,fairway\n100,2.8\n200,3.2",
		"metres":                          "distance_m,fairway\n91.44,2.8\n182.88,3.2\n",
		"feet":                            "distance_ft,fairway\n300,2.8\n600,3.2\n",
		"a table below another":           "distance_ft,putts\n1,1\ndistance_yd,fairway\n100,2.8\n200,3.2\n",
		"values that waver":               "distance_yd,fairway\n50,2.85\n100,2.8\n200,3.2\n",
	} {
		table, err := baseline.Read("folder/b.csv", strings.NewReader(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := table.Strokes(ingest.Fairway, 150); math.Abs(got-3) > 1e-12 {
			t.Errorf("%s: %v strokes from 150 yd, expected 3", name, got)
		}
		if table.Name != "b.csv" || table.Source != "the user's own baseline file b.csv" {
			t.Errorf("%s: named %q, from %q", name, table.Name, table.Source)
		}
	}
}

func TestCategoriesThatAFileLacksAreNamed(t *testing.T) {
	table, err := baseline.Read("b.csv", strings.NewReader("distance_yd,fairway\n100,2.8\ndistance_ft,green\n8,1.5\n"))
	if err != nil {
		t.Fatal(err)
	}
	if missing := fmt.Sprint(table.Missing()); missing != "[tee rough sand recovery]" {
		t.Errorf("missing %s", missing)
	}
	if !math.IsNaN(table.Strokes(ingest.Sand, 20)) || !math.IsNaN(table.MadeShare(3)) {
		t.Error("a value from a column that is not there")
	}
	if got := table.Strokes(ingest.Fairway, 300); got != 2.8 {
		t.Errorf("a column of one row is %v elsewhere, expected the same value", got)
	}
}

func FuzzRead(f *testing.F) {
	for _, malformed := range malformedFiles {
		f.Add(malformed.text)
	}
	for _, name := range []string{"strokes-to-hole-out-2012.csv", "putts-to-hole-out-2014.csv"} {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add("\ufeffdistance_m,tee\n0,1\n1e4,20\n")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := baseline.Read("b.csv", strings.NewReader(text))
		if err != nil {
			if table != nil || !strings.HasPrefix(err.Error(), "b.csv") {
				t.Fatalf("%v beside the error %v", table, err)
			}
			return
		}
		missing := table.Missing()
		for category := ingest.Tee; category <= ingest.Green; category++ {
			lacks := strings.Contains(fmt.Sprint(missing), category.String())
			for _, yards := range []float64{0, 1.0 / 3, 10, 33.3, 100, 250, 600, 1e5} {
				strokes := table.Strokes(category, yards)
				if lacks != math.IsNaN(strokes) || strokes < 1 {
					t.Fatalf("%v strokes from %v yd, %s; missing %v", strokes, yards, category, missing)
				}
			}
		}
	})
}
