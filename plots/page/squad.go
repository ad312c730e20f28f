package page

import (
	"fmt"

	"roundmill/metrics"
	"roundmill/plots"
)

// squadTable is a line a player.
type squadTable struct {
	Says     []string
	Columns  []column
	Rows     []squadRow
	Cautions []string
}

type squadRow struct {
	Page, Name string
	Cells      []string
}

// squad is the page of all players, which leads to theirs.
func (r *Report) squad() *document {
	d := &document{
		Title: "Squad report", Heading: plots.Count(len(r.Figures.Seasons)) + " players", Invented: r.Display.Invented, Version: r.Version,
		Opening: []string{squadOpening(r.Figures.Seasons)}, Squad: r.squadTable(),
	}
	all := &metrics.Results{StrokesGained: r.Figures.StrokesGained, Warnings: pick(r.Figures.Warnings, func(w metrics.Warning) bool { return w.Player == "" })}
	d.Sections = []section{r.method(all, pick(r.Missing, func(m plots.Missing) bool { return m.Name == "charts" })), r.filesRead()}
	return d
}

func squadOpening(seasons []metrics.Season) string {
	if len(seasons) == 0 {
		return "No player has a round."
	}
	rounds, from, to := int64(0), seasons[0].From, seasons[0].To
	for _, season := range seasons {
		rounds += season.Rounds
		if season.From.Before(from) {
			from = season.From
		}
		if season.To.After(to) {
			to = season.To
		}
	}
	return plots.Counted(int(rounds), "round", "rounds") + " " + days(from, to) + "."
}

func (r *Report) squadTable() *squadTable {
	t := &squadTable{
		Says: []string{rankWords(r.Figures.Squad)}, Columns: columns("Player", "Rounds", "Rank", "To par", "Strokes gained", "Tee shots", "Approach", "Short game", "Putting"),
		Cautions: []string{"The rank by strokes gained is a range: it takes in every place that the rounds cannot rule out, at 90 % for all players together. The benchmark knows distances and lies, not who played the harder courses or in worse weather."},
	}
	if why := r.WithoutPages(); why != "" {
		t.Says = append(t.Says, plots.Sentence(why)+".")
	}
	for i, season := range r.Figures.Seasons {
		row := squadRow{Name: name(season.Player)}
		if row.Name == "" {
			row.Name = "Rounds without a name"
		}
		if r.WithoutPages() == "" {
			row.Page = playerPage(plots.PlayerFolder(i+1, season.Player))
		}
		if figures, found := first(r.Figures.Squad, func(p metrics.SquadPlayer) bool { return p.Player == season.Player }); found {
			row.Cells = []string{
				plots.Count(int(season.Rounds)), ranks(figures),
				estimate{figures.ToPar, figures.ToParLo, figures.ToParHi}.signedCell(), estimate{figures.Gained, figures.GainedLo, figures.GainedHi}.signedCell(),
				estimate{figures.TeeShot, figures.TeeShotLo, figures.TeeShotHi}.signedCell(), estimate{figures.Approach, figures.ApproachLo, figures.ApproachHi}.signedCell(),
				estimate{figures.ShortGame, figures.ShortGameLo, figures.ShortGameHi}.signedCell(), estimate{figures.Putt, figures.PuttLo, figures.PuttHi}.signedCell(),
			}
		} else {
			row.Cells = []string{plots.Count(int(season.Rounds)), "–", "–", "–", "–", "–", "–", "–"}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// ranks are the places that a player may hold.
func ranks(p metrics.SquadPlayer) string {
	switch {
	case p.RankFrom == 0:
		return "–"
	case p.RankFrom == p.RankTo:
		return fmt.Sprint(p.RankFrom)
	}
	return span(fmt.Sprint(p.RankFrom), fmt.Sprint(p.RankTo))
}

// rankWords says how far the rounds tell the players apart, and how many of
// them it cannot speak of.
func rankWords(players []metrics.SquadPlayer) string {
	ranked := pick(players, func(p metrics.SquadPlayer) bool { return p.RankFrom > 0 })
	said := rankedWords(ranked)
	if unranked := len(players) - len(ranked); unranked > 0 && len(ranked) > 1 {
		said += " " + plots.Counted(unranked, "player more has", "players more have") + " too few rounds with strokes gained to be ranked."
	}
	return said
}

func rankedWords(ranked []metrics.SquadPlayer) string {
	mayBeFirst := pick(ranked, func(p metrics.SquadPlayer) bool { return p.RankFrom == 1 })
	settled := pick(ranked, func(p metrics.SquadPlayer) bool { return p.RankFrom == p.RankTo })
	switch {
	case len(ranked) < 2:
		return "There are too few rounds to set the players against each other."
	case len(settled) == len(ranked):
		return fmt.Sprintf("The rounds tell the %d players apart.", len(ranked))
	case len(mayBeFirst) == 1:
		return fmt.Sprintf("By strokes gained %s is first; the others are told apart as far as their ranks say.", name(mayBeFirst[0].Player))
	case len(mayBeFirst) == len(ranked) && len(pick(ranked, func(p metrics.SquadPlayer) bool { return int(p.RankTo) == len(ranked) })) == len(ranked):
		return fmt.Sprintf("The rounds do not tell the %d players apart.", len(ranked))
	}
	return fmt.Sprintf("Any of %s may be first by strokes gained: the rounds do not tell them apart.", plots.Counted(len(mayBeFirst), "player", "players"))
}
