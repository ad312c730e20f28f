package page

import (
	"fmt"
	"math"
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

// goal is empty unless one was asked for.
func (p *player) goal() section {
	figures := p.charts("goal")
	if len(p.Goal) == 0 && len(figures) == 0 {
		return section{}
	}
	s := section{ID: "goal", Heading: "Goal", Figures: figures}
	s.say(goalWords(p.Goal))
	s.say(goalPartWords(p.GoalClasses))
	s.add(p.goalTable(), p.goalPartTable(), p.goalAfterTable())
	s.Cautions = append(s.Cautions, "The chances take the player to stay as in the rounds logged. A round made of single holes takes no day to be good or bad as a whole; a round as it was played does, but there are few of them.")
	return s
}

// goalWords is the chance of the goal by both ways of making a round.
func goalWords(rows []metrics.GoalChance) string {
	var said []string
	for _, row := range rows {
		if math.IsNaN(row.Chance) {
			continue
		}
		how := "made of single holes"
		if row.Method == metrics.ByRounds {
			how = "as rounds were played"
		}
		chance := share{estimate{row.Chance, row.ChanceLo, row.ChanceHi}, row.N}
		words := plots.Chance(row.Chance)
		if chance.hasInterval() {
			words += " (" + chance.span() + ")"
		}
		said = append(said, words+" "+how)
	}
	if len(said) == 0 {
		return ""
	}
	return fmt.Sprintf("The chance of %s or better in one round now: %s.", plots.GoalCalled(rows[0].Goal), strings.Join(said, ", "))
}

// goalPartWords shares the way to the goal among the parts of the game.
func goalPartWords(rows []metrics.GoalClass) string {
	var said []string
	for _, row := range rows {
		gives := estimate{row.Gives, row.GivesLo, row.GivesHi}
		if gives.hasInterval() && gives.value > 0 && strings.Trim(gives.number(), "0.") != "" {
			said = append(said, fmt.Sprintf("%s %s (%s)", classWords[row.Class], gives.number(), gives.interval()))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return "Shared by what each part loses, the strokes on the way there would come from: " + listed(said) + "."
}

func (p *player) goalTable() table {
	t := table{ID: "goal", Caption: "The chance now", Columns: columns("Way", "Drawn from", "Mean to par (90 %)", "Strokes to the goal", "Chance (90 %)")}
	for _, row := range p.Goal {
		way, from := "Single holes", plots.Counted(int(row.N), "hole", "holes")
		if row.Method == metrics.ByRounds {
			way, from = "Rounds as played", plots.Counted(int(row.N), "round", "rounds")
		}
		toPar := estimate{row.ToPar, row.ToParLo, row.ToParHi}
		t.Rows = append(t.Rows, []string{way, from, toPar.signedCell(), plots.Signed(row.ToGive, toPar.decimals()), chanceCell(row.Chance, row.ChanceLo, row.ChanceHi)})
	}
	return t
}

// chanceCell is a chance with its interval.
func chanceCell(chance, lo, hi float64) string {
	of := share{estimate: estimate{chance, lo, hi}}
	return of.inCell(plots.Chance(chance), of.span())
}

func (p *player) goalPartTable() table {
	t := table{ID: "goal-parts", Caption: "What each part of the game would give", Columns: columns("Part", "Gives (90 %)", "Chance with it at the benchmark, holes (90 %)", "Rounds (90 %)")}
	for _, row := range p.GoalClasses {
		called := classWords[row.Class]
		t.Rows = append(t.Rows, []string{
			plots.Sentence(called), estimate{row.Gives, row.GivesLo, row.GivesHi}.cell(),
			chanceCell(row.HolesChance, row.HolesLo, row.HolesHi), chanceCell(row.RoundsChance, row.RoundsLo, row.RoundsHi),
		})
	}
	return t
}

// goalAfterTable is of the things to work on first.
func (p *player) goalAfterTable() table {
	t := table{ID: "goal-after", Caption: "The chance after a gap is closed", Columns: columns("Gap", "Strokes a round", "Chance, holes (90 %)", "Chance, rounds (90 %)"), Note: "The gap is taken as closed on every round alike."}
	for _, thing := range pick(p.Priorities, func(r metrics.Priority) bool { return r.Rank > 0 && r.Rank <= mostFirst }) {
		for _, row := range p.GoalAfter {
			if row.Gain == thing.Cell {
				t.Rows = append(t.Rows, []string{
					cellWords(thing, p.units), gainCell(thing),
					chanceCell(row.HolesChance, row.HolesLo, row.HolesHi), chanceCell(row.RoundsChance, row.RoundsLo, row.RoundsHi),
				})
			}
		}
	}
	return t
}
