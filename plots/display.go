package plots

import (
	"fmt"
	"path"
	"strings"
	"unicode"

	"roundmill/metrics"
)

// Display says how figures are shown.
type Display struct {
	Units          Units
	Invented       bool // the built-in demo season
	BaselineSource string
}

// mostPlayers is for how many players charts are drawn in one run.
const mostPlayers = 30

// Charts are the charts of every player: by their names when there is one
// player, in a folder each when there are several.
func Charts(figures *metrics.Results, d Display) (charts []*Chart, missing []Missing) {
	for i, season := range figures.Seasons {
		folder := ""
		if len(figures.Seasons) > 1 {
			folder = playerFolder(i+1, season.Player)
		}
		if i == mostPlayers {
			return charts, append(missing, Missing{Name: "charts", Reason: fmt.Sprintf(
				"drawn for the first %d of %d players; --player NAME draws those of one", mostPlayers, len(figures.Seasons))})
		}
		counted := d.season(season, figures)
		add := func(chart *Chart, gap *Missing) {
			if gap != nil {
				gap.Name = path.Join(folder, gap.Name)
				missing = append(missing, *gap)
				return
			}
			chart.Name = path.Join(folder, chart.Name)
			charts = append(charts, chart)
		}
		add(ApproachProximityChart(counted, ofPlayer(figures.Approach, season.Player, func(r metrics.ApproachProximity) string { return r.Player })))
		add(StrokesGainedChart(counted, ofPlayer(figures.StrokesGained, season.Player, func(r metrics.StrokesGained) string { return r.Player })))
		add(PrioritiesChart(counted, ofPlayer(figures.Priorities, season.Player, func(r metrics.Priority) string { return r.Player })))
		add(StrokesGainedTrendChart(counted, ofPlayer(figures.Trend, season.Player, func(r metrics.Trend) string { return r.Player }),
			ofPlayer(figures.TrendChange, season.Player, func(r metrics.TrendChange) string { return r.Player })))
		add(ApproachValueChart(counted, ofPlayer(figures.Approach, season.Player, func(r metrics.ApproachProximity) string { return r.Player })))
		add(MissPatternChart(counted, ofPlayer(figures.MissPattern, season.Player, func(r metrics.MissPattern) string { return r.Player })))
		add(TeeClubsChart(counted, ofPlayer(figures.TeeClubs, season.Player, func(r metrics.TeeClub) string { return r.Player }),
			ofPlayer(figures.TeeClubDifferences, season.Player, func(r metrics.TeeClubDifference) string { return r.Player })))
		add(AimChart(counted, ofPlayer(figures.Aim, season.Player, func(r metrics.Aim) string { return r.Player })))
		add(PuttsMadeChart(counted,
			ofPlayer(figures.Putting, season.Player, func(r metrics.Putting) string { return r.Player }),
			ofPlayer(figures.PuttingModel, season.Player, func(r metrics.PuttingModel) string { return r.Player })))
		add(FirstPuttChart(counted, ofPlayer(figures.Putting, season.Player, func(r metrics.Putting) string { return r.Player })))
		add(PuttSlopeChart(counted,
			ofPlayer(figures.PuttingGround, season.Player, func(r metrics.PuttingGround) string { return r.Player }),
			ofPlayer(figures.PuttingGroundDifferences, season.Player, func(r metrics.PuttingGroundDifference) string { return r.Player })))
		add(ShortGameChart(counted,
			ofPlayer(figures.ShortGame, season.Player, func(r metrics.ShortGame) string { return r.Player }),
			ofPlayer(figures.ShortSided, season.Player, func(r metrics.ShortSided) string { return r.Player })))
		add(ScoringChart(counted,
			ofPlayer(figures.Scoring, season.Player, func(r metrics.Scoring) string { return r.Player }),
			ofPlayer(figures.DoubleCauses, season.Player, func(r metrics.DoubleCause) string { return r.Player })))
		add(HandicapChart(counted, ofPlayer(figures.Handicap, season.Player, func(r metrics.Handicap) string { return r.Player })))
		if len(figures.Goal) > 0 {
			add(GoalChart(counted, ofPlayer(figures.Goal, season.Player, func(r metrics.GoalChance) string { return r.Player }),
				ofPlayer(figures.GoalAfter, season.Player, func(r metrics.GoalAfter) string { return r.Player }),
				ofPlayer(figures.Priorities, season.Player, func(r metrics.Priority) string { return r.Player })))
		}
	}
	if len(figures.Goal) == 0 {
		missing = append(missing, Missing{Name: goalName, Reason: noGoal}) // once, and not for every player
	}
	return charts, missing
}

// season describes what a player's charts count.
func (d Display) season(s metrics.Season, figures *metrics.Results) Season {
	counted := Season{
		Player: s.Player, From: s.From, To: s.To, Rounds: int(s.Rounds), Shots: int(s.Shots),
		BaselineNote: d.BaselineSource, Units: d.Units, Invented: d.Invented,
	}
	if len(figures.StrokesGained) > 0 {
		counted.Baseline = figures.StrokesGained[0].Baseline
	}
	return counted
}

func ofPlayer[R any](rows []R, player string, of func(R) string) (own []R) {
	for _, row := range rows {
		if of(row) == player {
			own = append(own, row)
		}
	}
	return own
}

// playerFolder is a name for a player's folder that is safe on every system
// and differs from all others: a number, then the plain letters of the name.
func playerFolder(number int, name string) string {
	const most = 40
	plain := strings.Map(func(r rune) rune {
		switch {
		case r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			return unicode.ToLower(r)
		case r == ' ' || r == '-' || r == '_':
			return '-'
		}
		return -1
	}, name)
	if len(plain) > most {
		plain = plain[:most]
	}
	return strings.TrimSuffix(fmt.Sprintf("%02d-%s", number, strings.Trim(plain, "-")), "-")
}
