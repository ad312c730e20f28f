package transform_test

import (
	"fmt"
	"strings"
	"testing"

	"roundmill/transform"
)

// A worked hole is a small log and what follows from it, worked out by hand
// with the rows of the embedded tables: tee 380 yd 3.96, 400 yd 3.99; fairway
// 10 yd 2.18, 20 yd 2.40, 100 yd 2.80, 150 yd 2.945 (half way from 2.91 to
// 2.98); rough 20 yd 2.59, 100 yd 3.02, 150 yd 3.19 (from 3.15 and 3.23); sand
// 20 yd 2.53, 10 yd 2.43; recovery 100 yd 3.80; green 2 ft 1.01, 3 ft 1.04,
// 5 ft 1.23, 8 ft 1.50, 10 ft 1.61, 20 ft 1.87, 30 ft 1.98.
//
// The first line of log names the fields behind date, hole and par, the others
// are records of hole 1. Cells of shots and hole stand in the order of
// shotCells and holeCells; - is null, 20ft is 20/3 yd, and words joined by _ are
// one cell.
type workedHole struct {
	name  string
	par   int
	log   string
	shots string
	hole  string
}

const (
	shotCells = "finish_yd finish_category proximity_ft shot_class at_green band_from_yd expected_before expected_after strokes_gained holed hole_complete"
	holeCells = "strokes penalties score putts fairway_hit green_in_regulation up_and_down sand_save three_putt strokes_gained hole_complete"
)

var workedHoles = []workedHole{
	{
		name: "a plain par 4", par: 4,
		log: `shot,lie,to_hole
			1,tee,400
			2,fairway,150
			3,green,20
			4,green,2`,
		shots: `
			150    fairway  450  tee_shot  no   -    3.99   2.945  0.045  no   yes
			20ft   green    20   approach  yes  150  2.945  1.87   0.075  no   yes
			2ft    green    2    putt      no   -    1.87   1.01   -0.14  no   yes
			0      holed    0    putt      no   -    1.01   0      0.01   yes  yes`,
		hole: `4 0 4 2 yes yes - - no -0.01 yes`,
	},
	{
		name: "a par 3, whose tee shot is an approach", par: 3,
		log: `shot,lie,to_hole
			1,tee,150
			2,green,10`,
		shots: `
			10ft  green  10  approach  yes  150  2.98  1.61  0.37  no   yes
			0     holed  0   putt      no   -    1.61  0     0.61  yes  yes`,
		hole: `2 0 2 1 - yes - - no 0.98 yes`,
	},
	{
		name: "a hole in one", par: 3,
		log: `shot,lie,to_hole
			1,tee,150`,
		shots: `0 holed 0 approach yes 150 2.98 0 1.98 yes yes`,
		hole:  `1 0 1 0 - yes - - no 1.98 yes`,
	},
	{
		name: "a par 3 short enough for the short game", par: 3,
		log: `shot,lie,to_hole
			1,tee,50
			2,green,10`,
		// The table starts at 100 yd off the tee: 2.92 - 0.07/20 x 50 = 2.745.
		shots: `
			10ft  green  10  short_game  no  50  2.745  1.61  0.135  no   yes
			0     holed  0   putt        no  -   1.61   0     0.61   yes  yes`,
		hole: `2 0 2 1 - yes yes - no 0.745 yes`,
	},
	{
		name: "a chip-in", par: 4,
		log: `shot,lie,to_hole
			1,tee,380
			2,fairway,100
			3,rough,20`,
		shots: `
			100  fairway  300  tee_shot    no   -    3.96  2.80  0.16   no   yes
			20   rough    60   approach    yes  100  2.80  2.59  -0.79  no   yes
			0    holed    0    short_game  no   -    2.59  0     1.59   yes  yes`,
		hole: `3 0 3 0 yes no yes - no 0.96 yes`,
	},
	{
		name: "holed out from the fairway, the green in regulation with it", par: 4,
		log: `shot,lie,to_hole,holed
			1,tee,380,
			2,fairway,100,yes`,
		shots: `
			100  fairway  300  tee_shot  no   -    3.96  2.80  0.16  no   yes
			0    holed    0    approach  yes  100  2.80  0     1.80  yes  yes`,
		hole: `2 0 2 0 yes yes - - no 1.96 yes`,
	},
	{
		name: "a tee shot of a par 4 on the green hits the fairway too", par: 4,
		log: `shot,lie,to_hole
			1,tee,280
			2,green,20
			3,green,2`,
		shots: `
			20ft  green  20  tee_shot  no  -  3.65  1.87  0.78   no   yes
			2ft   green  2   putt      no  -  1.87  1.01  -0.14  no   yes
			0     holed  0   putt      no  -  1.01  0     0.01   yes  yes`,
		hole: `3 0 3 2 yes yes - - no 0.65 yes`,
	},
	{
		name: "three putts", par: 3,
		log: `shot,lie,to_hole
			1,tee,150
			2,green,30
			3,green,5
			4,green,2`,
		shots: `
			30ft  green  30  approach  yes  150  2.98  1.98  0      no   yes
			5ft   green  5   putt      no   -    1.98  1.23  -0.25  no   yes
			2ft   green  2   putt      no   -    1.23  1.01  -0.78  no   yes
			0     holed  0   putt      no   -    1.01  0     0.01   yes  yes`,
		hole: `4 0 4 3 - yes - - yes -1.02 yes`,
	},
	{
		name: "a bunker, then up and down from it: a sand save", par: 4,
		log: `shot,lie,to_hole
			1,tee,400
			2,rough,150
			3,greenside bunker,20
			4,green,8`,
		shots: `
			150  rough  450  tee_shot    no   -    3.99  3.19  -0.20  no   yes
			20   sand   60   approach    yes  150  3.19  2.53  -0.34  no   yes
			8ft  green  8    short_game  no   -    2.53  1.50  0.03   no   yes
			0    holed  0    putt        no   -    1.50  0     0.50   yes  yes`,
		hole: `4 0 4 1 no no yes yes no -0.01 yes`,
	},
	{
		name: "a chip into a bunker, then two more: no up and down, but a sand save", par: 4,
		log: `shot,lie,to_hole
			1,tee,380
			2,fairway,100
			3,rough,20
			4,bunker,10
			5,green,2`,
		shots: `
			100  fairway  300  tee_shot    no   -    3.96  2.80  0.16   no   yes
			20   rough    60   approach    yes  100  2.80  2.59  -0.79  no   yes
			10   sand     30   short_game  no   -    2.59  2.43  -0.84  no   yes
			2ft  green    2    short_game  no   -    2.43  1.01  0.42   no   yes
			0    holed    0    putt        no   -    1.01  0     0.01   yes  yes`,
		hole: `5 0 5 1 yes no no yes no -1.04 yes`,
	},
	{
		name: "sand beyond the short game is no sand save", par: 4,
		log: `shot,lie,to_hole
			1,tee,380
			2,fairway bunker,100
			3,green,2`,
		shots: `
			100  sand   300  tee_shot  no   -    3.96  3.23  -0.27  no   yes
			2ft  green  2    approach  yes  100  3.23  1.01  1.22   no   yes
			0    holed  0    putt      no   -    1.01  0     0.01   yes  yes`,
		hole: `3 0 3 1 no yes - - no 0.96 yes`,
	},
	{
		name: "a putt from off the green is short game", par: 3,
		log: `shot,lie,to_hole,club
			1,tee,150,7i
			2,fringe,10,putter
			3,green,2,putter`,
		shots: `
			10   fairway  30  approach    yes  150  2.98  2.18  -0.20  no   yes
			2ft  green    2   short_game  no   -    2.18  1.01  0.17   no   yes
			0    holed    0   putt        no   -    1.01  0     0.01   yes  yes`,
		hole: `3 0 3 1 - no yes - no -0.02 yes`,
	},
	{
		name: "a putt off the green keeps the green hit in regulation", par: 3,
		log: `shot,lie,to_hole
			1,tee,150
			2,green,30
			3,rough,20
			4,green,2`,
		shots: `
			30ft  green  30  approach    yes  150  2.98  1.98  0      no   yes
			20    rough  60  putt        no   -    1.98  2.59  -1.61  no   yes
			2ft   green  2   short_game  no   -    2.59  1.01  0.58   no   yes
			0     holed  0   putt        no   -    1.01  0     0.01   yes  yes`,
		hole: `4 0 4 2 - yes yes - no -1.02 yes`,
	},
	{
		name: "a penalty area, with a drop", par: 4,
		log: `shot,lie,to_hole,penalty,penalty_kind
			1,tee,400,,
			2,fairway,150,1,water
			3,rough,100,,
			4,green,30,,
			5,green,3,,`,
		shots: penaltyAreaShots,
		hole:  penaltyAreaHole,
	},
	{
		name: "a penalty area, the penalty stroke counted in the numbering", par: 4,
		log: `shot,lie,to_hole,penalty,penalty_kind
			1,tee,400,,
			2,fairway,150,1,water
			4,rough,100,,
			5,green,30,,
			6,green,3,,`,
		shots: penaltyAreaShots,
		hole:  penaltyAreaHole,
	},
	{
		name: "a penalty area: where the ball crossed is not where play resumed", par: 4,
		log: `shot,lie,to_hole,penalty,left,finish_lie
			1,tee,400,,,
			2,fairway,150,1,60,water
			3,rough,100,,,
			4,green,30,,,
			5,green,3,,,`,
		shots: penaltyAreaShots,
		hole:  penaltyAreaHole,
	},
	{
		name: "out of bounds, stroke and distance", par: 4,
		log: `shot,lie,to_hole,penalty,penalty_kind
			1,tee,400,1,out of bounds
			2,tee,400,,
			3,fairway,150,,
			4,green,20,,`,
		shots: outOfBoundsShots,
		hole:  outOfBoundsHole,
	},
	{
		name: "out of bounds, the second ball numbered as the third stroke", par: 4,
		log: `shot,lie,to_hole,penalty,penalty_kind
			1,tee,400,1,out of bounds
			3,tee,400,,
			4,fairway,150,,
			5,green,20,,`,
		shots: outOfBoundsShots,
		hole:  outOfBoundsHole,
	},
	{
		name: "a lost ball, the provisional in play", par: 4,
		log: `shot,lie,to_hole,penalty,penalty_kind,note
			1,tee,400,1,lost ball,
			3,tee,400,,,provisional
			4,fairway,150,,,
			5,green,20,,,`,
		shots: outOfBoundsShots,
		hole:  outOfBoundsHole,
	},
	{
		name: "out of bounds by a local rule: two strokes and a drop", par: 4,
		log: `shot,lie,to_hole,penalty,penalty_kind
			1,tee,400,2,out of bounds
			4,fairway,150,,
			5,green,20,,`,
		shots: `
			150   fairway  -   tee_shot  no   -    3.99   2.945  -1.955  no   yes
			20ft  green    20  approach  yes  150  2.945  1.87   0.075   no   yes
			0     holed    0   putt      no   -    1.87   0      0.87    yes  yes`,
		hole: `3 2 5 1 no no - - no -1.01 yes`,
	},
	{
		name: "an unplayable ball, charged to the stroke that caused it", par: 4,
		log: `shot,lie,to_hole,penalty,penalty_kind
			1,tee,400,1,unplayable
			3,rough,150,,
			4,green,8,,`,
		shots: `
			150  rough  -  tee_shot  no   -    3.99  3.19  -1.20  no   yes
			8ft  green  8  approach  yes  150  3.19  1.50  0.69   no   yes
			0    holed  0  putt      no   -    1.50  0     0.50   yes  yes`,
		hole: `3 1 4 1 no no - - no -0.01 yes`,
	},
	{
		name: "a penalty in an up and down is a stroke more", par: 3,
		log: `shot,lie,to_hole,penalty
			1,tee,150,
			2,rough,20,1
			3,rough,20,
			4,green,2,`,
		shots: `
			20   rough  60  approach    yes  150  2.98  2.59  -0.61  no   yes
			20   rough  -   short_game  no   -    2.59  2.59  -2     no   yes
			2ft  green  2   short_game  no   -    2.59  1.01  0.58   no   yes
			0    holed  0   putt        no   -    1.01  0     0.01   yes  yes`,
		hole: `4 1 5 1 - no no - no -2.02 yes`,
	},
	{
		name: "a penalty and a chip-in are three strokes: no up and down", par: 3,
		log: `shot,lie,to_hole,penalty,holed
			1,tee,150,,
			2,rough,20,1,
			3,rough,20,,yes`,
		shots: `
			20  rough  60  approach    yes  150  2.98  2.59  -0.61  no   yes
			20  rough  -   short_game  no   -    2.59  2.59  -2     no   yes
			0   holed  0   short_game  no   -    2.59  0     1.59   yes  yes`,
		hole: `3 1 4 0 - no no - no -1.02 yes`,
	},
	{
		name: "picked up", par: 4,
		log: `shot,lie,to_hole,holed
			1,tee,400,
			2,fairway,150,
			3,green,20,no`,
		shots: `
			150   fairway  450  tee_shot  no   -    3.99   2.945  0.045  no  no
			20ft  green    20   approach  yes  150  2.945  1.87   0.075  no  no
			-     -        -    putt      no   -    1.87   -      -      no  no`,
		hole: `3 0 - - - - - - - - no`,
	},
	{
		name: "picked up, with what was left: the finish is known, no proximity", par: 4,
		log: `shot,lie,to_hole,left,finish_lie,holed
			1,tee,400,,,
			2,fairway,150,,,
			3,green,20,2,green,no`,
		shots: `
			150   fairway  450  tee_shot  no   -    3.99   2.945  0.045  no  no
			20ft  green    20   approach  yes  150  2.945  1.87   0.075  no  no
			2ft   green    -    putt      no   -    1.87   1.01   -0.14  no  no`,
		hole: `3 0 - - - - - - - - no`,
	},
	{
		name: "a gap in the numbering: the finish before it is not known", par: 4,
		log: `shot,lie,to_hole
			1,tee,400
			2,fairway,150
			4,green,2`,
		shots: `
			150  fairway  450  tee_shot  no   -    3.99   2.945  0.045  no   no
			-    -        -    approach  yes  150  2.945  -      -      no   no
			0    holed    0    putt      no   -    1.01   0      0.01   yes  no`,
		hole: `3 0 - - - - - - - - no`,
	},
	{
		name: "a gap in the numbering, and what was left is written", par: 4,
		log: `shot,lie,to_hole,left,finish_lie
			1,tee,400,,
			2,fairway,150,20,rough
			4,green,2,,`,
		shots: `
			150  fairway  450  tee_shot  no   -    3.99   2.945  0.045   no   no
			20   rough    60   approach  yes  150  2.945  2.59   -0.645  no   no
			0    holed    0    putt      no   -    1.01   0      0.01    yes  no`,
		hole: `3 0 - - - - - - - - no`,
	},
	{
		name: "a gap in the numbering, and a last record that is not the last stroke", par: 4,
		log: `shot,lie,to_hole,left,finish_lie
			1,tee,400,,
			3,fairway,150,20,rough`,
		shots: `
			-   -      -   tee_shot  no   -    3.99   -     -       no  no
			20  rough  60  approach  yes  150  2.945  2.59  -0.645  no  no`,
		hole: `2 0 - - - - - - - - no`,
	},
	{
		name: "a gap in the numbering, and what was left of the last record on an unknown lie", par: 4,
		log: `shot,lie,to_hole,left
			1,tee,400,
			3,fairway,150,20`,
		shots: `
			-   -  -   tee_shot  no   -    3.99   -  -  no  no
			20  -  60  approach  yes  150  2.945  -  -  no  no`,
		hole: `2 0 - - - - - - - - no`,
	},
	{
		name: "a refused record in the middle", par: 4,
		log: `shot,lie,to_hole
			1,tee,400
			2,fairway,-150
			3,green,20
			4,green,2`,
		shots: `
			-    -      -  tee_shot  no  -  3.99  -     -      no   no
			2ft  green  2  putt      no  -  1.87  1.01  -0.14  no   no
			0    holed  0  putt      no  -  1.01  0     0.01   yes  no`,
		hole: `3 0 - - - - - - - - no`,
	},
	{
		name: "a refused record at the end: the stroke before it was not the last", par: 4,
		log: `shot,lie,to_hole
			1,tee,400
			2,fairway,150
			3,green,20
			4,lawn,2`,
		shots: `
			150   fairway  450  tee_shot  no   -    3.99   2.945  0.045  no  no
			20ft  green    20   approach  yes  150  2.945  1.87   0.075  no  no
			-     -        -    putt      no   -    1.87   -      -      no  no`,
		hole: `3 0 - - - - - - - - no`,
	},
	{
		name: "a refused record at the end: the stroke before it, not holed, was not picked up", par: 3,
		log: `shot,lie,to_hole,left,finish_lie,holed
			1,tee,150,10,green,no
			2,lawn,10,0,holed,yes`,
		shots: `10ft green 10 approach yes 150 2.98 1.61 0.37 no no`,
		hole:  `1 0 - - - - - - - - no`,
	},
	{
		name: "a hole without an end", par: 3,
		log: `shot,lie,to_hole,left,finish_lie
			1,tee,150,20,rough
			2,rough,20,10,green`,
		shots: `
			20    rough  60  approach    yes  150  2.98  2.59  -0.61  no  no
			10ft  green  10  short_game  no   -    2.59  1.61  -0.02  no  no`,
		hole: `2 0 - - - - - - - - no`,
	},
	{
		name: "what was left, given and agreeing", par: 4,
		log: `shot,lie,to_hole,left
			1,tee,400,150
			2,fairway,150,20
			3,green,20,2
			4,green,2,0`,
		shots: `
			150   fairway  450  tee_shot  no   -    3.99   2.945  0.045  no   yes
			20ft  green    20   approach  yes  150  2.945  1.87   0.075  no   yes
			2ft   green    2    putt      no   -    1.87   1.01   -0.14  no   yes
			0     holed    0    putt      no   -    1.01   0      0.01   yes  yes`,
		hole: `4 0 4 2 yes yes - - no -0.01 yes`,
	},
	{
		// The finish is what is written; what is expected after it is what is
		// expected before the next stroke, so that the hole still adds up.
		name: "what was left, differing by a rounding from the next distance", par: 4,
		log: `shot,lie,to_hole,left,finish_lie
			1,tee,400,148,fairway
			2,fairway,150,19,green
			3,green,20,,
			4,green,2,,`,
		shots: `
			148   fairway  444  tee_shot  no   -    3.99   2.945  0.045  no   yes
			19ft  green    19   approach  yes  150  2.945  1.87   0.075  no   yes
			2ft   green    2    putt      no   -    1.87   1.01   -0.14  no   yes
			0     holed    0    putt      no   -    1.01   0      0.01   yes  yes`,
		hole: `4 0 4 2 yes yes - - no -0.01 yes`,
	},
	{
		name: "words for where a stroke finished", par: 5,
		log: `shot,lie,to_hole,finish_lie
			1,tee,400,First Cut
			2,rough,150,greenside bunker
			3,sand,20,Collar
			4,fairway,10,putting surface
			5,green,2,in the hole`,
		shots: `
			150  rough    450  tee_shot    no   -    3.99  3.19  -0.20  no   yes
			20   sand     60   approach    yes  150  3.19  2.53  -0.34  no   yes
			10   fairway  30   short_game  no   -    2.53  2.18  -0.65  no   yes
			2ft  green    2    short_game  no   -    2.18  1.01  0.17   no   yes
			0    holed    0    putt        no   -    1.01  0     0.01   yes  yes`,
		hole: `5 0 5 1 no no no no no -1.01 yes`,
	},
	{
		name: "no lie category for a ball out of play that nobody dropped", par: 4,
		log: `shot,lie,to_hole,penalty,left,finish_lie,holed
			1,tee,400,,,,
			2,fairway,100,1,20,water,no`,
		shots: `
			100  fairway  300  tee_shot  no   -    3.99  2.80  0.19  no  no
			20   -        -    approach  yes  100  2.80  -     -     no  no`,
		hole: `2 1 - - - - - - - - no`,
	},
	{
		name: "no shot numbers: the order of the file", par: 3,
		log: `lie,to_hole
			tee,150
			green,10`,
		shots: `
			10ft  green  10  approach  yes  150  2.98  1.61  0.37  no   yes
			0     holed  0   putt      no   -    1.61  0     0.61  yes  yes`,
		hole: `2 0 2 1 - yes - - no 0.98 yes`,
	},
	{
		name: "a lie of recovery is never at the green", par: 4,
		log: `shot,lie,to_hole
			1,tee,400
			2,trees,100
			3,green,8`,
		// From 100 yd in recovery 3.80.
		shots: `
			100  recovery  300  tee_shot  no  -    3.99  3.80  -0.81  no   yes
			8ft  green     8    approach  no  100  3.80  1.50  1.30   no   yes
			0    holed     0    putt      no  -    1.50  0     0.50   yes  yes`,
		hole: `3 0 3 1 no yes - - no 0.99 yes`,
	},
}

const (
	penaltyAreaShots = `
			150   fairway  450  tee_shot  no   -    3.99   2.945  0.045   no   yes
			100   rough    -    approach  yes  150  2.945  3.02   -2.075  no   yes
			30ft  green    30   approach  yes  100  3.02   1.98   0.04    no   yes
			3ft   green    3    putt      no   -    1.98   1.04   -0.06   no   yes
			0     holed    0    putt      no   -    1.04   0      0.04    yes  yes`
	penaltyAreaHole  = `5 1 6 2 yes no - - no -2.01 yes`
	outOfBoundsShots = `
			400   tee      -    tee_shot  no   -    3.99   3.99   -2     no   yes
			150   fairway  450  tee_shot  no   -    3.99   2.945  0.045  no   yes
			20ft  green    20   approach  yes  150  2.945  1.87   0.075  no   yes
			0     holed    0    putt      no   -    1.87   0      0.87   yes  yes`
	outOfBoundsHole = `4 1 5 1 no no - - no -1.01 yes`
)

func TestWorkedHoles(t *testing.T) {
	for _, hole := range workedHoles {
		t.Run(hole.name, func(t *testing.T) {
			shots := enriched(t, logOf(hole.par, hole.log), transform.Options{})
			compareCells(t, shots.ShotsRecord(), shotCells, hole.shots)
			compareCells(t, shots.HolesRecord(), holeCells, hole.hole)
		})
	}
}

// logOf puts date, hole and par before the records of one hole.
func logOf(par int, records string) string {
	var log strings.Builder
	for i, line := range strings.Split(records, "\n") {
		if i == 0 {
			fmt.Fprintf(&log, "date,hole,par,%s\n", strings.TrimSpace(line))
		} else {
			fmt.Fprintf(&log, "2026-05-02,1,%d,%s\n", par, strings.TrimSpace(line))
		}
	}
	return log.String()
}
