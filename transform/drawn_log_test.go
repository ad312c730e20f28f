package transform_test

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// drawnHeader names the fields of a drawn log.
const drawnHeader = "date,player,round,hole,par,shot,lie,to_hole,left,finish_lie,penalty,holed,intent,pin_side,long_short_yd,left_right_yd,headwind_mph,x_yd,y_yd,hole_x_yd,hole_y_yd\n"

// drawRound draws the records of a round: holes that end, that are picked up,
// that have gaps, repeated or refused records, penalties in either numbering,
// what was left agreeing or not, and now and then positions.
func drawRound(t *rapid.T, number int) string {
	var log strings.Builder
	day, player := rapid.IntRange(1, 28).Draw(t, "day"), rapid.SampledFrom([]string{"A. Invented", "", "B. Invented"}).Draw(t, "player")
	for hole := range rapid.IntRange(1, 18).Draw(t, "holes") {
		drawHole(t, &log, fmt.Sprintf("2026-%02d-%02d,%s,%d,%d", 1+number%12, day, player, number, hole+1))
	}
	return log.String()
}

func drawHole(t *rapid.T, log *strings.Builder, key string) {
	par := rapid.IntRange(3, 6).Draw(t, "par")
	lie, toHole, shot := "tee", rapid.Float64Range(60, 600).Draw(t, "length"), 1
	sloppy := rapid.IntRange(0, 3).Draw(t, "sloppy") == 0
	located := rapid.IntRange(0, 3).Draw(t, "located") == 0
	for stroke := range rapid.IntRange(1, 9).Draw(t, "strokes") {
		last := lie == "green" && rapid.IntRange(0, 2).Draw(t, "holes out") > 0 || stroke == 8
		next := rapid.SampledFrom([]string{"fairway", "rough", "bunker", "trees", "green", "fringe"}).Draw(t, "next lie")
		nextToHole := toHole * rapid.Float64Range(0, 0.8).Draw(t, "leaves")
		if next == "green" {
			nextToHole = min(nextToHole, 40)
		}
		penalty, holed, left, finish := 0, "", "", ""
		if rapid.IntRange(0, 9).Draw(t, "penalised") == 0 {
			penalty = rapid.IntRange(1, 2).Draw(t, "penalty")
			if rapid.Bool().Draw(t, "stroke and distance") {
				next, nextToHole = lie, toHole
			}
		}
		if last && rapid.IntRange(0, 9).Draw(t, "picks up") == 0 {
			holed = "no"
		}
		if !last && rapid.Bool().Draw(t, "left is written") {
			wrong := rapid.SampledFrom([]float64{0, 0, 0.4, -0.3}).Draw(t, "left is off by")
			left, finish = written(max(0, nextToHole+wrong), next), next
		}
		distance := written(toHole, lie)
		if sloppy && rapid.IntRange(0, 6).Draw(t, "refused") == 0 {
			distance = "-1"
		}
		position := ",,,"
		if located {
			position = fmt.Sprintf("%.2f,%.2f,0,0", toHole/5, -toHole)
			if distance != "-1" && rapid.Bool().Draw(t, "distance by position") {
				distance = ""
			}
		}
		fmt.Fprintf(log, "%s,%d,%d,%s,%s,%s,%s,%d,%s,%s,%s,%s,%s,%s,%s\n", key, par, shot, lie, distance, left, finish, penalty, holed,
			rapid.SampledFrom([]string{"", "attack", "lay up", "get out"}).Draw(t, "intent"),
			rapid.SampledFrom([]string{"", "left", "right"}).Draw(t, "pin side"),
			rapid.SampledFrom([]string{"", "-4", "7.5"}).Draw(t, "long"),
			rapid.SampledFrom([]string{"", "-6", "2.5"}).Draw(t, "right"),
			rapid.SampledFrom([]string{"", "-12", "8"}).Draw(t, "wind"), position)
		if last {
			return
		}
		shot++
		if penalty > 0 && rapid.Bool().Draw(t, "penalties are numbered") {
			shot += penalty
		}
		if sloppy && rapid.IntRange(0, 6).Draw(t, "gap") == 0 {
			shot++
		}
		lie, toHole = next, nextToHole
	}
}

// written is a distance as a log writes it: feet on the green, else yards, to a
// tenth.
func written(yards float64, lie string) string {
	if lie == "green" {
		yards *= 3
	}
	return fmt.Sprintf("%.1f", yards)
}
