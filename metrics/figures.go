package metrics

import (
	"cmp"
	"maps"
	"runtime"
	"slices"
	"strconv"
	"time"

	"roundmill/ingest/ordered"
	"roundmill/metrics/estimate"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

// Level is that of every interval.
const Level = 0.90

// Resamples is how often the bootstrap draws the rounds anew.
const Resamples = 2000

// Options says how figures are made and named. The zero value of a field takes
// its default.
type Options struct {
	Baseline string               // name of the baseline, for the tables
	Table    *baseline.Table      // the baseline itself; baseline.Professional
	OwnPutts []estimate.PuttCount // that an own baseline is made of; nil for a table
	BandsYd  []float64            // edges of the yardage bands; transform.DefaultBandsYd
	Metres   bool                 // whether warnings give distances in metres
	Seed     uint64               // of the bootstrap; 1
	Split    time.Time            // before and after; zero: the halves of the season
	Goal     Goal                 // zero: none
	Players  int                  // how many the whole log has, where a Set gets some of them; 0: those of the Set
}

// playersOfLog is how many players there are, given how many a group met.
func (o Options) playersOfLog(met int) int { return max(o.Players, met) }

// Figures is a group of figures that is added up over enriched batches of whole
// rounds. The result does not depend on how the rounds were put into batches.
type Figures interface {
	Add(batch *transform.Shots)
}

// A Set is all groups of figures of some players. One goroutine fills a Set.
type Set struct {
	seasons       *SeasonFigures
	strokesGained *StrokesGainedFigures
	approach      *ApproachFigures
	priorities    *PriorityFigures
	squad         *SquadFigures
	teeClubs      *TeeClubFigures
	clubYardages  *ClubYardageFigures
	shortGame     *ShortGameFigures
	putting       *PuttingFigures
	windSlope     *WindSlopeFigures
	aim           *AimFigures
	missPattern   *MissPatternFigures
	scoring       *ScoringFigures
	bounceBack    *BounceBackFigures
	courseHoles   *CourseHoleFigures
	costlyShots   *CostlyShotFigures
	doubles       *DoubleFigures
	verdicts      *VerdictFigures
	trend         *TrendFigures
	goal          *GoalFigures
	handicap      *HandicapFigures
}

// NewSet is an empty set.
func NewSet(options Options) *Set {
	if options.BandsYd == nil {
		options.BandsYd = transform.DefaultBandsYd()
	}
	if options.Seed == 0 {
		options.Seed = 1
	}
	if options.Table == nil {
		options.Table = baseline.Professional()
	}
	return &Set{
		seasons:       newSeasonFigures(options),
		strokesGained: newStrokesGainedFigures(options),
		approach:      newApproachFigures(options),
		priorities:    newPriorityFigures(options),
		squad:         newSquadFigures(options),
		teeClubs:      newTeeClubFigures(options),
		clubYardages:  newClubYardageFigures(options),
		shortGame:     newShortGameFigures(options),
		putting:       newPuttingFigures(options, options.Table),
		windSlope:     newWindSlopeFigures(options),
		aim:           newAimFigures(options, options.Table),
		missPattern:   newMissPatternFigures(options),
		scoring:       newScoringFigures(options),
		bounceBack:    newBounceBackFigures(options),
		courseHoles:   newCourseHoleFigures(options),
		costlyShots:   newCostlyShotFigures(options),
		doubles:       newDoubleFigures(options),
		verdicts:      newVerdictFigures(options),
		trend:         newTrendFigures(options, options.Split),
		goal:          newGoalFigures(options, options.Goal),
		handicap:      newHandicapFigures(options),
	}
}

// ofScores are the groups to which a score alone says something.
func (s *Set) ofScores() []Figures {
	return []Figures{s.seasons, s.squad, s.scoring, s.bounceBack, s.courseHoles, s.goal, s.handicap}
}

func (s *Set) ofStrokes() []Figures {
	return []Figures{s.strokesGained, s.approach, s.priorities, s.teeClubs, s.clubYardages, s.shortGame, s.putting,
		s.windSlope, s.aim, s.missPattern, s.costlyShots, s.doubles, s.verdicts, s.trend}
}

// Add adds a batch to every group: all of it to those of scores, its strokes to
// the others.
func (s *Set) Add(batch *transform.Shots) {
	for _, group := range s.ofScores() {
		group.Add(batch)
	}
	for _, group := range s.ofStrokes() {
		group.Add(batch.Strokes())
	}
}

// Finish makes the rows of every group, and lets go of each as it is done: the
// set is used up.
func (s *Set) Finish() *Results {
	r := &Results{}
	finish(r, &s.seasons, func(g *SeasonFigures) { r.Seasons = g.Rows() })
	finish(r, &s.strokesGained, func(g *StrokesGainedFigures) { r.StrokesGained = g.Rows() })
	finish(r, &s.approach, func(g *ApproachFigures) { r.Approach = g.Rows() })
	finish(r, &s.priorities, func(g *PriorityFigures) { r.Priorities = g.Rows() })
	finish(r, &s.squad, func(g *SquadFigures) { r.Squad = g.Rows() })
	finish(r, &s.teeClubs, func(g *TeeClubFigures) { r.TeeClubs, r.TeeClubDifferences = g.Rows(), g.DifferenceRows() })
	finish(r, &s.clubYardages, func(g *ClubYardageFigures) {
		r.ClubYardages, r.BetweenClubs, r.DistanceControl = g.Rows(), g.BetweenRows(), g.ControlRows()
	})
	finish(r, &s.shortGame, func(g *ShortGameFigures) { r.ShortGame, r.ShortSided = g.Rows(), g.SidedRows() })
	finish(r, &s.putting, func(g *PuttingFigures) {
		r.Putting, r.PuttingGround = g.Rows(), g.GroundRows()
		r.PuttingGroundDifferences, r.PuttingModel = g.GroundDifferenceRows(), g.ModelRows()
	})
	finish(r, &s.windSlope, func(g *WindSlopeFigures) { r.WindSlope, r.WindSlopeEffects = g.Rows(), g.EffectRows() })
	finish(r, &s.aim, func(g *AimFigures) { r.Aim = g.Rows() })
	finish(r, &s.missPattern, func(g *MissPatternFigures) { r.MissPattern = g.Rows() })
	finish(r, &s.scoring, func(g *ScoringFigures) { r.Scoring = g.Rows() })
	finish(r, &s.bounceBack, func(g *BounceBackFigures) { r.BounceBack = g.Rows() })
	finish(r, &s.courseHoles, func(g *CourseHoleFigures) { r.CourseHoles, r.CourseHoleClubs = g.Rows(), g.ClubRows() })
	finish(r, &s.costlyShots, func(g *CostlyShotFigures) { r.CostlyShots = g.Rows() })
	finish(r, &s.doubles, func(g *DoubleFigures) { r.DoubleShots, r.DoubleCauses = g.ShotRows(), g.CauseRows() })
	finish(r, &s.verdicts, func(g *VerdictFigures) { r.Verdicts = g.Rows() })
	finish(r, &s.trend, func(g *TrendFigures) { r.Trend, r.TrendChange = g.Rows(), g.ChangeRows() })
	finish(r, &s.goal, func(g *GoalFigures) {
		r.Goal, r.GoalClasses = g.Rows(), g.ClassRows()
		for _, season := range r.Seasons {
			r.GoalAfter = append(r.GoalAfter, g.After(season.Player, gainsOfPriorities(r.Priorities, season.Player))...)
		}
	})
	finish(r, &s.handicap, func(g *HandicapFigures) { r.Handicap = g.Rows() })
	r.Warnings = append(r.Warnings, modelWarnings(r.PuttingModel)...)
	return r
}

// finish makes the rows of one group, adds its warnings, if it has any to give,
// and lets go of it.
func finish[G any](r *Results, group **G, rows func(*G)) {
	rows(*group)
	if warned, ok := any(*group).(interface{ warnings() []Warning }); ok {
		r.Warnings = append(r.Warnings, warned.warnings()...)
	}
	*group = nil
}

// gainsOfPriorities is what a player would have of each ranked priority once it
// is closed.
func gainsOfPriorities(priorities []Priority, player string) (gains []Gain) {
	for _, p := range priorities {
		if p.Player == player && p.Rank > 0 && p.StrokesToGain > 0 {
			gains = append(gains, Gain{Name: p.Cell, PerRound: p.StrokesToGain})
		}
	}
	return gains
}

// roundKey identifies a round of a player and puts rounds in the order of play,
// those of one day by their numbers.
type roundKey struct {
	date   int32
	course string
	round  string
}

func (k roundKey) compare(other roundKey) int {
	return cmp.Or(cmp.Compare(k.date, other.date), compareNumbered(k.round, other.round), cmp.Compare(k.course, other.course))
}

// compareNumbered puts whole numbers in their order, 9 before 10, and ahead of
// other names.
func compareNumbered(a, b string) int {
	first, notFirst := strconv.ParseUint(a, 10, 64)
	second, notSecond := strconv.ParseUint(b, 10, 64)
	switch {
	case notFirst == nil && notSecond == nil:
		return cmp.Or(cmp.Compare(first, second), cmp.Compare(a, b))
	case notFirst == nil:
		return -1
	case notSecond == nil:
		return 1
	}
	return cmp.Compare(a, b)
}

func keyOf(s *transform.Shots, row int) roundKey {
	return roundKey{s.Date[row], s.Course.At(row), s.Round.At(row)}
}

// byPlayer is an accumulator for each player, made when first asked for.
type byPlayer[A any] map[string]*A

func (p byPlayer[A]) of(name string) *A {
	a := p[name]
	if a == nil {
		a = new(A)
		p[name] = a
	}
	return a
}

// names are the players in order.
func (p byPlayer[A]) names() []string { return slices.Sorted(maps.Keys(p)) }

// rowsOf makes the rows of every player, players side by side, and returns
// them in the order of the names.
func rowsOf[A, R any](players byPlayer[A], rows func(name string, figures *A) []R) (all []R) {
	names := players.names()
	made := make([][]R, len(names))
	group := ordered.NewGroup(runtime.GOMAXPROCS(0))
	for i, name := range names {
		group.Go(func() error {
			made[i] = rows(name, players[name])
			return nil
		})
	}
	if err := group.Wait(); err != nil {
		panic(err) // only a panic there is an error
	}
	return slices.Concat(made...)
}
