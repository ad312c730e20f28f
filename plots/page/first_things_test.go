package page

import (
	"strings"
	"testing"

	"roundmill/metrics"
	"roundmill/plots"
)

func TestThingsToWorkOnSayHowSureTheyAre(t *testing.T) {
	for _, c := range []struct {
		name   string
		gain   estimate
		chance float64
		want   string
	}{
		{"sure", estimate{0.65, 0.5, 0.8}, 1, "90 % interval 0.5 to 0.8. Chance that it is really behind: over 99 %. The season shows this well."},
		{"wide", estimate{2.86, 1.55, 4.2}, 1, "90 % interval 1.6 to 4.2. Chance that it is really behind: over 99 %. The season shows this well."},
		{"sure if it were the only part", estimate{0.3, 0.1, 0.5}, 0.995, "90 % interval 0.1 to 0.5. Chance that it is really behind: over 99 %. Likely, though of many parts one looks so by chance now and then."},
		{"one of many", estimate{0.2, 0.02, 0.38}, 0.97, "90 % interval 0.02 to 0.38. Chance that it is really behind: 97 %. Likely, though of many parts one looks so by chance now and then."},
		{"likely", estimate{0.1, -0.03, 0.23}, 0.9, "90 % interval −0.03 to +0.23, where below zero is ahead. Chance that it is really behind: 90 %. Likely, but not settled."},
		{"chance", estimate{0.02, -0.08, 0.12}, 0.67, "90 % interval −0.1 to +0.1, where below zero is ahead. Chance that it is really behind: 67 %. This may be chance."},
	} {
		said(t, c.name, certainty(metrics.Priority{StrokesToGain: c.gain.value, StrokesLo: c.gain.lo, StrokesHi: c.gain.hi, ChanceBelow: c.chance}, 30), c.want)
	}
	row := func(class string, gain, lo, hi float64) metrics.Priority {
		return metrics.Priority{Rank: 1, Class: class, StrokesToGain: gain, StrokesLo: lo, StrokesHi: hi}
	}
	fourth, fifth := row("putt", 0.7, 0.2, 1.2), row("putt", 0.1, 0.0, 0.2)
	fourth.Rank, fifth.Rank = 4, 5
	overlapping := row("tee shot", 0.4, 0.2, 0.6)
	overlapping.Rank = 4
	for _, c := range []struct {
		name   string
		ranked []metrics.Priority
		behind []metrics.Priority
		want   string
	}{
		{"nothing ranked", nil, nil, "No part of the game has ten strokes in five rounds yet, which is the least that can be ranked. Keep the log going."},
		{"nothing behind", []metrics.Priority{row("putt", -1, -2, 0)}, nil, "No part of the game that has shots enough is behind the benchmark. A closer benchmark, such as the player's own rounds (--baseline self), tells the parts apart."},
		{"one", []metrics.Priority{row("putt", 1, 0.5, 1.5)}, []metrics.Priority{row("putt", 1, 0.5, 1.5)}, ""},
		{"overlap", []metrics.Priority{row("putt", 1, 0.5, 1.5)}, []metrics.Priority{row("putt", 1, 0.5, 1.5), row("approach", 0.8, 0.3, 1.3)}, "Their intervals overlap, so another season could put them in another order."},
		{"overlap of intervals, not of a figure", []metrics.Priority{overlapping}, []metrics.Priority{row("putt", 1, 0.5, 1.5), row("approach", 0.8, 0.3, 1.3)}, "Their intervals overlap, so another season could put them in another order. One other part of the game may give as much as the last of them."},
		{"apart", []metrics.Priority{row("putt", 2, 1.5, 2.5), fourth, fifth}, []metrics.Priority{row("putt", 2, 1.5, 2.5), row("approach", 1.9, 1.4, 2.4), row("putt", 0.8, 0.3, 1.3)}, "Two of them are putts. The first stands clear of the last of them; between neighbours the order could change in another season. One other part of the game may give as much as the last of them."},
	} {
		said(t, c.name, strings.Join(firstSays(c.ranked, c.behind), " "), c.want)
	}
	of := func(classes ...string) (all []metrics.Priority) {
		for _, class := range classes {
			all = append(all, metrics.Priority{Class: class})
		}
		return all
	}
	said(t, "two of three", sharedClass(of("tee shot", "approach", "tee shot")), "Two of them are tee shots.")
	said(t, "all", sharedClass(of("putt", "putt")), "All of them are putts.")
	said(t, "different", sharedClass(of("putt", "approach", "tee shot")), "")
	said(t, "second", gainCell(row("putt", 2.86, 1.55, 4.2)), "2.9")
	said(t, "third", gainCell(row("tee shot", 2.82, 2.3, 3.3)), "2.8")
	said(t, "none", firstHeading(0), "What to work on")
	said(t, "one", firstHeading(1), "One thing to work on, with a coach")
	said(t, "two", firstHeading(2), "Two things to work on, with a coach")
}

func TestPartsOfTheGameAreNamedInTheUnitsSeen(t *testing.T) {
	cell := func(class, lie string, from, to float64) metrics.Priority {
		return metrics.Priority{Class: class, LieGroup: lie, FromYd: from, ToYd: to}
	}
	for _, c := range []struct {
		row           metrics.Priority
		yards, metres string
	}{
		{cell("tee shot", "", 500, 550), "Tee shots on holes of 500–550 yards", "Tee shots on holes of 457–503 metres"},
		{cell("tee shot", "", 0, 300), "Tee shots on holes under 300 yards", "Tee shots on holes under 274 metres"},
		{cell("tee shot", "", 550, unknown), "Tee shots on holes of 550 yards and more", "Tee shots on holes of 503 metres and more"},
		{cell("approach", "fairway", 150, 175), "Approaches from the fairway, 150–175 yards", "Approaches from the fairway, 137–160 metres"},
		{cell("approach", metrics.FromSand, 75, 100), "Approaches from sand, 75–100 yards", "Approaches from sand, 69–91 metres"},
		{cell("approach", metrics.OutOfReach, 0, unknown), "Approaches laid up or from out of reach", "Approaches laid up or from out of reach"},
		{cell("approach", metrics.FromRecovery, 0, unknown), "Approaches from recovery lies", "Approaches from recovery lies"},
		{cell("short game", metrics.FromRecovery, 10, 20), "Short game from recovery lies, 10–20 yards", "Short game from recovery lies, 9–18 metres"},
		{cell("short game", "rough", 30, unknown), "Short game from the rough, 30 yards and more", "Short game from the rough, 27 metres and more"},
		{cell("putt", "", 0, 1), "Putts under 3 feet", "Putts under 0.9 metres"},
		{cell("putt", "", 10./3, 5), "Putts of 10–15 feet", "Putts of 3.0–4.6 metres"},
		{cell("putt", "", 40./3, unknown), "Putts of 40 feet and more", "Putts of 12.2 metres and more"},
	} {
		said(t, "yards", cellWords(c.row, plots.Yards), c.yards)
		said(t, "metres", cellWords(c.row, plots.Metres), c.metres)
	}
}
