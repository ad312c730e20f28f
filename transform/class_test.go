package transform_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"roundmill/ingest"
	"roundmill/transform"
)

// secondStroke enriches a par 5 whose second stroke is the one given, as values
// of some fields; a putt of 3 ft follows. The second stroke is row 1.
func secondStroke(t testing.TB, fields, values string, options transform.Options) *transform.Shots {
	t.Helper()
	blank := strings.Repeat(",", strings.Count(fields, ","))
	log := fmt.Sprintf("shot,lie,to_hole,%[1]s\n1,tee,560,%[2]s\n2,%[3]s\n3,green,3,%[2]s", fields, blank, values)
	shots := enriched(t, logOf(5, log), options)
	if shots.N != 3 {
		t.Fatalf("%d strokes, expected 3", shots.N)
	}
	return shots
}

const secondRow = 1

// An edge is a stroke at a bound of the definitions. Band is its lower edge, 0
// outside all bands.
type edge struct {
	stroke  string // lie, distance, intent
	class   transform.Class
	atGreen bool
	band    float64
}

func TestWhichStrokesPlayAtTheGreen(t *testing.T) {
	compareEdges(t, transform.Options{}, []edge{
		{"fairway,250,", transform.Approach, true, 0},
		{"fairway,250.1,", transform.Approach, false, 0},
		{"fairway,249.9,", transform.Approach, true, 225},
		{"fairway,240,attack", transform.Approach, true, 225},
		{"fairway,240,safe", transform.Approach, true, 225},
		{"fairway,240,lay up", transform.Approach, false, 225},
		{"fairway,240,Lay-up", transform.Approach, false, 225},
		{"rough,120,get out", transform.Approach, false, 100},
		{"trees,120,", transform.Approach, false, 100},
		{"penalty area,120,attack", transform.Approach, false, 100},
		{"fairway bunker,120,", transform.Approach, true, 100},
		{"rough,120,", transform.Approach, true, 100},
		{"fairway,50,attack", transform.ShortGame, false, 50},
		{"green,30,", transform.Putt, false, 0},
		{"tee,200,", transform.TeeShot, false, 200},
		{"tee,40,", transform.TeeShot, false, 0},
	})
}

func TestWhereTheShortGameBegins(t *testing.T) {
	compareEdges(t, transform.Options{}, []edge{
		{"fairway,50,", transform.ShortGame, false, 50},
		{"fairway,50.1,", transform.Approach, true, 50},
		{"fairway,49.9,", transform.ShortGame, false, 0},
		{"trees,30,", transform.ShortGame, false, 0},
		{"bunker,10,", transform.ShortGame, false, 0},
	})
	compareEdges(t, transform.Options{ShortGameYd: 30, ReachYd: 200, BandsYd: []float64{0, 30, 200}}, []edge{
		{"fairway,30,", transform.ShortGame, false, 30},
		{"fairway,30.1,", transform.Approach, true, 30},
		{"fairway,29.9,", transform.ShortGame, false, 0},
		{"fairway,200,", transform.Approach, true, math.NaN()},
		{"fairway,200.1,", transform.Approach, false, math.NaN()},
	})
}

func TestBandsTakeInTheirLowerEdgeOnly(t *testing.T) {
	compareEdges(t, transform.Options{}, []edge{
		{"fairway,74.9,", transform.Approach, true, 50},
		{"fairway,75,", transform.Approach, true, 75},
		{"fairway,99.9,", transform.Approach, true, 75},
		{"fairway,100,", transform.Approach, true, 100},
		{"fairway,224.9,", transform.Approach, true, 200},
		{"fairway,225,", transform.Approach, true, 225},
		{"fairway,249.9,", transform.Approach, true, 225},
		{"fairway,300,", transform.Approach, false, 0},
	})
}

// 50 and 70 m as the log writes them are edges, not a rounding to one side.
func TestBandsInMetresTakeInTheirLowerEdgeOnly(t *testing.T) {
	var edges []float64
	for metres := 50.0; metres <= 230; metres += 20 {
		edges = append(edges, metres/ingest.MetresPerYard)
	}
	for _, stroke := range []struct{ metres, band float64 }{
		{49.9, math.NaN()}, {50, 50}, {69.9, 50}, {70, 70}, {89.9, 70}, {90, 90}, {110, 110}, {130, 130},
		{150, 150}, {170, 170}, {190, 190}, {209.9, 190}, {210, 210}, {229.9, 210}, {230, math.NaN()},
	} {
		log := fmt.Sprintf("shot,lie,to_hole_m\n1,tee,500\n2,fairway,%v\n3,green,1", stroke.metres)
		shots := enriched(t, logOf(5, log), transform.Options{BandsYd: edges})
		if got := bandFrom(shots, secondRow) * ingest.MetresPerYard; !same(got, stroke.band) {
			t.Errorf("%v m is in the band from %v m, expected %v", stroke.metres, got, stroke.band)
		}
	}
}

// 45.72 m are 50 yd and 228.6 m are 250 yd exactly (1 yd = 0.9144 m,
// international yard and pound agreement of 1959).
func TestBoundsInYardsHoldForALogInMetres(t *testing.T) {
	for _, stroke := range []struct {
		metres  float64
		class   transform.Class
		atGreen bool
	}{
		{45.72, transform.ShortGame, false}, {45.73, transform.Approach, true},
		{228.6, transform.Approach, true}, {228.61, transform.Approach, false},
	} {
		log := fmt.Sprintf("shot,lie,to_hole_m\n1,tee,500\n2,fairway,%v\n3,green,1", stroke.metres)
		shots := enriched(t, logOf(5, log), transform.Options{})
		if shots.Class[secondRow] != stroke.class || shots.AtGreen[secondRow] != stroke.atGreen {
			t.Errorf("%v m: %s, at the green %v", stroke.metres, shots.Class[secondRow], shots.AtGreen[secondRow])
		}
	}
}

func TestNoBandsButOnesThatHaveTwoEdges(t *testing.T) {
	compareEdges(t, transform.Options{BandsYd: []float64{100}}, []edge{
		{"fairway,100,", transform.Approach, true, math.NaN()},
		{"fairway,90,", transform.Approach, true, math.NaN()},
	})
	compareEdges(t, transform.Options{BandsYd: []float64{}}, []edge{
		{"fairway,100,", transform.Approach, true, math.NaN()},
	})
}

func TestWordsOfTheUsersOwnAreLies(t *testing.T) {
	lies := ingest.DefaultLies()
	lies["first cut"] = ingest.Fairway
	shots := secondStroke(t, "intent", "first cut,150,", transform.Options{Lies: lies})
	if shots.Category[secondRow] != ingest.Fairway || shots.FinishCategory[0] != ingest.Fairway {
		t.Errorf("played from %s, which the stroke before it left as %s", shots.Category[secondRow], shots.FinishCategory[0])
	}
}

func compareEdges(t *testing.T, options transform.Options, edges []edge) {
	t.Helper()
	for _, e := range edges {
		shots := secondStroke(t, "intent", e.stroke, options)
		if got := shots.Class[secondRow]; got != e.class {
			t.Errorf("%s is %s, expected %s", e.stroke, got, e.class)
		}
		if got := shots.AtGreen[secondRow]; got != e.atGreen {
			t.Errorf("%s: at the green %v, expected %v", e.stroke, got, e.atGreen)
		}
		want := e.band
		if want == 0 && (len(options.BandsYd) == 0 || options.BandsYd[0] != 0) {
			want = math.NaN()
		}
		if got := bandFrom(shots, secondRow); !same(got, want) {
			t.Errorf("%s is in the band from %v, expected %v", e.stroke, got, want)
		}
	}
}

// bandFrom is the lower edge of a stroke's band, NaN outside all.
func bandFrom(shots *transform.Shots, row int) float64 {
	if band := shots.Band[row]; band >= 0 {
		return shots.BandsYd[band]
	}
	return math.NaN()
}

// same reports whether two numbers are equal to 1e-9, or both unknown.
func same(a, b float64) bool {
	return math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) < 1e-9
}
