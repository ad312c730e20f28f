package ingest

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A shot of hole 1 as a JSON object, with more members if need be.
func jsonShot(shot int, lie string, toHole any, more string) string {
	return fmt.Sprintf(`{"date":"2026-05-31","hole":1,"par":4,"shot":%d,"lie":%q,"to_hole":%v%s}`, shot, lie, toHole, more)
}

var (
	firstShot, secondShot = jsonShot(1, "tee", 150, ""), jsonShot(2, "rough", 20, "")
	thirdShot, lastShot   = jsonShot(3, "green", 9, ""), jsonShot(4, "green", 2, "")
)

func TestBadJSONIsRefusedWhereItStands(t *testing.T) {
	for _, c := range []struct {
		name, text string
		shots      string // kept
		rejects    []string
	}{
		{"a bad line among good ones", firstShot + "\n{\"date\": oh}\n" + thirdShot + "\n" + lastShot + "\n", "134",
			[]string{"log:2: expected JSON, invalid character 'o' at start of value; the rest of the line is not read"}},
		{"a bad first line", "{\"date\": oh}\n" + secondShot + "\n" + lastShot, "24",
			[]string{"log:1: expected JSON, invalid character 'o' at start of value; the rest of the line is not read"}},
		{"a line cut short first", "{\"date\":\"2026-05-31\",\n" + secondShot + "\n" + lastShot, "24",
			[]string{"log:1: expected JSON, unexpected EOF; the rest of the line is not read"}},
		{"two objects on a line", firstShot + "\n" + secondShot + " " + thirdShot + "\n" + lastShot, "1234", nil},
		{"something behind an object", firstShot + "\n" + secondShot + " x\n" + thirdShot + "\n" + lastShot, "1234",
			[]string{"log:2: expected JSON, invalid character 'x' at start of value; the rest of the line is not read"}},
		{"a line that is no object", firstShot + "\n5\n\"x\"\n[]\nnull\n" + lastShot, "14",
			[]string{"log:2: expected an object, found 5", `log:3: expected an object, found "x"`, "log:5: expected an object, found null"}},
		{"a bad element among good ones", "[" + firstShot + ",\n5,\n" + secondShot + ",\nnull,\n" + lastShot + "]", "124",
			[]string{"log:2 ($[1]): expected an object, found 5", "log:4 ($[3]): expected an object, found null"}},
		{"broken in the middle", "[" + firstShot + ",\n" + secondShot + ",\n{oh},\n" + lastShot + "]", "12",
			[]string{"log:3: expected JSON, invalid character 'o' at start of string (expecting '\"'); the rest of the file is not read"}},
		{"cut in the middle", "[" + firstShot + ",\n" + secondShot + ",\n{\"date\":", "12",
			[]string{"log:3: expected JSON, unexpected EOF; the rest of the file is not read"}},
		{"cut between elements", "[" + firstShot + ",\n" + secondShot + "\n", "12",
			[]string{"log:3: expected JSON, unexpected EOF; the rest of the file is not read"}},
		{"something behind the array", "[" + firstShot + ",\n" + lastShot + "]\nx", "14",
			[]string{"log:3: expected JSON, invalid character 'x' at start of value; the rest of the file is not read"}},
		{"a key twice", "[" + firstShot + ",\n" + jsonShot(2, "rough", 20, `,"to_hole":30`) + ",\n" + lastShot + "]", "14",
			[]string{`log:2 ($[1]): expected one key for to_hole, found "to_hole" and "to_hole"`}},
		{"two keys for one field", "[" + firstShot + ",\n" + jsonShot(2, "rough", 20, `,"Distance to pin":30`) + ",\n" + lastShot + "]", "14",
			[]string{`log:2 ($[1]): expected one key for to_hole, found "to_hole" and "Distance to pin"`}},
		{"an unknown key twice", "[" + firstShot + ",\n" + jsonShot(2, "rough", 20, `,"mood":1,"mood":2`) + ",\n" + lastShot + "]", "124", nil},
		{"a value that is wrong", "[\n" + firstShot + ",\n" + jsonShot(2, "rough", `"far"`, "") + ",\n" + lastShot + "]", "14",
			[]string{`log:3 ($[1]): to_hole "far": expected a number; such as 137.5, with yd, m or ft behind it if you like`}},
		{"an empty object", "[" + firstShot + ",\n{},\n" + lastShot + "]", "14",
			[]string{"log:2 ($[1]): date: expected a value, the cell is empty; every record needs it; where cells were merged, write it on every line"}},
		{"no needed key", `{"mood": "fine"}`, "", []string{"log:1: date: expected a value, the cell is empty; every record needs it; where cells were merged, write it on every line"}},
		{"nested too deep", strings.Repeat(`{"date":"2026-05-31","a":[`, 20) + strings.Repeat(`]}`, 20), "",
			[]string{"log:1 (.a[0].a[0].a[0].a[0].a[0].a[0].a[0].a[0]): expected at most 16 levels of nesting"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := readLog(t, "log", c.text, Options{})
			var rejects []string // of holes it is told elsewhere
			for _, reject := range o.rejects {
				if !strings.HasSuffix(reject, " is left out of scores)") {
					rejects = append(rejects, reject)
				}
			}
			if strings.Join(rejects, "\n") != strings.Join(c.rejects, "\n") {
				t.Errorf("%s\nexpected\n%s", strings.Join(rejects, "\n"), strings.Join(c.rejects, "\n"))
			}
			if got := strings.Join(o.column("shot"), ""); got != c.shots {
				t.Errorf("shots %s are kept, expected %s", got, c.shots)
			}
		})
	}
}

// A bad shot of a nested round costs the shot, and no other one.
func TestABadShotOfANestedRoundIsRefusedAlone(t *testing.T) {
	log := `{"rounds": [
  {"date": "2026-05-31", "holes": [
    {"hole": 1, "shots": [
      {"lie": "tee", "to_hole": 150},
      {"lie": "green", "to_hole": 20, "Distance to pin": 21},
      {"lie": "green", "to_hole": 2}], "par": 3},
    {"hole": 2, "par": 3, "shots": [
      {"lie": "tee", "to_hole": 150},
      [],
      {"lie": "gren", "to_hole": 20},
      7,
      {"lie": "green", "to_hole": 2}]},
    {"hole": 3, "par": 3, "Par": 4, "shots": [{"lie": "tee", "to_hole": 90}]},
    {"hole": 4, "par": 3, "shots": [{"lie": "tee", "to_hole": 90, "tags": [{"name": "x"}, {"name": "y"}], "more": [ ]}, {"lie": "green", "to_hole": 2}]},
    {"hole": 5, "par": 3, "shots": []}
  ]}
]}`
	o := readLog(t, "log", log, Options{})
	want := []string{
		`log:5 (.rounds[0].holes[0].shots[1]): expected one key for to_hole, found "to_hole" and "Distance to pin"`,
		`log:10 (.rounds[0].holes[1].shots[2]): lie "gren": expected a known word, such as tee, fairway, rough, bunker, recovery, green; did you mean green?`,
		"log:11 (.rounds[0].holes[1].shots[3]): expected an object, found 7",
		`log:13 (.rounds[0].holes[2].shots[0]): expected one key for par, found "par" and "Par"`,
	}
	if strings.Join(o.rejects, "\n") != strings.Join(want, "\n") {
		t.Errorf("%s\nexpected\n%s", strings.Join(o.rejects, "\n"), strings.Join(want, "\n"))
	}
	if got := strings.Join(o.column("hole"), ""); got != "112244" {
		t.Errorf("holes %s are kept", got)
	}
	if got := strings.Join(o.column(SourceLine), " "); got != "4 6 8 12 14 14" {
		t.Errorf("lines %s", got)
	}
	if notes := strings.Join(o.notes, "\n"); !strings.Contains(notes, "not used: tags") {
		t.Errorf("notes %q", o.notes)
	}
}

func TestInnerValuesGoBeforeOuterOnes(t *testing.T) {
	o := readLog(t, "log", `[{"date":"nonsense","player":"Ann","shots":[
		{"date":"2026-05-31","hole":1,"par":3,"lie":"tee","to_hole":150,"player":null},
		{"date":"2026-05-31","hole":1,"par":3,"lie":"green","to_hole":2,"player":"Ann"}]}]`, Options{})
	if got := strings.Join(o.column("player"), " "); got != "Ann Ann" || len(o.rejects) > 0 {
		t.Errorf("players %s, %q", got, o.rejects)
	}
}

// The unit of a key is that of its own record.
func TestKeysOfRecordsMayDifferInUnit(t *testing.T) {
	o := readLog(t, "log", strings.Replace(firstShot, "to_hole", "to_hole_ft", 1)+"\n"+lastShot+"\n", Options{})
	if got := strings.Join(o.column("to_hole_yd"), " "); got != "50 "+num(2.0/3) {
		t.Errorf("%s (%q)", got, o.rejects)
	}
}

func TestAnElementBeyondTheLimitIsSaid(t *testing.T) {
	endless := &lineCounter{source: strings.NewReader("x"), since: maxElement + 1}
	if _, err := endless.Read(make([]byte, 1)); !errors.Is(err, errElementTooLong) {
		t.Error(err)
	}
}

// JSONTestSuite (N. Seriot): y_ files are JSON, n_ files are not, i_ files may
// be either. Whatever they are, the books balance.
func TestJSONTestSuite(t *testing.T) {
	folder := suites(t)
	paths, err := filepath.Glob(filepath.Join(folder, "json-test-suite", "*", "*.json"))
	if more, _ := filepath.Glob(filepath.Join(folder, "json-test-suite", "*.json")); err != nil || len(paths)+len(more) < 300 {
		t.Fatalf("%d files of the suite, %v", len(paths)+len(more), err)
	} else {
		paths = append(paths, more...)
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Base(path)
		// By itself it holds no shot: whatever it is, nothing is kept.
		if o := readLog(t, name, string(text), Options{}); o.tally.Kept > 0 || len(o.rejects) == 0 && len(o.notes) == 0 {
			t.Errorf("%s by itself: %+v %q", name, o.tally, o.rejects)
		}
		// As a value that means nothing in a shot: where it is JSON, the shot is
		// read, and where it is not, something is refused.
		o := readLog(t, name, "["+strings.TrimSuffix(firstShot, "}")+`,"mood":`+string(text)+"},\n"+jsonShot(2, "green", 2, "")+"]", Options{})
		refused := len(o.rejects) > 0
		if name[0] == 'y' && refused || name[0] == 'n' && !refused {
			t.Errorf("%s: %q", name, o.rejects)
		}
	}
}
