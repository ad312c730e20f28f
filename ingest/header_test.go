package ingest

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestHeadersThatMeanAField(t *testing.T) {
	for _, c := range []struct {
		name  string
		field field
		unit  Unit
	}{
		{"to_hole", toHole, NoUnit},
		{"To hole", toHole, NoUnit},
		{"TOHOLE", toHole, NoUnit},
		{"to-hole", toHole, NoUnit},
		{" to.hole ", toHole, NoUnit},
		{"to_hole_yd", toHole, Yards},
		{"To hole (m)", toHole, Metres},
		{"To Hole [feet]", toHole, Feet},
		{"to hole, metres", toHole, Metres},
		{"Distance to pin", toHole, NoUnit},
		{"Distance to pin (yds)", toHole, Yards},
		{"Yards to hole", toHole, NoUnit},
		{"left", left, NoUnit},
		{"left_right", leftRight, NoUnit},
		{"left_right_yd", leftRight, Yards},
		{"Headwind (m/s)", headwind, MetresPerSecond},
		{"crosswind km/h", crosswind, KilometresPerHour},
		{"crosswind_mph", crosswind, MilesPerHour},
		{"lat_deg", latitude, Degrees},
		{"Longitude", longitude, NoUnit},
		{"hole_x (ft)", holeX, Feet},
		{"Hole No.", hole, NoUnit},
		{"SI", strokeIndex, NoUnit},
		{"Comments", note, NoUnit},
	} {
		if m, known := matchName(c.name); !known || m.field != c.field || m.unit != c.unit {
			t.Errorf("%q is %v in %q, expected %v in %q", c.name, m.field, m.unit, c.field, c.unit)
		}
	}
}

func TestHeadersThatMeanNothing(t *testing.T) {
	for _, name := range []string{"", "-", "tohoel", "to_hole_mph", "headwind_yd", "lie_m", "date_ft", "yd", "hole m", "to hole in one", "\xc2m"} {
		if m, known := matchName(name); known {
			t.Errorf("%q is taken for %s in %q", name, m.field, m.unit)
		}
	}
}

// Every field goes by its own name, by that of its column in the tables, and by
// each synonym; none of them means two fields.
func TestEveryFieldGoesByItsNames(t *testing.T) {
	for f := range fieldCount {
		for _, name := range append([]string{definitions[f].name, definitions[f].columnName(), strings.ToUpper(definitions[f].name)}, definitions[f].synonyms...) {
			if m, known := matchName(name); !known || m.field != f {
				t.Errorf("%q is %s, expected %s", name, m.field, f)
			}
		}
	}
}

func TestCaseAndPunctuationOfAHeaderDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(slices.Collect(func(yield func(field) bool) {
			for f := range fieldCount {
				if !yield(f) {
					return
				}
			}
		})).Draw(t, "field")
		name := ""
		for _, letter := range definitions[f].name {
			if letter != '_' {
				name += rapid.SampledFrom([]string{string(letter), strings.ToUpper(string(letter))}).Draw(t, "letter")
			}
			name += rapid.SampledFrom([]string{"", "", "", " ", "_", "-", ".", "#"}).Draw(t, "mark")
		}
		if m, known := matchName(name); !known || m.field != f {
			t.Fatalf("%q is %v, expected %s", name, m.field, f)
		}
	})
}

func TestUnitsAreKnownByTheirNames(t *testing.T) {
	for text, want := range map[string]Unit{"yd": Yards, "Yards": Yards, "ft": Feet, "foot": Feet, "M": Metres, "meters": Metres, "mph": MilesPerHour, "m/s": MetresPerSecond, "km/h": KilometresPerHour, "deg": Degrees} {
		if unit, err := ParseUnit(text); err != nil || unit != want {
			t.Errorf("%q is %v, %v", text, unit, err)
		}
	}
	if _, err := ParseUnit("furlong"); err == nil || err.Error() != `unknown unit "furlong": expected yd, ft, m, mph, m/s, km/h or deg` {
		t.Error(err)
	}
}

// 1 yd = 0.9144 m and 1 ft = 0.3048 m, exactly (international yard and pound
// agreement, 1959); a mile is 1,760 yards and an hour 3,600 seconds.
func TestFactorsOfUnitsAreExact(t *testing.T) {
	const mile = 1760 * 0.9144
	for unit, want := range map[Unit]float64{
		Yards: 1, Feet: 0.9144 / 0.3048, Metres: 0.9144,
		MilesPerHour: 1, MetresPerSecond: mile / 3600, KilometresPerHour: mile / 1000,
	} {
		if got := units[unit].perBase; got != want {
			t.Errorf("%s: %v to the base unit, expected %v", unit, got, want)
		}
	}
}

func TestHeadersOfAWholeFile(t *testing.T) {
	needed := "date,hole,par,lie,to_hole"
	mapped, err := ReadMapping("m", strings.NewReader("Position = lie\nGap = to_hole m\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, columns, unused, problem string
		mapping                        Mapping
	}{
		{name: "all that is needed", columns: needed},
		{name: "more than is known", columns: needed + ",mood,,weather", unused: "mood weather"},
		{name: "positions instead of a distance", columns: "date,hole,par,lie,lat,lon"},
		{name: "half a position", columns: "date,hole,par,lie,lat", problem: "no column for to_hole; name the column so, or map yours with --columns (`their name = our name`)"},
		{name: "two missing", columns: "date,hole,to_hole,club", problem: "no column for par and lie; name the column so, or map yours with --columns (`their name = our name`)"},
		{name: "one nearly right", columns: "date,hole,par,lay,to_hole", unused: "lay", problem: `no column for lie; name the column so, or map yours with --columns (` + "`their name = our name`); not known: lay"},
		{name: "one misspelt", columns: "date,holle,par,lie,to_hole", unused: "holle", problem: `no column for hole; is "holle" meant as hole? Then rename it, or map it with --columns`},
		{name: "a slip in the mapping", columns: "date,hole,par,Posiion,GAP", unused: "Posiion", mapping: mapped, problem: `no column for lie; --columns names "Position": did you mean "Posiion"?`},
		{name: "twice", columns: needed + ",Distance to pin,mood", unused: "mood", problem: `columns "to_hole" and "Distance to pin" both mean to_hole: rename one, or say with --columns which is meant`},
		{name: "mapped", columns: "date,hole,par,Position,GAP", mapping: mapped},
		{name: "what is mapped goes first", columns: needed + ",position,gap", unused: "lie to_hole", mapping: mapped},
		{name: "mapped twice over", columns: "date,hole,par,Position,gap,posi tion", problem: `columns "Position" and "posi tion" both mean lie: rename one, or say with --columns which is meant`, mapping: mapped},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, problem := matchHeader(strings.Split(c.columns, ","), c.mapping)
			if got := strings.Join(h.unused, " "); got != c.unused {
				t.Errorf("unused %q, expected %q", got, c.unused)
			}
			if (problem != nil || c.problem != "") && fmt.Sprint(problem) != c.problem {
				t.Errorf("%v\nexpected %s", problem, c.problem)
			}
		})
	}
}

func TestMappingFilesSayWhichLineIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"# x\n%% = lie\n":                 `m.txt:2: "%%" has no letters to tell a column by`,
		"Spot = lie\nspot = club\n":       `m.txt:2: "spot" is mapped twice`,
		"Spot = \n":                       "m.txt:1: \"Spot =\": expected a line `left = right`",
		"Spot\xff = to_hole\n":            "",
		"\ufeffSpot = to_hole (m)\r\n":    "",
		"Played = Date, DAY first\n":      "",
		"Played = hole day first\n":       `m.txt:1: "hole day first" is no field of the shot log`,
		strings.Repeat("x", 70000) + "\n": "m.txt: bufio.Scanner: token too long",
	} {
		_, err := ReadMapping("m.txt", strings.NewReader(text))
		if want == "" && err != nil || want != "" && (err == nil || !strings.HasPrefix(err.Error(), want)) {
			t.Errorf("%.40q: %v, expected %s", text, err, want)
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

// A name of the mapping that no file has is said, with the nearest one.
func TestAMappingThatNoFileUsesIsSaid(t *testing.T) {
	mapping, err := ReadMapping("m", strings.NewReader("Dist = to_hole m\nMoood = note\nWind speed = headwind\n"))
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"csv":  "date,hole,par,lie,dist,Mood\n2026-05-31,1,3,tee,40,calm\n",
		"json": `{"date":"2026-05-31","hole":1,"par":3,"lie":"tee","dist":40,"Mood":"calm"}`,
	} {
		o := readLog(t, name, text, Options{Columns: mapping})
		for _, want := range []string{`--columns: no file has a column "Moood"; did you mean "Mood"?`, `--columns: no file has a column "Wind speed"`} {
			if !slices.Contains(o.notes, want) {
				t.Errorf("%s: notes %q, expected %s", name, o.notes, want)
			}
		}
		if strings.Contains(strings.Join(o.notes, "\n"), `"Dist"`) {
			t.Errorf("%s: notes %q", name, o.notes)
		}
	}
}
