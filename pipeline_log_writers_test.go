package main

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"roundmill/testdata/demo"
)

// A habitShot is a stroke of a season that is written in several habits. The
// hole is the origin; x is yards east of it and y yards north.
type habitShot struct {
	date, course, hole, par, shot, lie, club, penalty, holed string
	x, y                                                     float64
	long, right                                              float64 // NaN: not known
}

func (s *habitShot) toHole() float64 { return math.Hypot(s.x, s.y) }

// habitSeason is rounds of the demo season with every ball given a place. The
// thousandths keep distances off the edges of bands, whatever unit they are
// rounded in.
func habitSeason(t *testing.T, rounds int) []habitShot {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(demo.CSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	var shots []habitShot
	days := map[string]bool{}
	for _, row := range rows[1:] {
		cell := func(name string) string { return row[at[name]] }
		if days[cell("date")] = true; len(days) > rounds {
			break
		}
		distance, err := strconv.ParseFloat(cell("to_hole"), 64)
		if err != nil {
			t.Fatal(err)
		}
		if cell("lie") == "green" {
			distance /= 3
		}
		distance += 0.0137
		turn := float64((len(shots)*37)%100)/100 - 0.5
		shots = append(shots, habitShot{
			cell("date"), cell("course"), cell("hole"), cell("par"), cell("shot"), cell("lie"), cell("club"), cell("penalty"), cell("holed"),
			distance * math.Sin(turn), -distance * math.Cos(turn), math.NaN(), math.NaN(),
		})
	}
	for i := range shots {
		s := &shots[i]
		last := i+1 == len(shots) || shots[i+1].hole != s.hole || shots[i+1].date != s.date
		toX, toY := 0.0, 0.0
		switch {
		case s.penalty != "" && s.penalty != "0", last && s.holed == "no":
			continue
		case !last:
			toX, toY = shots[i+1].x, shots[i+1].y
		}
		alongX, alongY := -s.x/s.toHole(), -s.y/s.toHole()
		s.long, s.right = toX*alongX+toY*alongY, toX*alongY-toY*alongX
	}
	return shots
}

// A habit is how somebody writes: which columns, and each cell of them.
type habit struct {
	names []string
	cells func(s *habitShot) []string
}

func fixed(value float64, decimals int) string {
	if math.IsNaN(value) {
		return ""
	}
	return strconv.FormatFloat(value, 'f', decimals, 64)
}

// inUnit writes every distance in one unit, or as the log has it by default
// when the unit has no name.
func inUnit(suffix string, perYard float64) habit {
	return habit{
		strings.Split("date,course,hole,par,shot,lie,to_hole"+suffix+",club,penalty,holed,long_short"+suffix+",left_right"+suffix, ","),
		func(s *habitShot) []string {
			distance := s.toHole() * perYard
			if suffix == "" && s.lie == "green" {
				distance *= 3
			}
			return []string{s.date, s.course, s.hole, s.par, s.shot, s.lie, fixed(distance, 5), s.club, s.penalty, s.holed, fixed(s.long*perYard, 5), fixed(s.right*perYard, 5)}
		},
	}
}

// byPosition writes no distance at all. At 45 degrees a degree of latitude is
// 111.132 km and one of longitude 78.847 km (WGS 84, NIMA TR8350.2).
func byPosition() habit {
	const perLatitude, perLongitude = 111131.75 / 0.9144, 78846.81 / 0.9144
	return habit{
		strings.Split("date,course,hole,par,shot,lie,lat,lon,hole_lat,hole_lon,club,penalty,holed,aim_left_right", ","),
		func(s *habitShot) []string {
			return []string{s.date, s.course, s.hole, s.par, s.shot, s.lie, fixed(45+s.y/perLatitude, 9), fixed(-3+s.x/perLongitude, 9), "45", "-3", s.club, s.penalty, s.holed, "0"}
		},
	}
}

func (h habit) csv(shots []habitShot, separator rune) string {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Comma = separator
	w.Write(h.names)
	for i := range shots {
		w.Write(h.cells(&shots[i]))
	}
	w.Flush()
	return out.String()
}

// objects are the shots as JSON; keys of the round and the hole may be left
// out.
func (h habit) objects(shots []habitShot, without ...string) (objects []string) {
	for i := range shots {
		object := map[string]string{}
		for column, cell := range h.cells(&shots[i]) {
			if cell != "" && !slices.Contains(without, h.names[column]) {
				object[h.names[column]] = cell
			}
		}
		text, _ := json.Marshal(object)
		objects = append(objects, string(text))
	}
	return objects
}

// byRound is every round as a JSON object that holds holes that hold shots.
func (h habit) byRound(shots []habitShot) (rounds []string) {
	runs := func(shots []habitShot, key func(*habitShot) string) (parts [][]habitShot) {
		for from, i := 0, 1; i <= len(shots); i++ {
			if i == len(shots) || key(&shots[i]) != key(&shots[from]) {
				parts = append(parts, shots[from:i])
				from = i
			}
		}
		return parts
	}
	for _, round := range runs(shots, func(s *habitShot) string { return s.date }) {
		var holes []string
		for _, hole := range runs(round, func(s *habitShot) string { return s.hole }) {
			holes = append(holes, fmt.Sprintf(`{"number": %s, "par": %s, "shots": [%s]}`, hole[0].hole, hole[0].par, strings.Join(h.objects(hole, "date", "course", "hole", "par"), ",\n")))
		}
		rounds = append(rounds, fmt.Sprintf(`{"date": %q, "course": {"name": %q}, "holes": [%s]}`, round[0].date, round[0].course, strings.Join(holes, ",\n")))
	}
	return rounds
}

func utf16Text(text string) string {
	var out []byte
	for _, unit := range utf16.Encode([]rune("\ufeff" + text)) {
		out = append(out, byte(unit), byte(unit>>8))
	}
	return string(out)
}

func packed(t *testing.T, text string) string {
	t.Helper()
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	w.Write([]byte(text))
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func geoJSON(h habit, shots []habitShot) string {
	var features []string
	for i, properties := range h.objects(shots, "lat", "lon") {
		cells := h.cells(&shots[i])
		features = append(features, fmt.Sprintf(`{"type":"Feature","geometry":{"type":"Point","coordinates":[%s,%s]},"properties":%s}`, cells[7], cells[6], properties))
	}
	return `{"type":"FeatureCollection","features":[` + strings.Join(features, ",\n") + "]}"
}
