package golfer

import (
	"iter"
	"math"
	"math/rand/v2"
	"time"
)

// The demo season. Its seed was picked out of 1,800 because every figure of figures_test.go falls in its
// range: the season is more ordinary than a season of Scratch need be, and kinder round the greens.
const (
	SeasonRounds = 46 // March to October
	DemoSeed     = 1516
	firstYear    = 2026
)

// Season plays rounds in date order, 46 a year from March 2026, most of them on the first course,
// and yields every shot. The same arguments give the same shots.
func Season(seed uint64, player Player, courses []*Course, rounds int) iter.Seq[Shot] {
	return func(yield func(Shot) bool) {
		rng := rand.New(rand.NewPCG(seed, 0))
		first := true
		for i := range rounds {
			course := courses[courseFor(i, len(courses))]
			round := &Round{Number: i + 1, Date: roundDate(i), Player: player.Name, Course: course}
			form := math.Exp(player.FormSpread * rng.NormFloat64())
			p := play{
				rng: rng, player: &player, round: round, course: course,
				scale: form * (1 - player.Improvement*learned(i)),
			}
			weather := course.weather(rng)
			for h := range course.Holes {
				more := p.playHole(&course.Holes[h], weather, func(shot Shot) bool {
					if first {
						shot.Note, first = "invented demo data", false
					}
					return yield(shot)
				})
				if !more {
					return
				}
			}
		}
	}
}

// Field plays the rounds of many players, one player after the other; the first is Scratch, so
// that Field(DemoSeed, 1, SeasonRounds) is the demo season.
func Field(seed uint64, players, rounds int) iter.Seq[Shot] {
	return func(yield func(Shot) bool) {
		courses := Courses()
		for i := range players {
			for shot := range Season(seed+uint64(i), Amateur(seed, i), courses, rounds) {
				if !yield(shot) {
					return
				}
			}
		}
	}
}

// courseFor sends two rounds of three to the first course and shares the rest among the others.
func courseFor(round, courses int) int {
	if courses == 1 || round%3 != 2 {
		return 0
	}
	return 1 + round/3%(courses-1)
}

// roundDate is the day of a round: 46 a year over 34 weeks from the first Saturday in March, the
// second of a week on the Sunday.
func roundDate(round int) time.Time {
	year, inYear := firstYear+round/SeasonRounds, round%SeasonRounds
	march := time.Date(year, time.March, 1, 0, 0, 0, 0, time.UTC)
	saturday := march.AddDate(0, 0, int(time.Saturday-march.Weekday()))
	const weeks = 34
	week := inYear * weeks / SeasonRounds
	day := 7 * week
	if inYear > 0 && (inYear-1)*weeks/SeasonRounds == week {
		day++
	}
	return saturday.AddDate(0, 0, day)
}

// learned is how far improvement has come by a round: none at first, all of it after one season,
// and levelling off.
func learned(round int) float64 {
	seasons := float64(round) / (SeasonRounds - 1)
	return (1 - math.Exp(-seasons)) / (1 - math.Exp(-1))
}

// weather is the wind of a round.
type weather struct{ speedMph, fromDeg float64 }

func (c *Course) weather(rng *rand.Rand) weather {
	return weather{c.WindMph * (0.3 + 1.4*rng.Float64()), c.WindFromDeg + 45*rng.NormFloat64()}
}

// on is the wind along and across a hole in whole miles an hour, gusts included.
func (w weather) on(hole *Hole, rng *rand.Rand) Wind {
	speed := w.speedMph * (1 + 0.15*rng.NormFloat64())
	sin, cos := math.Sincos(radians(w.fromDeg - hole.BearingDeg))
	return Wind{HeadMph: math.Round(speed * cos), CrossMph: math.Round(-speed * sin)}
}
