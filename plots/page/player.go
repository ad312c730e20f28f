package page

import (
	"path"
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

// player is all that one player's page is made of.
type player struct {
	*metrics.Results // the player's alone
	season           metrics.Season
	units            plots.Units
	pictures         map[string]*Picture // by name of the chart
	missing          []plots.Missing
	back             string
	report           *Report
}

// player gathers what the page of one player tells; folder is where the
// player's charts are.
func (r *Report) player(season metrics.Season, folder, back string) *player {
	p := &player{
		Results: r.Figures.Of(season.Player), season: season, units: r.Display.Units,
		pictures: map[string]*Picture{}, back: back, report: r,
	}
	for i := range r.Pictures {
		if in, chart := path.Split(r.Pictures[i].Name); strings.TrimSuffix(in, "/") == folder {
			p.pictures[chart] = &r.Pictures[i]
		}
	}
	for _, gap := range r.Missing {
		if in, chart := path.Split(gap.Name); strings.TrimSuffix(in, "/") == folder {
			p.missing = append(p.missing, plots.Missing{Name: chart, Reason: gap.Reason})
		}
	}
	return p
}

// document is the page, in the order in which a session goes.
func (p *player) document() *document {
	d := &document{
		Title: p.title(), Heading: p.called(), Opening: p.opening(), Back: p.back,
		Invented: p.report.Display.Invented, First: p.firstThings(), Glossary: p.glossary(), Version: p.report.Version,
	}
	for _, make := range []func() section{
		p.scoring, p.offTheTee, p.approach, p.shortGame, p.putting, p.decisions, p.trend, p.goal, p.handicap,
	} {
		if s := make(); s.ID != "" {
			d.Sections = append(d.Sections, s)
		}
	}
	d.Sections = append(d.Sections, p.report.method(p.Results, p.missing), p.report.filesRead())
	return d
}

// title is what a browser calls the page.
func (p *player) title() string {
	if p.season.Player == "" {
		return p.called()
	}
	return plain(p.called()) + ": season report"
}

// called is what the player is called in a heading.
func (p *player) called() string {
	if called := name(p.season.Player); called != "" {
		return called
	}
	return "Season report"
}

// charts are the figures of a section, by the names of their charts, those
// that could not be drawn with the reason in their place.
func (p *player) charts(names ...string) (figures []figure) {
	for _, chart := range names {
		if picture := p.pictures[chart]; picture != nil {
			figures = append(figures, figure{Name: chart, Picture: picture})
		}
		for _, gap := range p.missing {
			if gap.Name == chart {
				figures = append(figures, figure{Name: chart, Missing: gap.Reason})
			}
		}
	}
	return figures
}

// pick is the rows that a test lets through.
func pick[R any](rows []R, is func(R) bool) (picked []R) {
	for _, row := range rows {
		if is(row) {
			picked = append(picked, row)
		}
	}
	return picked
}

// first is the first row that a test lets through.
func first[R any](rows []R, is func(R) bool) (row R, found bool) {
	for _, row := range rows {
		if is(row) {
			return row, true
		}
	}
	return row, false
}
