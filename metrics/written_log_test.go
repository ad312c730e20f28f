package metrics

import (
	"fmt"
	"strings"
	"testing"

	"roundmill/transform"
)

// A writtenHole is a hole of a log written by hand: a stroke from the tee,
// strokes from 100 yd in the fairway, and a putt of 6 ft; a score of 1 is holed
// from the tee.
type writtenHole struct {
	par, score, strokeIndex int
	lengthYd                float64
	pickedUp                bool
}

// A writtenRound is a round of such holes, numbered from 1.
type writtenRound struct {
	date   string
	rating string // "rating,slope"
	holes  []writtenHole
	round  string
}

// eighteen are 18 holes of par 4 in so many strokes each, stroke indexes 1 to 18.
func eighteen(score int) (holes []writtenHole) {
	for i := range 18 {
		holes = append(holes, writtenHole{par: 4, score: score, strokeIndex: i + 1, lengthYd: 400})
	}
	return holes
}

// in is 18 holes of par 4 in so many strokes in all, the first ones a stroke
// worse than the rest where they do not come out even.
func in(gross int) []writtenHole {
	holes := eighteen(gross / 18)
	for i := range gross % 18 {
		holes[i].score++
	}
	return holes
}

func writtenLog(rounds ...writtenRound) []byte {
	var log strings.Builder
	log.WriteString("date,player,course,round,course_rating,slope_rating,hole,par,hole_length,stroke_index,shot,lie,to_hole,holed\n")
	for _, r := range rounds {
		rating := r.rating
		if rating == "" {
			rating = ","
		}
		for number, hole := range r.holes {
			for shot := 1; shot <= hole.score; shot++ {
				lie, toHole, holed := "fairway", 100.0, ""
				switch shot {
				case 1:
					lie, toHole = "tee", hole.lengthYd
				case hole.score:
					lie, toHole = "green", 6
				}
				if shot == hole.score {
					holed = "yes"
					if hole.pickedUp {
						holed = "no"
					}
				}
				index := ""
				if hole.strokeIndex > 0 {
					index = fmt.Sprint(hole.strokeIndex)
				}
				fmt.Fprintf(&log, "%s,A,Invented Links,%s,%s,%d,%d,%g,%s,%d,%s,%g,%s\n",
					r.date, r.round, rating, number+1, hole.par, hole.lengthYd, index, shot, lie, toHole, holed)
			}
		}
	}
	return []byte(log.String())
}

// addTo adds a log to a group of figures.
func addTo[F Figures](t testing.TB, figures F, log []byte) F {
	t.Helper()
	for _, batch := range enrichedWith(t, log, transform.Options{}.WithDefaults()) {
		figures.Add(batch)
	}
	return figures
}

func testOptions() Options {
	return Options{Baseline: "test", BandsYd: transform.DefaultBandsYd(), Seed: 1}
}
