package ingest

import (
	"bufio"
	"io"
	"strings"
)

// starterColumns are the columns of the starter log, with a line on each.
var starterColumns = []struct{ name, about string }{
	{"date", "day played, year first: 2026-05-31"},
	{"course", "name of the course"},
	{"round", "only if you play a course twice on one day"},
	{"hole", "1 to 36"},
	{"par", "3 to 6"},
	{"shot", "1, 2, 3 ... in order of play; strokes at the ball only"},
	{"lie", "where the ball lay: tee, fairway, rough, bunker, trees, green ..."},
	{"to_hole", "distance to the hole before the stroke: yards, and feet on the green"},
	{"club", "driver, 3 wood, 7i, PW, 54, putter ..."},
	{"long_short_yd", "where it finished from your target: + long, - short"},
	{"left_right_yd", "where it finished from your target: + right, - left"},
	{"penalty", "penalty strokes that this stroke cost: blank, 1 or 2"},
	{"intent", "attack, safe, lay up or get out"},
	{"holed", "no on the last line of a hole that you picked up; else leave it blank"},
	{"note", "anything you like"},
}

const starterHole = `2026-05-31,Example course,,1,4,1,tee,402,driver,,12,,,,delete these example lines
2026-05-31,Example course,,1,4,2,rough,148,8i,-7,3,,attack,,
2026-05-31,Example course,,1,4,3,green,24,putter,,,,,,24 feet: putts are in feet
2026-05-31,Example course,,1,4,4,green,3,putter,,,,,,
`

// WriteStarter writes a shot log to fill in: a line on each column as comments,
// the header, and one example hole.
func WriteStarter(w io.Writer) error {
	out := bufio.NewWriter(w)
	out.WriteString("# A shot log for roundmill: one line a stroke. Lines that start with # may stay or go.\n")
	names := make([]string, len(starterColumns))
	for i, column := range starterColumns {
		names[i] = column.name
		out.WriteString("# " + column.name + ": " + column.about + "\n")
	}
	out.WriteString(strings.Join(names, ",") + "\n" + starterHole)
	return out.Flush()
}
