package plots

import (
	"bytes"
	"flag"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"roundmill/metrics"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// situation is a season to draw both charts of.
type situation struct {
	name       string
	season     Season
	approaches []metrics.ApproachProximity
	gains      []metrics.StrokesGained
}

func (s situation) charts() []*Chart {
	var charts []*Chart
	if chart, _ := ApproachProximityChart(s.season, s.approaches); chart != nil {
		charts = append(charts, chart)
	}
	if chart, _ := StrokesGainedChart(s.season, s.gains); chart != nil {
		charts = append(charts, chart)
	}
	return charts
}

func situations() []situation {
	season := func(change func(*Season)) Season {
		s := inventedSeason
		change(&s)
		s.Shots = 73 * s.Rounds
		return s
	}
	named := func(s situation, player string) situation {
		s.season.Player = player
		s.season.Baseline, s.season.BaselineNote = player, player
		for i := range s.approaches {
			s.approaches[i].Player = player
		}
		for i := range s.gains {
			s.gains[i].Player = player
		}
		return s
	}
	usual := func(name string) situation {
		return situation{name, inventedSeason, inventedApproaches(3, 46, bandEdges(Yards), 1.5), inventedStrokesGained(46, inventedGains)}
	}
	return []situation{
		usual("usual"),
		{"five-rounds", season(func(s *Season) { s.Rounds = 5 }), inventedApproaches(4, 5, bandEdges(Yards), 1.5), inventedStrokesGained(5, inventedGains)},
		{"four-rounds", season(func(s *Season) { s.Rounds = 4 }), inventedApproaches(5, 4, bandEdges(Yards), 1.5), inventedStrokesGained(4, inventedGains)},
		{"one-round", season(func(s *Season) { s.Rounds, s.To = 1, s.From }), inventedApproaches(6, 1, bandEdges(Yards), 1.5), inventedStrokesGained(1, inventedGains)},
		{"300-rounds", season(func(s *Season) { s.Rounds = 300 }), inventedApproaches(7, 300, bandEdges(Yards), 1.4), inventedStrokesGained(300, inventedGains)},
		{"thousands-a-cell", season(func(s *Season) { s.Rounds = 5000 }), inventedApproaches(8, 5000, bandEdges(Yards), 1.4), inventedStrokesGained(5000, inventedGains)},
		{"metres", season(func(s *Season) { s.Units = Metres }), inventedApproaches(9, 46, bandEdges(Metres), 1), inventedStrokesGained(46, inventedGains)},
		{"one-band", inventedSeason, inventedApproaches(10, 46, []float64{100, 150}, 1.5), inventedStrokesGained(46, inventedGains[:1])},
		{"twenty-bands", inventedSeason, inventedApproaches(11, 60, twentyBands(), 1.5), inventedStrokesGained(46, inventedGains[:4])},
		named(usual("long-name"), strings.Repeat("Maximiliane-Ottilie van der Sample ", 9)),
		named(usual("unbroken-name"), strings.Repeat("Sample", 50)),
		named(usual("right-to-left-name"), "שלום \u202eدوگمه\u200e (1) Alex"),
		named(usual("emoji-name"), "Ale\u0301x 🏌🏽‍♀️⛳ Z̡͎͈̟͗̾a̵͔l̷̢g̶̱o 見本\n<b>x</b>"),
	}
}

func twentyBands() []float64 {
	var edges []float64
	for yd := 50.0; yd <= 250; yd += 10 {
		edges = append(edges, yd)
	}
	return edges
}

// golden are the pictures checked in, by chart and situation.
var golden = map[string][]string{
	"approach-proximity": {"usual", "five-rounds", "one-round", "300-rounds", "metres", "one-band", "twenty-bands"},
	"strokes-gained":     {"usual", "five-rounds", "one-round", "one-band", "emoji-name", "right-to-left-name"},
}

func TestChartsLookAsCheckedIn(t *testing.T) {
	compared := 0
	for _, s := range situations() {
		for _, chart := range s.charts() {
			if !slices.Contains(golden[chart.Name], s.name) {
				continue
			}
			compared++
			name := chart.Name + "-" + s.name + ".png"
			t.Run(name, func(t *testing.T) {
				assertLooksAsCheckedIn(t, chart, filepath.Join("testdata", "golden", name))
			})
		}
	}
	if want := len(golden["approach-proximity"]) + len(golden["strokes-gained"]); compared != want {
		t.Errorf("%d pictures were compared, want %d", compared, want)
	}
}

// assertLooksAsCheckedIn compares a chart with a picture, or writes the picture
// with -update.
func assertLooksAsCheckedIn(t *testing.T, chart *Chart, path string) {
	t.Helper()
	var drawn bytes.Buffer
	if err := chart.WritePNG(&drawn); err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(path, drawn.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	assertSamePicture(t, drawn.Bytes(), want)
}

// assertSamePicture lets pass what rounding does to the edges of shapes on
// another processor: one pixel in two thousand may differ, and by little.
func assertSamePicture(t *testing.T, got, want []byte) {
	t.Helper()
	a, b := decoded(t, got), decoded(t, want)
	if a.Bounds() != b.Bounds() {
		t.Fatalf("the picture is %v, the one checked in %v", a.Bounds().Max, b.Bounds().Max)
	}
	const littleOf16Bits = 0x1800
	differing := 0
	for y := range a.Bounds().Max.Y {
		for x := range a.Bounds().Max.X {
			r0, g0, b0, _ := a.At(x, y).RGBA()
			r1, g1, b1, _ := b.At(x, y).RGBA()
			if apart(r0, r1) > littleOf16Bits || apart(g0, g1) > littleOf16Bits || apart(b0, b1) > littleOf16Bits {
				differing++
			}
		}
	}
	if most := a.Bounds().Dx() * a.Bounds().Dy() / 2000; differing > most {
		t.Errorf("%d pixels differ from the picture checked in, more than %d; look at it, then run with -update", differing, most)
	}
}

func apart(a, b uint32) uint32 { return max(a, b) - min(a, b) }

func decoded(t *testing.T, picture []byte) image.Image {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(picture))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func TestSameFiguresGiveTheSameBytes(t *testing.T) {
	for _, chart := range situations()[0].charts() {
		var first, second bytes.Buffer
		if err := chart.WritePNG(&first); err != nil {
			t.Fatal(err)
		}
		if err := chart.WritePNG(&second); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Errorf("%s came out differently the second time", chart.Name)
		}
	}
}
