package ingest

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// readJSONLines is all that comes of lines, and how many of them were plain.
func readJSONLines(lines []byte, onlyCareful bool) (said string, plain int) {
	p := newRecordParser(&file{name: "f", dates: dayFirst}, 0, DefaultLies(), NoUnit)
	p.commas = true
	walker := newJSONWalker(nil, p)
	if onlyCareful {
		for i, line := range bytes.Split(lines, []byte{'\n'}) {
			if line = withoutComma(line); len(line) > 0 {
				walker.element(element{value: line, line: i + 1})
			}
		}
	} else {
		feeder := jsonLineFeeder{walker: walker}
		for i, line := range bytes.Split(lines, []byte{'\n'}) {
			before := p.tally.Records
			feeder.feed(line, i+1)
			if feeder.before != nil && p.tally.Records > before {
				plain++
			}
		}
	}
	r := p.rows
	r.trim()
	said = fmt.Sprintf("%+v %q %v %v %v %+v\n", p.tally, p.rejects, p.strays, sortedKeys(walker.unused), slices.Sorted(maps.Keys(walker.seen.names)), p.seen)
	for row := range r.n {
		said += fmt.Sprint(r.line[row], r.refused[row], r.leftOpen[row])
		for f := range fieldCount {
			if f.isText() {
				said += "|" + r.text(f, row)
			} else {
				said += fmt.Sprint("|", r.number(f, row))
			}
		}
		said += "\n"
	}
	return said, plain
}

// bothWays holds the loop over plain lines to the walker.
func bothWays(t tester, lines []byte) (plain int) {
	t.Helper()
	fast, plain := readJSONLines(lines, false)
	careful, _ := readJSONLines(lines, true)
	if fast != careful {
		t.Errorf("%s\nfast    %s\ncareful %s", lines, fast, careful)
	}
	return plain
}

const (
	plainLine   = `{"date":"2026-05-31","player":"Wenlo","course":"Ostlewick","hole":1,"par":3,"shot":1,"lie":"tee","to_hole":150,"left":20.5,"holed":false,"note":null}`
	plainSecond = `{"date":"2026-05-31","player":"Wenlo","course":"Ostlewick","hole":1,"par":3,"shot":2,"lie":"green","to_hole":20.5,"left":0,"holed":true,"note":"Käse"}`
)

func TestUsualJSONLinesArePlain(t *testing.T) {
	for _, lines := range []string{
		plainLine + "\n" + plainSecond,
		strings.ReplaceAll(strings.ReplaceAll(plainLine+"\n"+plainSecond, ",", ", "), ":", ": "),
		plainLine + ",\r\n" + plainSecond + ",\r\n",
		plainLine + "\n" + strings.Replace(plainSecond, `"par":3,`, "", 1) + "\n" + plainSecond, // a refused one between
		`{"date":"2026-05-31","hole":-0,"par":0.50}` + "\n" + plainLine + "\n" + plainSecond,
	} {
		if plain := bothWays(t, []byte(lines)); plain != 2 {
			t.Errorf("%d plain lines in order, expected 2: %s", plain, lines)
		}
	}
}

// unusual are lines, or what may stand in one, that the loop must leave alone or
// read as the walker does.
var unusual = []string{
	`{}`, `{`, `[]`, `5`, `{"date"}`, `{"date":}`, `{"date":"2026-05-31"`, `{"date":"2026-05-31",}`, plainLine + " " + plainSecond, plainLine + "x",
	`{"hole":01}`, `{"hole":1.}`, `{"hole":.5}`, `{"hole":-}`, `{"hole":+1}`, `{"hole":1e0}`, `{"hole":1E+2}`, `{"hole":1e999}`, `{"hole":tru}`, `{"hole":nullx}`,
	`{"hole":"1\u0031"}`, `{"h\u006fle":1}`, "{\"hole\":\"\t1\"}", "{\"hole\":\"\xff\"}", "{\"\xff\":1}", "{\"hole\"\t:1}",
	`{"hole":1,"hole":2}`, `{"hole":1,"Hole":2}`, `{"hole":null,"hole":2}`, `{"hole":{"number":4,"par":3}}`, `{"shots":[{"lie":"tee"}]}`, `{"tags":[1,2]}`,
	`{"type":"Feature","hole":1}`, `{"type":"x","hole":1}`, `{"type":5,"colour":"red","hole":null}`, `{"putts":2,"score":4,"fairway":"yes","date":"2026-05-31","hole":1,"par":4}`,
	`{"to_hole_m":140,"left_ft":"12' 6\\"","date":"3.4.2026"}`, `{"":1}`, `{"hole": 1 , "par" :3 }`, ``, ` , `, `{"hole":1},,`,
}

func TestUnusualJSONLinesComeOutAsTheCarefulWayHasThem(t *testing.T) {
	for _, line := range unusual {
		bothWays(t, []byte(line))
		bothWays(t, []byte(plainLine+"\n"+line+"\n"+plainSecond+"\n"+line))
	}
	entries, err := os.ReadDir("testdata/odd")
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, entry := range entries {
		if !strings.Contains(entry.Name(), "json") {
			continue
		}
		text, err := os.ReadFile("testdata/odd/" + entry.Name())
		if err != nil {
			t.Fatal(err)
		}
		bothWays(t, text)
		compared++
	}
	if compared < 25 {
		t.Errorf("%d files compared", compared)
	}
}

func TestTheFastAndTheCarefulWayThroughJSONLinesAgree(t *testing.T) {
	value := rapid.OneOf(
		rapid.SampledFrom([]string{`1`, `3`, `"tee"`, `"green"`, `"2026-05-31"`, `"1.6.2026"`, `150`, `20.5`, `-0`, `null`, `true`, `"no"`, `""`, `" x "`, `"1,5"`, `[]`, `{}`, `[1]`, `1e2`, `"a\"b"`, `"é"`, `nul`}),
		rapid.Map(rapid.StringN(0, 5, -1), func(s string) string { return `"` + s + `"` }))
	key := rapid.SampledFrom([]string{"date", "player", "course", "round", "hole", "par", "shot", "lie", "to_hole", "to_hole_m", "left", "putt_length", "holed", "note", "type", "colour", "score", "putts", "Hole", "x", "y", "hole_x", "hole_y"})
	space := rapid.SampledFrom([]string{"", "", "", "", " ", "  ", "\t"})
	plain := 0
	rapid.Check(t, func(t *rapid.T) {
		members := []string{`"date":"2026-05-31"`, `"player":"Wenlo"`, `"hole":1`, `"par":3`, `"shot":1`, `"lie":"tee"`, `"to_hole":150`}
		lines := ""
		for range rapid.IntRange(1, 8).Draw(t, "lines") {
			for range rapid.IntRange(0, 2).Draw(t, "changes") {
				member := `"` + key.Draw(t, "key") + `"` + space.Draw(t, "space") + ":" + value.Draw(t, "value")
				switch at := rapid.IntRange(0, len(members)).Draw(t, "at"); {
				case at == len(members) || rapid.Bool().Draw(t, "insert"):
					members = slices.Insert(members, at, member)
				case rapid.Bool().Draw(t, "delete"):
					members = slices.Delete(members, at, at+1)
				default:
					name, _, _ := strings.Cut(members[at], ":")
					members[at] = name + ":" + value.Draw(t, "value")
				}
			}
			line := "{" + strings.Join(members, space.Draw(t, "space")+","+space.Draw(t, "space")) + "}"
			if rapid.IntRange(0, 9).Draw(t, "cut") == 0 {
				line = line[:rapid.IntRange(0, len(line)).Draw(t, "length")]
			}
			lines += line + rapid.SampledFrom([]string{"\n", "\n", "\r\n", ",\n", "\n\n", " "}).Draw(t, "end")
		}
		plain += bothWays(t, []byte(lines))
	})
	if plain == 0 {
		t.Error("no line was plain")
	}
}

func FuzzJSONLines(f *testing.F) {
	f.Add([]byte(plainLine + "\n" + plainSecond))
	for _, line := range unusual {
		f.Add([]byte(plainLine + "\n" + line + "\n" + plainSecond))
	}
	f.Fuzz(func(t *testing.T, lines []byte) { bothWays(t, lines) })
}
