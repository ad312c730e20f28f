package metrics

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// CourseHole is one row of the table course_holes: how one player does on one
// hole of a course that he has played to its end five times or more. Figures
// are means of one play. Played from other tees, or with another par, it is
// another hole.
//
// A hole is played once a round, so its plays are as independent as rounds are,
// and the intervals of means are Student's. The worst of eighteen holes is in
// part the worst by chance: look at the interval before the rank.
type CourseHole struct {
	Player          string  `col:"player" about:"player as named in the log, null when the log names none"`
	Course          string  `col:"course" about:"course as named in the log"`
	Tees            string  `col:"tees" about:"tees as named in the log, null when it names none"`
	Hole            int64   `col:"hole" about:"number of the hole"`
	Par             int64   `col:"par" about:"par of the hole"`
	LengthYd        float64 `col:"length_yd" unit:"yd" about:"mean length as logged, else from where the tee shots were played"`
	N               int64   `col:"n" about:"complete plays of the hole, at most one a round"`
	ToPar           float64 `col:"to_par" unit:"strokes" about:"mean score above par"`
	ToParLo         float64 `col:"to_par_lo" unit:"strokes" about:"lower end of its 90 % interval (Student)"`
	ToParHi         float64 `col:"to_par_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	UnderPar        int64   `col:"under_par" about:"plays under par"`
	OverPar         int64   `col:"over_par" about:"plays over par"`
	DoublesOrWorse  int64   `col:"doubles_or_worse" about:"plays two over par or more"`
	StrokesGained   float64 `col:"strokes_gained" unit:"strokes" about:"mean strokes gained a play"`
	StrokesGainedLo float64 `col:"strokes_gained_lo" unit:"strokes" about:"lower end of its 90 % interval (Student)"`
	StrokesGainedHi float64 `col:"strokes_gained_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	TeeShot         float64 `col:"strokes_gained_tee_shot" unit:"strokes" about:"of these, by tee shots; null on a par 3, where they are approaches"`
	TeeShotLo       float64 `col:"strokes_gained_tee_shot_lo" unit:"strokes" about:"lower end of its 90 % interval"`
	TeeShotHi       float64 `col:"strokes_gained_tee_shot_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Approach        float64 `col:"strokes_gained_approach" unit:"strokes" about:"of these, by approaches"`
	ApproachLo      float64 `col:"strokes_gained_approach_lo" unit:"strokes" about:"lower end of its 90 % interval"`
	ApproachHi      float64 `col:"strokes_gained_approach_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	ShortGame       float64 `col:"strokes_gained_short_game" unit:"strokes" about:"of these, in the short game"`
	ShortGameLo     float64 `col:"strokes_gained_short_game_lo" unit:"strokes" about:"lower end of its 90 % interval"`
	ShortGameHi     float64 `col:"strokes_gained_short_game_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Putt            float64 `col:"strokes_gained_putt" unit:"strokes" about:"of these, by putts"`
	PuttLo          float64 `col:"strokes_gained_putt_lo" unit:"strokes" about:"lower end of its 90 % interval"`
	PuttHi          float64 `col:"strokes_gained_putt_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline        string  `col:"baseline" about:"what strokes gained are measured against"`
}

// leastPlays is how often a hole must have been played to be told of.
const leastPlays = 5

// CourseHoleFigures add up the plays of every hole of every course that the log
// names.
type CourseHoleFigures struct {
	options Options
	players byPlayer[courseHoleSums]
}

type courseHoleSums struct {
	courses map[courseTees]holesPlayed
	unnamed int64 // complete holes on a course without a name
	noClub  int64 // complete holes without a club off the tee
}

type courseTees struct{ course, tees string }

func (c courseTees) compare(other courseTees) int {
	return cmp.Or(cmp.Compare(c.course, other.course), cmp.Compare(c.tees, other.tees))
}

type holesPlayed map[holePar]*holePlays

type holePar struct{ hole, par int32 }

func (h holePar) compare(other holePar) int {
	return cmp.Or(cmp.Compare(h.hole, other.hole), cmp.Compare(h.par, other.par))
}

// holePlays are the plays of one hole.
type holePlays struct {
	toPar                             scoreMoments
	lengths                           int64
	lengthYd                          estimate.Sum
	gained                            estimate.Moments
	byClass                           [transform.ClassCount]estimate.Moments
	underPar, overPar, doublesOrWorse int64
	clubs                             map[string]*clubPlays
}

func newCourseHoleFigures(options Options) *CourseHoleFigures {
	return &CourseHoleFigures{options: options, players: byPlayer[courseHoleSums]{}}
}

// Add adds the complete holes of a batch.
func (f *CourseHoleFigures) Add(s *transform.Shots) {
	for round, from := range s.Rounds.From {
		player := f.players.of(s.Player.At(int(from)))
		if s.Course.At(int(from)) == "" {
			player.unnamed += int64(s.Rounds.Holes[round])
			continue
		}
		played := player.of(courseTees{s.Course.At(int(from)), s.RoundTees(round)})
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if !s.Holes.Complete[hole] {
				continue
			}
			row := int(s.Holes.From[hole])
			if s.Club.At(row) == "" && !s.Holes.IsScorecard(hole) {
				player.noClub++
			}
			played.of(holePar{s.Hole[row], s.Par[row]}).add(s, hole)
		}
	}
}

func (p *courseHoleSums) of(course courseTees) holesPlayed {
	if p.courses == nil {
		p.courses = map[courseTees]holesPlayed{}
	}
	if p.courses[course] == nil {
		p.courses[course] = holesPlayed{}
	}
	return p.courses[course]
}

func (h holesPlayed) of(hole holePar) *holePlays {
	plays := h[hole]
	if plays == nil {
		plays = &holePlays{clubs: map[string]*clubPlays{}}
		h[hole] = plays
	}
	return plays
}

func (p *holePlays) add(s *transform.Shots, hole int) {
	from, to := s.RowRange(hole)
	toPar := s.Holes.Score[hole] - s.Par[from]
	p.toPar.add(int64(toPar))
	if length := s.Holes.LengthYd[hole]; !math.IsNaN(length) {
		p.lengths++
		p.lengthYd.Add(length)
	}
	if toPar < 0 {
		p.underPar++
	}
	if toPar > 0 {
		p.overPar++
	}
	if toPar >= 2 {
		p.doublesOrWorse++
	}
	if s.Holes.IsScorecard(hole) {
		return
	}
	p.clubOf(s.Club.At(from)).add(s, hole, toPar)
	if math.IsNaN(s.Holes.StrokesGained[hole]) {
		return
	}
	p.gained.Add(s.Holes.StrokesGained[hole])
	var byClass [transform.ClassCount]float64
	for row := from; row < to; row++ {
		byClass[s.Class[row]] += s.StrokesGained[row]
	}
	for class, gained := range byClass {
		p.byClass[class].Add(gained)
	}
}

func (p *holePlays) clubOf(club string) *clubPlays {
	if p.clubs[club] == nil {
		p.clubs[club] = &clubPlays{}
	}
	return p.clubs[club]
}

// often are the holes with enough plays, by course, tees and number.
func (p *courseHoleSums) often(tell func(course courseTees, hole holePar, plays *holePlays)) {
	for _, course := range slices.SortedFunc(maps.Keys(p.courses), courseTees.compare) {
		holes := p.courses[course]
		for _, hole := range slices.SortedFunc(maps.Keys(holes), holePar.compare) {
			if plays := holes[hole]; plays.toPar.n >= leastPlays {
				tell(course, hole, plays)
			}
		}
	}
}

// Rows are the finished rows: players in order, courses, tees, holes.
func (f *CourseHoleFigures) Rows() []CourseHole {
	return rowsOf(f.players, func(name string, player *courseHoleSums) (rows []CourseHole) {
		var student studentIntervals
		player.often(func(course courseTees, hole holePar, plays *holePlays) {
			row := CourseHole{
				Player: name, Course: course.course, Tees: course.tees, Hole: int64(hole.hole), Par: int64(hole.par),
				LengthYd: plays.lengthYd.Value() / float64(plays.lengths), N: plays.toPar.n,
				UnderPar: plays.underPar, OverPar: plays.overPar, DoublesOrWorse: plays.doublesOrWorse,
				Baseline: f.options.Baseline,
			}
			row.ToPar, row.ToParLo, row.ToParHi = student.mean(plays.toPar)
			row.StrokesGained, row.StrokesGainedLo, row.StrokesGainedHi = student.mean(plays.gained)
			row.TeeShot, row.TeeShotLo, row.TeeShotHi = math.NaN(), math.NaN(), math.NaN()
			if hole.par > 3 {
				row.TeeShot, row.TeeShotLo, row.TeeShotHi = student.mean(plays.byClass[transform.TeeShot])
			}
			row.Approach, row.ApproachLo, row.ApproachHi = student.mean(plays.byClass[transform.Approach])
			row.ShortGame, row.ShortGameLo, row.ShortGameHi = student.mean(plays.byClass[transform.ShortGame])
			row.Putt, row.PuttLo, row.PuttHi = student.mean(plays.byClass[transform.Putt])
			rows = append(rows, row)
		})
		return rows
	})
}

// warnings tells what the log leaves unnamed.
func (f *CourseHoleFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		player := f.players[name]
		if player.unnamed > 0 {
			warnings = append(warnings, Warning{Figure: "course_holes", Player: name,
				Text: holesWithout(player.unnamed, "course") + "; holes of an unnamed course cannot be told apart"})
		}
		if player.noClub > 0 {
			warnings = append(warnings, Warning{Figure: "course_hole_clubs", Player: name,
				Text: holesWithout(player.noClub, "club") + " off the tee; they stand in the rows whose club is null"})
		}
	}
	return warnings
}
