package metrics

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// CourseHoleClub is one row of the table course_hole_clubs: how one player does
// with one club off one tee, on the holes of course_holes. Figures are means of
// one play.
//
// The clubs are those that the player chose: into the wind or with the hole cut
// near, perhaps, so a difference of two rows is not all the doing of the club.
type CourseHoleClub struct {
	Player          string  `col:"player" about:"player as named in the log, null when the log names none"`
	Course          string  `col:"course" about:"course as named in the log"`
	Tees            string  `col:"tees" about:"tees as named in the log, null when it names none"`
	Hole            int64   `col:"hole" about:"number of the hole"`
	Par             int64   `col:"par" about:"par of the hole"`
	Club            string  `col:"club" about:"club off the tee, null where the log names none"`
	N               int64   `col:"n" about:"complete plays of the hole that began with this club"`
	ToPar           float64 `col:"to_par" unit:"strokes" about:"mean score above par"`
	ToParLo         float64 `col:"to_par_lo" unit:"strokes" about:"lower end of its 90 % interval (Student)"`
	ToParHi         float64 `col:"to_par_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	TeeGained       float64 `col:"strokes_gained_off_tee" unit:"strokes" about:"mean strokes gained of the stroke off the tee, on a par 3 too"`
	TeeGainedLo     float64 `col:"strokes_gained_off_tee_lo" unit:"strokes" about:"lower end of its 90 % interval (Student)"`
	TeeGainedHi     float64 `col:"strokes_gained_off_tee_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	StrokesGained   float64 `col:"strokes_gained" unit:"strokes" about:"mean strokes gained over the whole hole"`
	StrokesGainedLo float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (Student)"`
	StrokesGainedHi float64 `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline        string  `col:"baseline" about:"what strokes gained are measured against"`
}

// clubPlays are the plays of one hole that began with one club.
type clubPlays struct {
	toPar          scoreMoments
	offTee, gained estimate.Moments
}

func (p *clubPlays) add(s *transform.Shots, hole int, toPar int32) {
	p.toPar.add(int64(toPar))
	if gained := s.Holes.StrokesGained[hole]; !math.IsNaN(gained) {
		p.gained.Add(gained)
		p.offTee.Add(s.StrokesGained[s.Holes.From[hole]])
	}
}

// ClubRows are the finished rows: players in order, courses, tees, holes, the
// club played most first.
func (f *CourseHoleFigures) ClubRows() []CourseHoleClub {
	return rowsOf(f.players, func(name string, player *courseHoleSums) (rows []CourseHoleClub) {
		var student studentIntervals
		player.often(func(course courseTees, hole holePar, plays *holePlays) {
			clubs := plays.clubs
			byUse := slices.Sorted(maps.Keys(clubs))
			slices.SortStableFunc(byUse, func(a, b string) int { return clubs[b].toPar.N() - clubs[a].toPar.N() })
			for _, club := range byUse {
				row := CourseHoleClub{
					Player: name, Course: course.course, Tees: course.tees, Hole: int64(hole.hole), Par: int64(hole.par),
					Club: club, N: clubs[club].toPar.n, Baseline: f.options.Baseline,
				}
				row.ToPar, row.ToParLo, row.ToParHi = student.mean(clubs[club].toPar)
				row.TeeGained, row.TeeGainedLo, row.TeeGainedHi = student.mean(clubs[club].offTee)
				row.StrokesGained, row.StrokesGainedLo, row.StrokesGainedHi = student.mean(clubs[club].gained)
				rows = append(rows, row)
			}
		})
		return rows
	})
}

// holesWithout begins a warning about an optional column of the log.
func holesWithout(n int64, column string) string {
	return fmt.Sprintf("complete holes without `%s`: %d", column, n)
}
