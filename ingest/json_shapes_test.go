package ingest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// A par 3 in three strokes, in the layouts that programs write.
func TestLayoutsOfJSON(t *testing.T) {
	shots := []string{`"lie":"tee","to_hole":150`, `"lie":"bunker","to_hole":10`, `"lie":"green","to_hole":3`}
	numbered := func(format string) string {
		var all []string
		for i, shot := range shots {
			all = append(all, fmt.Sprintf(format, shot, i+1))
		}
		return strings.Join(all, ",")
	}
	for name, text := range map[string]string{
		"the hole as an object":               "[" + numbered(`{"round":{"date":"2026-05-31","course":{"name":"Invented","rating":71.2}},"hole":{"number":4,"par":3,"stroke_index":7},"shot":{"number":%[2]d,%[1]s}}`) + "]",
		"numbers named by their list":         `{"rounds":[{"date":"2026-05-31","course":"Invented","course_rating":71.2,"holes":[{"number":4,"par":3,"stroke_index":7,"shots":[` + numbered(`{"number":%[2]d,%[1]s}`) + `]}]}]}`,
		"one object around all":               `{"season":{"course":{"name":"Invented","rating":71.2},"round":{"date":"2026-05-31","hole":{"number":4,"par":3,"si":7,"strokes":[` + numbered(`{%s,"no":%d}`) + `]}}}}`,
		"shots before what they inherit":      `{"course":"Invented","course_rating":71.2,"holes":[{"shots":[` + numbered(`{%s,"shot":%d}`) + `],"hole":4,"par":3,"stroke_index":7}],"date":"2026-05-31"}`,
		"properties":                          `[` + numbered(`{"properties":{"date":"2026-05-31","course":"Invented","course_rating":71.2,"hole":4,"par":3,"stroke_index":7,%s,"shot":%d}}`) + `]`,
		"null where there is nothing, and no": `[` + numbered(`{"date":"2026-05-31","course":"Invented","course_rating":71.2,"hole":4,"par":3,"stroke_index":7,%s,"shot":%d,"club":null,"left":null,"tags":[],"weather":{"rain":true}}`) + `]`,
	} {
		t.Run(name, func(t *testing.T) {
			o := readLog(t, "log", text, Options{})
			got := ""
			for _, column := range []string{"date", "course", "course_rating", "hole", "par", "stroke_index", "shot", "lie", "to_hole_yd", HoleState} {
				got += strings.Join(o.column(column), " ") + "|"
			}
			const want = "2026-05-31 2026-05-31 2026-05-31|Invented Invented Invented|71.2 71.2 71.2|4 4 4|3 3 3|7 7 7|1 2 3|tee bunker green|150 10 1|0 0 0|"
			if got != want || len(o.rejects) > 0 {
				t.Errorf("%s\nexpected\n%s\n%q %q", got, want, o.rejects, o.notes)
			}
		})
	}
}

func feature(coordinates, properties string) string {
	return `{"type":"Feature","geometry":{"type":"Point","coordinates":` + coordinates + `},"properties":{"date":"2026-05-31","hole":1,"par":3,` + properties + `}}`
}

// RFC 7946: coordinates are longitude, latitude, perhaps height.
func TestGeoJSON(t *testing.T) {
	const cut = `"hole_lat":56.3013,"hole_lon":-2.8`
	features := strings.Join([]string{
		feature("[-2.8, 56.3]", `"shot":1,"lie":"tee",`+cut),
		feature("[-2.80005, 56.3012, 4.5]", `"shot":2,"lie":"rough"`),
		feature("[-2.8, 56.30129]", `"shot":3,"lie":"green","pin":{"lat":56.3013,"lon":-2.8}`),
	}, ",\n")
	for name, text := range map[string]string{
		"a collection": `{"type":"FeatureCollection","features":[` + features + `]}`,
		"an array":     "[" + features + "]",
		"one a line":   strings.ReplaceAll(features, ",\n", "\n"),
		"with the hole of the round": `{"hole_position":{"latitude":56.3013,"longitude":-2.8},"features":[` +
			strings.NewReplacer(cut, `"mood":1`, `,"pin":{"lat":56.3013,"lon":-2.8}`, "").Replace(features) + `]}`,
	} {
		t.Run(name, func(t *testing.T) {
			o := readLog(t, "log", text, Options{})
			if got := strings.Join(o.column("lon_deg"), " ") + "|" + strings.Join(o.column("lat_deg"), " ") + "|" + o.column("hole_lat_deg")[0]; got != "-2.8 -2.80005 -2.8|56.3 56.3012 56.30129|56.3013" || len(o.rejects) > 0 {
				t.Errorf("%s %q", got, o.rejects)
			}
			if slices.ContainsFunc(o.notes, func(n string) bool { return !strings.Contains(n, "mood") }) {
				t.Errorf("notes %q", o.notes)
			}
		})
	}
	for coordinates, want := range map[string]string{
		"[56.3, -2.8]":             `log:1: lat "-2.8": expected a position within 700 yd of the hole, this one is`,
		"[-2.8]":                   "log:1: expected a geometry of one point: longitude, latitude",
		"[[-2.8, 56.3]]":           "log:1: expected a geometry of one point: longitude, latitude",
		"[-2.8, 96.3]":             `log:1: lat "96.3": expected -90 to 90; latitude and longitude may have changed places`,
		`["west", 56.3]`:           `log:1: lon "west": expected a number`,
		"[-2.85, 56.3]":            `log:1: lat "56.3": expected a position within 700 yd of the hole, this one is`,
		`[-2.8, 56.3], "bbox": []`: "",
	} {
		o := readLog(t, "log", feature(coordinates, `"lie":"tee",`+cut), Options{})
		if want == "" && len(o.rejects) == 0 {
			continue
		}
		if len(o.rejects) != 1 || !strings.HasPrefix(o.rejects[0], want) || want == "" {
			t.Errorf("%s: %q, expected %s", coordinates, o.rejects, want)
		}
		if swapped := coordinates == "[56.3, -2.8]"; swapped && !strings.HasSuffix(o.rejects[0], "; latitude and longitude of the ball, or of the hole, have changed places") {
			t.Errorf("%q", o.rejects)
		}
	}
}

func TestPositionsFarFromTheHoleAreRefused(t *testing.T) {
	for _, c := range []struct{ header, records, want string }{
		{"lat,lon,hole_lat,hole_lon", "56.3,-2.8,-2.8,56.301", "latitude and longitude of the ball, or of the hole, have changed places"},
		{"lat,lon,hole_lat,hole_lon", "-2.8,56.3,56.301,-2.8", "latitude and longitude of the ball, or of the hole, have changed places"},
		{"lat,lon,hole_lat,hole_lon", "56.4,-2.8,56.301,-2.8", "look for a digit that is wrong, or a position of another hole"},
		{"x,y,hole_x,hole_y", "0,0,0,900", "positions are in yards unless the header names a unit"},
		{"x,y,hole_x,hole_y", "0,0,0,400", ""},
		{"x_ft,y_ft,hole_x_ft,hole_y_ft", "0,0,0,900", ""},
		{"lat,lon,hole_lat,hole_lon", "56.3,-2.8,,", ""},
	} {
		o := readLog(t, "log", "date,hole,par,lie,holed,"+c.header+"\n2026-05-31,1,3,tee,yes,"+c.records+"\n", Options{})
		if c.want == "" && len(o.rejects) > 0 || c.want != "" && (len(o.rejects) != 1 || !strings.HasSuffix(o.rejects[0], c.want)) {
			t.Errorf("%s %s: %q, expected %s", c.header, c.records, o.rejects, c.want)
		}
	}
}

// What stands before a syntax error counts, shot by shot, and the hole that it
// broke has no end.
func TestWhatStandsBeforeASyntaxErrorIsRead(t *testing.T) {
	round := func(date string, holes ...string) string {
		return `{"date":"` + date + `","holes":[` + strings.Join(holes, ",\n") + `]}`
	}
	hole := func(number int, third string) string {
		return fmt.Sprintf(`{"hole":%d,"par":3,"shots":[{"lie":"tee","to_hole":150},{"lie":"green","to_hole":20},%s]}`, number, third)
	}
	const last, broken = `{"lie":"green","to_hole":2}`, `{"lie":"green","to_hole":}`
	for _, c := range []struct{ name, text, kept, states, reject string }{
		{"in the only round", `{"rounds":[` + round("2026-05-30", hole(1, last), hole(2, broken), hole(3, last)) + "]}", "11122", "00022",
			"log:2: expected JSON, invalid character '}' at start of value; the rest of the file is not read"},
		{"in the second round of an array", "[" + round("2026-05-30", hole(1, last)) + ",\n" + round("2026-05-31", hole(1, last), hole(2, broken)) + "]", "11111122", "00000022",
			"log:3: expected JSON, invalid character '}' after array element (expecting ',' or ']'); the rest of the file is not read"},
		{"cut between holes", `{"rounds":[` + round("2026-05-30", hole(1, last), hole(2, last))[:150], "111", "222",
			"log:2: expected JSON, unexpected EOF; the rest of the file is not read"},
		{"what the round says behind its holes", `{"rounds":[{"holes":[` + hole(1, last) + `],"date":"2026-05-30",}]}`, "111", "222",
			"log:1: expected JSON, invalid character '}' at start of string (expecting '\"'); the rest of the file is not read"},
		{"a shot cut in two", `[` + round("2026-05-30", `{"hole":1,"par":3,"shots":[{"lie":"tee","to_hole":150,"tags":[{"a":1}],oh`), "", "",
			"log:1: expected JSON, invalid character 'o' at start of string (expecting '\"'); the rest of the file is not read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, pieces := range []int{defaultChunkBytes, 1} {
				o := readInPieces(t, []byte(c.text), pieces)
				var rejects []string
				for _, reject := range o.rejects {
					if strings.Contains(reject, "expected JSON") {
						rejects = append(rejects, reject)
					}
				}
				if got := strings.Join(o.column("hole"), ""); got != c.kept || strings.Join(o.column(HoleState), "") != c.states {
					t.Errorf("holes %s, states %v, expected %s and %s (%q)", got, o.column(HoleState), c.kept, c.states, o.rejects)
				}
				if strings.Join(rejects, "\n") != c.reject {
					t.Errorf("%q\nexpected %s", o.rejects, c.reject)
				}
			}
		})
	}
}

// JSON that is not UTF-8 keeps its letters, and says so.
func TestWindows1252InJSON(t *testing.T) {
	text := "{\"date\":\"2026-05-31\",\"course\":\"Caf\xe9\",\"hole\":1,\"par\":3,\"lie\":\"tee\",\"to_hole\":40}"
	reader, err := OpenText("log", []byte(text), Options{})
	if err != nil {
		t.Fatal(err)
	}
	o := readAll(t, reader)
	if got := strings.Join(o.column("course"), ""); got != "Caf\u00e9" {
		t.Errorf("%q %q", got, o.rejects)
	}
	if as := strings.Join(reader.ReadAs()[0], "\n"); !strings.Contains(as, "what is not UTF-8 read as Windows-1252, such as Caf\u00e9 on line 1") {
		t.Errorf("%s", as)
	}
}
