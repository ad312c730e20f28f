package ingest

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"roundmill/testdata/demo"
)

// readsWell holds any text, read in pieces of any size, to what must be true of
// every log: the books balance, every kept record has what it needs, values are
// in range, nothing is refused without a reason, and where the text was cut
// does not show.
func readsWell(t *testing.T, text []byte, pieces int) {
	t.Helper()
	o := readInPieces(t, text, defaultChunkBytes)
	columns := map[string][]string{}
	for _, field := range RawSchema.Fields() {
		columns[field.Name] = o.column(field.Name)
	}
	for row := range columns["date"] {
		at := func(name string) string { return columns[name][row] }
		stroke := at("shot") != "" && at("lie") != "" && (at("to_hole_yd") != "" || at("x_yd") != "" || at("lat_deg") != "")
		scorecard := at("score") != "" && at("shot")+at("lie")+at("to_hole_yd")+at("x_yd")+at("lat_deg")+at("club") == ""
		if at("date") == "" || at("hole") == "" || at("par") == "" || !stroke && !scorecard {
			t.Errorf("record %d lacks something: date %q hole %q par %q shot %q lie %q to_hole %q", row, at("date"), at("hole"), at("par"), at("shot"), at("lie"), at("to_hole_yd"))
		}
	}
	if kept := int64(len(columns["date"])); kept != o.tally.Kept {
		t.Errorf("%d records in the batches, %d kept", kept, o.tally.Kept)
	}
	for f := range fieldCount {
		if f.isText() || f == date || f == puttLength {
			continue
		}
		for _, text := range columns[definitions[f].columnName()] {
			if text == "" || definitions[f].kind == yesNo {
				continue
			}
			value, err := strconv.ParseFloat(text, 64)
			if err != nil || value < definitions[f].min || value > definitions[f].max {
				t.Errorf("%s is %s, out of range", f, text)
			}
		}
	}
	if strokes := len(slices.DeleteFunc(slices.Clone(columns["shot"]), func(shot string) bool { return shot == "" })); int64(strokes) != o.tally.Kept-o.tally.Scorecards {
		t.Errorf("%d strokes in the batches, %+v", strokes, o.tally)
	}
	if o.tally.Refused > int64(len(o.rejects)) {
		t.Errorf("%d records refused, and only %d rejects", o.tally.Refused, len(o.rejects))
	}
	cut := readInPieces(t, text, 1+pieces%200)
	if o.tally != cut.tally || strings.Join(o.rejects, "\n") != strings.Join(cut.rejects, "\n") {
		t.Errorf("whole %+v %q\nin pieces %+v %q", o.tally, o.rejects, cut.tally, cut.rejects)
	}
	for _, name := range []string{"date", "hole", "shot", "lie", "to_hole_yd", "score", SourceLine, HoleState} {
		if whole, pieces := columns[name], cut.column(name); strings.Join(whole, " ") != strings.Join(pieces, " ") {
			t.Errorf("%s: whole %v, in pieces %v", name, whole, pieces)
		}
	}
}

func FuzzCSV(f *testing.F) {
	f.Add([]byte(plainHeader+goodHole), 50)
	f.Add([]byte(strings.ReplaceAll(plainHeader+goodHole, ",", ";")), 7)
	f.Add([]byte(strings.ReplaceAll(plainHeader+goodHole, "\n", "\r\n")), 99)
	f.Add(demo.CSV[:3000], 170)
	f.Add([]byte("date,hole,par,lie,x,y,hole_x,hole_y\r2026-05-31,1,3,tee,0,0,0,\"1\r"), 3)
	f.Add([]byte("date,hole,par,lie,to_hole,left,finish_lie\n31/5/2026,1,3,,150,\"3\",green\n1/5/2026,x,3,\"gre\nen\",\"1\"2,0\n1/5/2026,1,3,green,9\n"), 20)
	f.Add([]byte("# mine\n\n;;;\nDate;Hole;Par;Lie;To hole (m);Putt length (ft);holed\n2026-05-31;1;3;tee;150,5;;\n2026-05-31;1;3;Greens;;12,5;Yes\n;;;;;;\n"), 40)
	f.Add([]byte("date,hole,par,score,putts,green,shot,lie,to_hole\n2026-05-31,1,4,5,2,no\n2026-05-31,1,4,5,5,x\n,,Out,5\n2026-05-31,2,3,2,,,1,tee,150\n2026-05-31,2,3,2\n2026-05-31,1,4,5,2,no\n"), 30)
	f.Fuzz(func(t *testing.T, text []byte, pieces int) { readsWell(t, text, max(pieces, 0)) })
}

func FuzzJSON(f *testing.F) {
	f.Add([]byte(`[{"date":"2026-05-31","holes":[{"hole":1,"par":3,"shots":[{"lie":"tee","to_hole":150},{"lie":"green","to_hole":2}]}]}]`), 9)
	f.Add([]byte("{\"date\":\"2026-05-31\",\"hole\":1}\n{\"date\":\"\n"), 1)
	f.Add([]byte(`{"rounds":[{"shots":[{"lie":"tee","to_hole_m":150,"to_hole":1},5,null,{"par":4}],"hole":1,"par":3,"date":"2026-05-31"}]}`), 9)
	f.Add([]byte("[\n {\"date\": \"3.4.2026\", \"hole\": 1, \"par\": 3, \"lie\": \"tee\", \"to_hole\": \"1,5e1\"},\n {\"date\": \"13.4.2026\"}\n] x"), 9)
	f.Add([]byte("{\"date\":\"2026-05-31\",\"hole\":1,\"par\":3,\"lie\":\"\\ud800\",\"to_hole\":1} {\"a\":[[[[]]]]}\n{}\n"), 9)
	f.Add([]byte(`[{"date":"2026-05-31","score":9,"holes":[{"hole":1,"par":3,"score":2,"shots":[]},{"hole":{"number":2},"par":4,"score":5,"putts":2},{"hole":1,"par":3,"score":3,"shots":[{"lie":"tee","to_hole":150}]}]}]`), 9)
	f.Fuzz(func(t *testing.T, text []byte, pieces int) {
		if trimmed := strings.TrimSpace(string(text)); trimmed != "" && (trimmed[0] == '{' || trimmed[0] == '[') {
			readsWell(t, text, max(pieces, 0))
		}
	})
}

func FuzzHeader(f *testing.F) {
	for _, name := range []string{"to_hole", "To hole (m)", "TOHOLE", "headwind km/h", "\xc2 m", "Distance to pin [yds]", "lat_deg", "№ hole", "hole\u0301"} {
		f.Add(name, "Dist = to_hole m\n")
	}
	f.Add("Dist", "# mine\nDist = to_hole m\nPlayed = date day first\n")
	f.Fuzz(func(t *testing.T, name, columns string) {
		m, known := matchName(name)
		if known != (m.field != noField) {
			t.Errorf("%q matches %v %v", name, m, known)
		}
		if known && m.unit != NoUnit && units[m.unit].kind != definitions[m.field].kind {
			t.Errorf("%q: %s cannot be in %s", name, m.field, m.unit)
		}
		mapping, err := ReadMapping("m", strings.NewReader(columns))
		if err != nil {
			return
		}
		h, _ := matchHeader([]string{name, "Dist", "lie", ""}, mapping)
		if len(h.meanings) != 4 || h.known()+len(h.unused) > 4 || h.meanings[3].field != noField {
			t.Errorf("%q with %q: %+v", name, columns, h)
		}
	})
}

// FuzzWords holds every vocabulary to its own spelling: what is stored reads
// back as itself.
func FuzzWords(f *testing.F) {
	for _, text := range []string{"Driver", "1W", "wood 1", "w1", "7 iron", "54°", "First-Cut", "bunkers", "trees", "tree", "in the hole", "OB", "\xc2", "İ", "ß", "left to right"} {
		f.Add(text, "bunkers = fairway\nMud-bath = rough\n")
	}
	f.Fuzz(func(t *testing.T, text, ownLies string) {
		text = validText([]byte(text))
		lies := DefaultLies()
		_ = lies.ReadLies("l", strings.NewReader(ownLies))
		for f := range firstNumber {
			spell := canonical(f, lies)
			word, known := spell(text)
			if !known {
				continue
			}
			if again, known := spell(word); !known || again != word {
				t.Errorf("%s: %q becomes %q, then %q", f, text, word, again)
			}
			if !utf8.ValidString(word) {
				t.Errorf("%s: %q is not UTF-8", f, word)
			}
		}
		if word, known := lies.word(text); known && (lies[word] == NoCategory || lies[word] > Green) {
			t.Errorf("lie %q becomes %q, %s", text, word, lies[word])
		}
	})
}
