package ingest

import (
	"fmt"
	"strings"
	"testing"
)

// One record with one more column, for every field of the log: what is written,
// what is stored, and what is said of a value that cannot be.
func TestEveryFieldIsTypedAndChecked(t *testing.T) {
	const number = "expected a number; such as 137.5, nothing else in the cell"
	const length = "expected a number; such as 137.5, with yd, m or ft behind it if you like"
	const word = "expected a known word, such as "
	// The others are in every record, and in the table of bad records.
	seen := map[field]bool{date: true, hole: true, par: true, shot: true, lie: true, toHole: true}
	for f := holeScore; f.ofScorecard(); f++ {
		seen[f] = true // see TestScorecardFieldsAreTypedAndChecked
	}
	for _, c := range []struct {
		field           field
		written, stored string
		bad             map[string]string
	}{
		{player, "Ann O'Nimm", "Ann O'Nimm", nil},
		{course, "Invented Links", "Invented Links", nil},
		{tees, "white", "white", nil},
		{round, "2", "2", nil},
		{note, "=1+1, he said", "=1+1, he said", nil},
		{club, "7 Iron", "7i", nil},
		{courseRating, "71,4", "71.4", map[string]string{"91": "expected 20 to 90", "high": number}},
		{slopeRating, "113", "113", map[string]string{"54": "expected 55 to 155", "156": "expected 55 to 155"}},
		{strokeIndex, "18", "18", map[string]string{"0": "expected 1 to 18", "19": "expected 1 to 18", "1.5": "expected a whole number"}},
		{holeLength, "400", "400", map[string]string{"29": "expected 30 to 900 yd", "901": "expected 30 to 900 yd"}},
		{puttLength, "12", "", nil}, // counts on the green only
		{left, "12.5", "12.5", map[string]string{"-1": "expected a distance, not a negative number", "701": "expected 0 to 700 yd", "near": length}},
		{finishLie, "In the hole", "In the hole", map[string]string{"gren": word + "tee, fairway, rough, bunker, recovery, green; did you mean green?"}},
		{longShort, "\u22124.5", "-4.5", map[string]string{"-701": "expected -700 to 700 yd"}},
		{leftRight, "+3", "3", map[string]string{"701": "expected -700 to 700 yd"}},
		{aimLongShort, "-4", "-4", map[string]string{"x": length}},
		{aimLeftRight, "4", "4", map[string]string{"x": length}},
		{pinSide, "Center", "centre", map[string]string{"rigth": word + "centre, left, right", "centrr": word + "centre, left, right; did you mean centre?"}},
		{pinDepth, "centre", "middle", map[string]string{"deep": word + "back, front, middle"}},
		{headwind, "-8", "-8", map[string]string{"101": "expected -100 to 100 mph"}},
		{crosswind, "8", "8", map[string]string{"-101": "expected -100 to 100 mph"}},
		{greenDepth, "30", "30", map[string]string{"0": "expected 1 to 150 yd"}},
		{greenWidth, "25", "25", map[string]string{"151": "expected 1 to 150 yd"}},
		{elevation, "-12", "-12", map[string]string{"201": "expected -200 to 200 yd"}},
		{puttSlope, "DOWNHILL", "downhill", map[string]string{"steep": word + "downhill, level, uphill"}},
		{puttBreak, "Left-to-right", "left to right", map[string]string{"stright": word + "left to right, right to left, straight; did you mean straight?"}},
		{penalty, "2", "2", map[string]string{"OB": "expected a number; 0, 1 or 2 penalty strokes: out of bounds is 1, and the next stroke is played from the same place", "3": "expected 0 to 2", "-1": "expected 0 to 2", "0.5": "expected a whole number"}},
		{penaltyKind, "OOB", "out of bounds", map[string]string{"tree": word + "lost ball, other, out of bounds, penalty area, unplayable"}},
		{intent, "lay-up", "lay up", map[string]string{"atack": word + "attack, get out, lay up, safe; did you mean attack?"}},
		{fault, "Decision", "decision", map[string]string{"wind": word + "decision, execution"}},
		{holed, "NO", "false", map[string]string{"2": "expected yes or no"}},
		{latitude, "56.3", "56.3", map[string]string{"91": "expected -90 to 90"}},
		{longitude, "-2.8", "-2.8", map[string]string{"181": "expected -180 to 180"}},
		{holeLatitude, "56.3", "56.3", map[string]string{"-91": "expected -90 to 90"}},
		{holeLongitude, "-2.8", "-2.8", map[string]string{"-181": "expected -180 to 180"}},
		{x, "-99999", "-99999", map[string]string{"100001": "expected -100000 to 100000 yd"}},
		{y, "1", "1", map[string]string{"-100001": "expected -100000 to 100000 yd"}},
		{holeX, "1", "1", map[string]string{"1e6": "expected -100000 to 100000 yd"}},
		{holeY, "1", "1", map[string]string{"nan": length}},
	} {
		name := definitions[c.field].name
		read := func(value string) outcome {
			header, record := "date,hole,par,shot,lie,to_hole,"+name, `2026-05-31,1,3,1,tee,150,"`+value+`"`
			return readLog(t, "log.csv", header+"\n"+record+"\n", Options{})
		}
		o := read(c.written)
		if column := definitions[c.field].columnName(); c.field != puttLength {
			if got := o.column(column); len(got) != 1 || got[0] != c.stored {
				t.Errorf("%s %q is stored as %q, expected %q (%q)", name, c.written, got, c.stored, o.rejects)
			}
		}
		seen[c.field] = true
		for value, want := range c.bad {
			o := read(value)
			want = fmt.Sprintf("log.csv:2: %s %q: %s", name, value, want)
			if len(o.rejects) != 1 || !strings.HasPrefix(o.rejects[0], want) || o.tally.Kept != 0 {
				t.Errorf("%s %q: %q, expected %s", name, value, o.rejects, want)
			}
		}
		if blank := read(" "); len(blank.rejects) > 0 || blank.tally.Kept != 1 {
			t.Errorf("%s left blank: %q", name, blank.rejects)
		} else if c.field != puttLength && blank.column(definitions[c.field].columnName())[0] != "" {
			t.Errorf("%s left blank is not null", name)
		}
	}
	for f := range fieldCount {
		if !seen[f] {
			t.Errorf("%s is not in the table", f)
		}
	}
}

func TestTheRawSchemaHasEveryFieldOnceInBaseUnits(t *testing.T) {
	seen := map[string]bool{}
	for _, column := range RawSchema.Fields() {
		if seen[column.Name] {
			t.Errorf("%s is there twice", column.Name)
		}
		seen[column.Name] = true
	}
	for f := range fieldCount {
		name := definitions[f].columnName()
		if seen[name] != (f != puttLength) {
			t.Errorf("%s in the schema: %v", name, seen[name])
		}
		switch kind := definitions[f].kind; {
		case kind == distance && f != puttLength && !strings.HasSuffix(name, "_yd"), kind == speed && !strings.HasSuffix(name, "_mph"):
			t.Errorf("%s has no unit in its name", name)
		}
	}
	if len(seen) != int(fieldCount)-1+3 {
		t.Errorf("%d columns", len(seen))
	}
}

// Words of the shot log's table of lies, each with its category.
func TestLiesOfTheTable(t *testing.T) {
	lies := DefaultLies()
	for category, words := range map[Category]string{
		Tee:      "tee|Tee Box|tees",
		Fairway:  "fairway|Fringe|apron|collar|fairways",
		Rough:    "rough|first cut|First-Cut|semi-rough|Semi Rough|light_rough|deep rough|bermuda|native|fescue|hardpan|pine straw|drop zone",
		Sand:     "bunker|sand|greenside bunker|Fairway Bunkers|plugged|waste bunker",
		Recovery: "recovery|trees|tree|woods|wood|blocked|penalty area|Penalty Areas",
		Green:    "green|putting surface|GREENS",
	} {
		for word := range strings.SplitSeq(words, "|") {
			if known, ok := lies.word(word); !ok || lies[known] != category {
				t.Errorf("%q is %s, expected %s", word, lies[known], category)
			}
		}
	}
	for _, word := range []string{"", "s", "gras", "greenish", "rough cut"} {
		if known, ok := lies.word(word); ok {
			t.Errorf("%q was taken for %q", word, known)
		}
	}
}

func TestAPluralMovesTheWordOfTheTable(t *testing.T) {
	lies := DefaultLies()
	if err := lies.ReadLies("l", strings.NewReader("Waste bunkers = rough\nTree = rough\n")); err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"waste bunker", "waste bunkers", "trees", "tree"} {
		if known, _ := lies.word(word); lies[known] != Rough {
			t.Errorf("%s is %s", word, lies[known])
		}
	}
	if err := lies.ReadLies("l", strings.NewReader("-- = rough\n")); err == nil || err.Error() != `l:1: "--" has no letters to tell a lie by` {
		t.Error(err)
	}
}

func TestClubsHaveOneSpelling(t *testing.T) {
	for text, want := range map[string]string{
		"Driver": "driver", "1W": "driver", "3w": "3 wood", "3-wood": "3 wood", "Wood 3": "3 wood", "4H": "4 hybrid", "7i": "7i", "7 Iron": "7i",
		"iron 7": "7i", "Pitching wedge": "PW", "pw": "PW", "54": "54", "54°": "54", "56 degree": "56", "60w": "60", "w1": "driver", "1 wood": "driver", "9-wood": "9 wood", "2 Hybrid": "2 hybrid", "Rescue 4": "4 hybrid", "Lob Wedge": "LW", "A.W.": "a w", "Putter": "putter", "Chipper": "chipper",
	} {
		if got := clubSpelling(text); got != want {
			t.Errorf("%q is %q, expected %q", text, got, want)
		}
	}
}
