// Package page writes the coaching page: one self-contained HTML file a player,
// with the season in a sentence, what to work on first, and the figures, charts
// and words of every part of the game. It computes no figure and draws no chart.
package page

import (
	"fmt"
	"path"

	"roundmill/metrics"
	"roundmill/plots"
)

// Name is the file name of a page.
const Name = "report.html"

// mostPages is up to how many players get a page each without being asked for.
const mostPages = 20

// Report is what the pages of one run tell.
type Report struct {
	Figures  *metrics.Results
	Display  plots.Display
	Pictures []Picture       // as plots.Charts named them
	Missing  []plots.Missing // likewise
	Reading  plots.Reading
	Version  string
	Asked    bool // the players were asked for by name
}

// WithoutPages says why players have no pages of their own, and how to get
// them; it is empty when they have.
func (r *Report) WithoutPages() string {
	players := len(r.Figures.Seasons)
	if r.Asked || players <= mostPages {
		return ""
	}
	return fmt.Sprintf("a page each is written for up to %d players, and here are %s; --player NAME, which may be repeated, writes those of the players named",
		mostPages, plots.Count(players))
}

// Write hands over every page with its name in the folder of results: that of
// the only player, or that of all players and theirs below it.
func (r *Report) Write(write func(name string, content []byte) error) error {
	seasons := r.Figures.Seasons
	file := func(name string, d *document) error {
		content, err := d.html()
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		return write(name, content)
	}
	if len(seasons) == 1 {
		return file(Name, r.player(seasons[0], "", "").document())
	}
	if err := file(Name, r.squad()); err != nil {
		return err
	}
	if r.WithoutPages() != "" {
		return nil
	}
	for i, season := range seasons {
		folder := plots.PlayerFolder(i+1, season.Player)
		if err := file(playerPage(folder), r.player(season, folder, "../../"+Name).document()); err != nil {
			return err
		}
	}
	return nil
}

func playerPage(folder string) string { return path.Join("players", folder, Name) }
