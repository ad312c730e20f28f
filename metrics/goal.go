package metrics

import (
	"fmt"
	"slices"
	"strconv"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// A Goal is a target for one round of 18 holes. The zero Goal is none.
type Goal struct {
	kind   goalKind
	target int
}

type goalKind uint8

const (
	noGoal goalKind = iota
	goalToPar
	goalScore
)

// GoalToPar is a round so many strokes over par, or fewer: 0 is par.
func GoalToPar(strokes int) Goal { return Goal{goalToPar, strokes} }

// GoalScore is a round in so many strokes, or fewer: by holes over the 18 that the
// player usually plays, by rounds whatever their par was.
func GoalScore(strokes int) Goal { return Goal{goalScore, strokes} }

// String is par, par with a sign and strokes, or a score.
func (g Goal) String() string {
	switch {
	case g.kind == goalScore:
		return strconv.Itoa(g.target)
	case g.kind == goalToPar && g.target != 0:
		return fmt.Sprintf("par%+d", g.target)
	case g.kind == goalToPar:
		return "par"
	}
	return ""
}

// toPar is the target over par on 18 holes of this par.
func (g Goal) toPar(par int) int {
	if g.kind == goalScore {
		return g.target - par
	}
	return g.target
}

// above is how many strokes a round was above the goal.
func (g Goal) above(round wholeRound) float64 {
	if g.kind == goalScore {
		return round.score - float64(g.target)
	}
	return round.overPar - float64(g.target)
}

// GoalChance is one row of the table goal: the chance that one player reaches
// the goal in one round, by one of two ways to make a round of what was logged.
//
// Method holes plays 18 holes, as many of each par as the player usually plays,
// each drawn from all complete holes of that par: the sum of independent draws,
// by exact convolution. It takes every hole to be played alike, whatever came
// before it and whatever the day, wind or course; days that are good or bad as a
// whole spread rounds more than that, and a goal far from the mean is then
// likelier than it says.
//
// Method rounds draws one of the complete rounds of 18 holes as it was played,
// over its own par: days as they come, but few of them, and a goal never reached
// has the chance nought, with an interval that says how little that means.
//
// Both take the player to stay as he was over all that was logged. Holes picked
// up are in neither, and those were bad ones: warnings count them.
type GoalChance struct {
	Player   string  `col:"player" about:"player as named in the log, null when the log names none"`
	Goal     string  `col:"goal" about:"par, par and strokes over it, or a score over 18 holes"`
	Method   string  `col:"method" about:"what is drawn anew: holes or rounds"`
	Rounds   int64   `col:"rounds" about:"rounds drawn from"`
	N        int64   `col:"n" about:"holes, or rounds, drawn from"`
	Par3s    int64   `col:"par_3s" about:"holes of par 3 among the player's usual 18: the shares of all complete holes, times 18 and rounded"`
	Par4s    int64   `col:"par_4s" about:"holes of par 4 among them"`
	Par5s    int64   `col:"par_5s" about:"holes of par 5 among them"`
	Par6s    int64   `col:"par_6s" about:"holes of par 6 among them"`
	Par      int64   `col:"par" unit:"strokes" about:"par of the player's usual 18"`
	Target   int64   `col:"target_to_par" unit:"strokes" about:"the goal over par of the usual 18; by rounds a score is a score, whatever the par"`
	ToPar    float64 `col:"to_par" unit:"strokes" about:"mean of a round over par"`
	ToParLo  float64 `col:"to_par_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds)"`
	ToParHi  float64 `col:"to_par_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Spread   float64 `col:"to_par_sd" unit:"strokes" about:"standard deviation of a round"`
	ToGive   float64 `col:"strokes_to_goal" unit:"strokes" about:"how far the mean is above the goal; of a score as goal, by the scores of the rounds, whatever their par"`
	Chance   float64 `col:"chance" unit:"share" about:"chance of the goal, or better, in one round"`
	ChanceLo float64 `col:"chance_lo" unit:"share" about:"lower end of its 90 % interval (holes: bootstrap over rounds; rounds: Wilson)"`
	ChanceHi float64 `col:"chance_hi" unit:"share" about:"upper end of its 90 % interval"`
}

// Ways to make a round.
const (
	ByHoles  = "holes"
	ByRounds = "rounds"
)

// GoalFigures keep the scores of complete holes by par, and strokes gained by
// class, for every round.
type GoalFigures struct {
	options Options
	goal    Goal
	players byPlayer[goalRounds]
}

type goalRounds struct{ rounds []goalRound }

type goalRound struct {
	classGain
	complete18   bool
	incomplete18 bool // as long, but for a hole that is not complete
	scores       []holeToPar
}

type holeToPar struct{ par, toPar int8 }

// newGoalFigures keeps nothing when there is no goal.
func newGoalFigures(options Options, goal Goal) *GoalFigures {
	return &GoalFigures{options: options, goal: goal, players: byPlayer[goalRounds]{}}
}

// Add adds the rounds of a batch.
func (f *GoalFigures) Add(s *transform.Shots) {
	if f.goal.kind == noGoal {
		return
	}
	for round, from := range s.Rounds.From {
		if s.Rounds.Holes[round] == 0 {
			continue
		}
		r := goalRound{classGain: classGainOf(s, round), scores: make([]holeToPar, 0, s.Rounds.Holes[round])}
		r.complete18 = s.Rounds.Complete[round] && s.Rounds.Holes[round] == 18
		r.incomplete18 = s.Rounds.HolesLogged[round] == 18 && !r.complete18
		first, end := s.Rounds.HoleRange(round, &s.Holes)
		for hole := first; hole < end; hole++ {
			if s.Holes.Complete[hole] {
				par := s.Par[s.Holes.From[hole]]
				r.scores = append(r.scores, holeToPar{int8(par), int8(s.Holes.Score[hole] - par)})
			}
		}
		player := f.players.of(s.Player.At(int(from)))
		player.rounds = append(player.rounds, r)
	}
}

func (g *goalRounds) sort() {
	slices.SortFunc(g.rounds, func(a, b goalRound) int { return a.key.compare(b.key) })
}

// Rows are the finished rows: players in order, holes and rounds.
func (f *GoalFigures) Rows() []GoalChance {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *goalRounds) []GoalChance {
		o := player.outlook(f.goal, &draws)
		row := GoalChance{
			Player: name, Goal: f.goal.String(), Target: int64(o.target), Par: int64(o.par),
			Par3s: int64(o.usual18[3]), Par4s: int64(o.usual18[4]), Par5s: int64(o.usual18[5]), Par6s: int64(o.usual18[6]),
		}
		holes, rounds := row, row
		holes.Method, holes.Rounds, holes.N = ByHoles, int64(o.drawnFrom), int64(o.holesPlayed)
		holes.ToPar, holes.Spread = o.byHole.mean(), o.byHole.standardDeviation()
		mean := estimate.Percentile(slices.Clone(o.meanDrawn), o.drawnFrom, Level)
		holes.ToParLo, holes.ToParHi = mean.Lo, mean.Hi
		holes.Chance, holes.ChanceLo, holes.ChanceHi = o.byHoles(0)

		rounds.Method, rounds.Rounds, rounds.N = ByRounds, int64(len(o.rounds)), int64(len(o.rounds))
		rounds.ToPar, rounds.ToParLo, rounds.ToParHi, rounds.Spread = o.meanOfRounds(&draws)
		rounds.Chance, rounds.ChanceLo, rounds.ChanceHi = o.byRounds(0)

		holes.ToGive, rounds.ToGive = holes.ToPar-float64(o.target), o.meanAbove()
		return []GoalChance{holes, rounds}
	})
}

// warnings counts what the chances leave out.
func (f *GoalFigures) warnings() (warnings []Warning) {
	for _, name := range f.players.names() {
		complete, incomplete := 0, 0
		for _, r := range f.players[name].rounds {
			if r.complete18 {
				complete++
			}
			if r.incomplete18 {
				incomplete++
			}
		}
		warn := func(format string, arguments ...any) {
			warnings = append(warnings, Warning{Figure: "goal", Player: name, Text: fmt.Sprintf(format, arguments...)})
		}
		if incomplete > 0 {
			warn("%d of %d rounds of 18 have a hole that is not complete and are left out, like such holes everywhere: the chance flatters", incomplete, complete+incomplete)
		}
		if complete < leastRounds {
			warn("%d of the %d complete rounds of 18 that an interval needs: look at the chance by holes", complete, leastRounds)
		}
	}
	return warnings
}
