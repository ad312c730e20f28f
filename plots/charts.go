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
	ShortGameYd    float64 // within which strokes are short game
}

// MostPlayers is for how many players charts are drawn in one run.
const MostPlayers = 30

// Charts are the charts of every player: by their names when there is one
// player, in a folder each when there are several.
func Charts(figures *metrics.Results, d Display) (charts []*Chart, missing []Missing) {
	for i, season := range figures.Seasons {
		folder := ""
		if len(figures.Seasons) > 1 {
			folder = PlayerFolder(i+1, season.Player)
		}
		if i >= MostPlayers {
			missing = append(missing, Missing{Name: path.Join(folder, "of any kind"), Reason: fmt.Sprintf(
				"Charts are drawn for the first %d players: name fewer at a time with --player.", MostPlayers)})
			continue
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
		add(ScoringChart(counted, figures.Scoring, figures.DoubleCauses))
		add(StrokesGainedChart(counted, figures.StrokesGained))
		add(PrioritiesChart(counted, figures.Priorities))
		add(TeeClubsChart(counted, figures.TeeClubs, figures.TeeClubDifferences))
		add(ApproachProximityChart(counted, figures.Approach))
		add(ApproachValueChart(counted, figures.Approach))
		add(MissPatternChart(counted, figures.MissPattern))
		add(ShortGameChart(counted, figures.ShortGame, figures.ShortSided))
		add(PuttsMadeChart(counted, figures.Putting, figures.PuttingModel))
		add(FirstPuttChart(counted, figures.Putting))
		add(PuttSlopeChart(counted, figures.PuttingGround, figures.PuttingGroundDifferences))
		add(AimChart(counted, figures.Aim))
		add(StrokesGainedTrendChart(counted, figures.Trend, figures.TrendChange))
		if len(figures.Goal) > 0 {
			add(GoalChart(counted, figures.Goal, figures.GoalAfter, figures.Priorities))
		}
		add(HandicapChart(counted, figures.Handicap))
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

// PlayerFolder is a name for a player's folder that is safe on every system
// and differs from all others: a number, then the plain letters of the name.
func PlayerFolder(number int, name string) string {
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
