package page

import (
	"strings"
	"testing"

	"roundmill/metrics"
)

func TestNamesAreDataAndNotMarkup(t *testing.T) {
	figures := *roundFigures()
	season := figures.Seasons[0]
	season.Player = `</title><img src=x onerror=alert(1)> "Ann" ` + "\u202eevil"
	figures.Seasons = []metrics.Season{season}
	figures.TeeClubs = []metrics.TeeClub{{Player: season.Player, Club: "<i>driver</i>", N: 30, StrokesGainedPer: 1}}
	figures.CostlyShots = []metrics.CostlyShot{{Player: season.Player, Rank: 1, Course: "<u>Links</u>", Note: strings.Repeat("\u2069long ", 100), StrokesGained: -1}}
	page := pagesOf(t, &Report{Figures: &figures})[Name]
	for _, forbidden := range []string{"<img src=x", "<i>", "<u>", "\u202e", "\u2069"} {
		if strings.Contains(page, forbidden) {
			t.Errorf("the page holds %q", forbidden)
		}
	}
	for _, want := range []string{"<bdi>&lt;i&gt;driver&lt;/i&gt;</bdi>", "<bdi>&lt;u&gt;Links&lt;/u&gt;</bdi>"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not hold %s", want)
		}
	}
}

func TestNamesKeepToTheirLine(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"", ""},
		{" \t ", ""},
		{"Ann\n\tLee ", "Ann Lee"},
		{"a\u200eb\u2067c\u0000d", "abcd"},
		{"e\u0301\u0302\u0303\u0304\u0305f", "e\u0301\u0302\u0303f"},
		{strings.Repeat("ä", 61), strings.Repeat("ä", 60) + "…"},
		{"bad\xff", "bad\ufffd"},
	} {
		if got := plain(name(c.in)); got != c.want {
			t.Errorf("%q becomes %q, expected %q", c.in, got, c.want)
		}
	}
}

func TestAPageIsCalledByItsPlayer(t *testing.T) {
	said(t, "named", (&player{season: metrics.Season{Player: "Wenlo Tarrowby"}}).title(), "Wenlo Tarrowby: season report")
	said(t, "without a name", (&player{}).title(), "Season report")
}
