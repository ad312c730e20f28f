package page

import (
	"math"
	"strings"
	"testing"
	"time"

	"roundmill/ingest"
	"roundmill/metrics"
	"roundmill/plots"
)

var unknown = math.NaN()

// said compares words, in which a blank stands for one that does not break.
func said(t *testing.T, name, got, want string) {
	t.Helper()
	if got = plain(strings.ReplaceAll(got, plots.NoBreak, " ")); got != want {
		t.Errorf("%s:\n got %s\nwant %s", name, got, want)
	}
}

func day(text string) time.Time {
	d, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return d
}

func TestOpeningSaysTheSeasonInOneSentence(t *testing.T) {
	season := func(rounds int64, score, toPar, lo, hi float64) metrics.Season {
		return metrics.Season{Rounds: rounds, Holes: 18 * rounds, From: day("2026-03-07"), To: day("2026-10-24"), Score: score, ToPar: toPar, ToParLo: lo, ToParHi: hi}
	}
	gained := func(value, lo, hi float64) metrics.StrokesGained {
		return metrics.StrokesGained{N: 9, PerRound: value, PerRoundLo: lo, PerRoundHi: hi, Baseline: "tour"}
	}
	one := season(1, 88, 16, unknown, unknown)
	one.From = one.To
	acrossYears := season(20, 71.2, -0.8, -1.3, -0.3)
	acrossYears.From = day("2025-11-01")
	for _, c := range []struct {
		name   string
		season metrics.Season
		total  metrics.StrokesGained
		want   string
	}{
		{"behind", season(46, 74.1, 2.5, 1.9, 3.1), gained(-4.4, -5, -3.8),
			"46 rounds from 7 March to 24 October 2026: 74.1 strokes a round, 2.5 over par (90 % interval 1.9 to 3.1), and 4.4 strokes (3.8 to 5.0) a round behind the benchmark, tour."},
		{"ahead and under par, over two years", acrossYears, gained(1.24, 0.8, 1.7),
			"20 rounds from 1 November 2025 to 24 October 2026: 71.2 strokes a round, 0.8 under par (90 % interval 0.3 to 1.3), and 1.2 strokes (0.8 to 1.7) a round ahead of the benchmark, tour."},
		{"open", season(9, 73, 0.4, -0.5, 1.3), gained(0.2, -0.5, 0.9),
			"9 rounds from 7 March to 24 October 2026: 73.0 strokes a round, 0.4 over par (90 % interval −0.5 to 1.3), and no different from the benchmark, tour, as far as the rounds tell: +0.2 strokes (−0.5 to +0.9) a round."},
		{"one round", one, gained(-15.2, unknown, unknown),
			"1 round on 24 October 2026: 88.0 strokes a round, 16.0 over par, and −15.2 strokes a round against the benchmark, tour, in too few rounds to say how much of that will last."},
		{"no benchmark", season(8, 80, 8, 6.6, 9.4), metrics.StrokesGained{}, "8 rounds from 7 March to 24 October 2026: 80 strokes a round, 8 over par (90 % interval 7 to 9)."},
		{"nothing complete", metrics.Season{Rounds: 2, From: day("2026-03-07"), To: day("2026-03-07")}, gained(1, 0, 2),
			"2 rounds on 7 March 2026, and no hole of them is complete: there is no score to tell of."},
	} {
		said(t, c.name, openingWords(c.season, c.total), c.want)
	}
}

func TestStrokesGainedClaimNoMoreThanTheirInterval(t *testing.T) {
	for _, c := range []struct {
		name string
		e    estimate
		want string
	}{
		{"a loss", estimate{-1.68, -1.96, -1.4}, "Putts lose 1.7 strokes a round (90 % interval 1.4 to 2.0)."},
		{"one stroke", estimate{1.1, 0.1, 2.9}, "Putts gain 1 stroke a round (90 % interval 0 to 3)."},
		{"spans zero", estimate{-0.1, -0.3, 0.126}, "Putts: neither a loss nor a gain is shown, −0.1 strokes a round with a 90 % interval of −0.3 to +0.1."},
		{"touches zero", estimate{-0.4, -0.8, 0}, "Putts: neither a loss nor a gain is shown, −0.4 strokes a round with a 90 % interval of −0.8 to 0.0."},
		{"no interval", estimate{-2.34, unknown, unknown}, "Putts: −2.3 strokes a round as played; too few rounds to say more."},
		{"nothing", estimate{unknown, unknown, unknown}, "Putts: not known."},
	} {
		said(t, c.name, c.e.against("Putts", "lose", "gain", "a round"), c.want)
	}
}

func TestFiguresHaveTheDigitsOfTheirInterval(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{estimate{-0.054, -0.166, 0.054}.signedCell(), "−0.1\n(−0.2 to +0.1)"},
		{estimate{-0.129, -0.149, -0.109}.signedCell(), "−0.13\n(−0.15 to −0.11)"},
		{estimate{261.5, 259.8, 262.97}.yardCell(), "262\n(260 to 263)"},
		{estimate{241.5, unknown, unknown}.yardCell(), "242"},
		{estimate{66.5, unknown, unknown}.lengthCell(plots.Yards), "66"},
		{estimate{20.27, unknown, unknown}.lengthCell(plots.Metres), "20.3"},
		{estimate{0.9, 0.9, 0.9}.length(plots.Yards), "0.9"},
		{estimate{unknown, unknown, unknown}.cell(), "–"},
		{share{estimate{0.57, 0.538, 0.603}, 615}.cell(), "57 %\n(54 to 60 %)"},
		{share{estimate{3. / 7, 0.2, 0.7}, 7}.cell(), "3 of 7"},
		{share{estimate{unknown, unknown, unknown}, 0}.cell(), "–"},
		{share{estimate{0.5, unknown, unknown}, 20}.cell(), "50 %"},
		{byChance(1, "lies"), ""}, {byChance(6, "steps"), "; of 6 steps one may stand out by chance"}, {byChance(16, "distances"), "; of 16 distances two may stand out by chance"},
	} {
		said(t, "printed", c.got, c.want)
	}
}

func TestThingsToWorkOnSayHowSureTheyAre(t *testing.T) {
	for _, c := range []struct {
		name   string
		gain   estimate
		chance float64
		want   string
	}{
		{"sure", estimate{0.65, 0.5, 0.8}, 1, "90 % interval 0.5 to 0.8. Chance that it is really behind: over 99 %. The season shows this well."},
		{"one of many", estimate{0.2, 0.02, 0.38}, 0.97, "90 % interval 0.0 to 0.4. Chance that it is really behind: 97 %. Likely, though of many parts one looks so by luck now and then."},
		{"likely", estimate{0.1, -0.03, 0.23}, 0.9, "90 % interval 0.0 to +0.2, where below zero is ahead. Chance that it is really behind: 90 %. Likely, but not settled."},
		{"chance", estimate{0.02, -0.08, 0.12}, 0.67, "90 % interval −0.1 to +0.1, where below zero is ahead. Chance that it is really behind: 67 %. This may be chance."},
	} {
		said(t, c.name, certainty(c.gain, c.chance), c.want)
	}
	row := func(class string, gain, lo, hi float64) metrics.Priority {
		return metrics.Priority{Rank: 1, Class: class, StrokesToGain: gain, StrokesLo: lo, StrokesHi: hi}
	}
	for _, c := range []struct {
		name   string
		ranked int
		behind []metrics.Priority
		want   string
	}{
		{"nothing ranked", 0, nil, "No part of the game has ten strokes in five rounds yet, which is the least that can be ranked. Keep the log going."},
		{"nothing behind", 9, nil, "No part of the game that has shots enough is behind the benchmark. A closer benchmark, such as the player's own rounds (--baseline self), tells the parts apart."},
		{"one", 9, []metrics.Priority{row("putt", 1, 0.5, 1.5)}, ""},
		{"overlap", 9, []metrics.Priority{row("putt", 1, 0.5, 1.5), row("approach", 0.8, 0.3, 1.3)}, "Their intervals overlap, so another season could put them in another order."},
		{"apart", 9, []metrics.Priority{row("putt", 2, 1.5, 2.5), row("approach", 1.9, 1.4, 2.4), row("putt", 0.8, 0.3, 1.3)}, "Two of them are putts. The first stands clear of the last of them; between neighbours the order could change in another season."},
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
	said(t, "none", firstHeading(0), "What to work on")
	said(t, "one", firstHeading(1), "One thing to work on")
	said(t, "two", firstHeading(2), "Two things to work on")
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

func TestScoringWords(t *testing.T) {
	said(t, "shares", scoringWords(metrics.Scoring{N: 826, UnderParShare: 0.122, UnderParLo: 0.1, UnderParHi: 0.14, DoubleOrWorseShare: 0.03, DoubleOrWorseLo: 0.02, DoubleOrWorseHi: 0.04}),
		"Of 826 complete holes, 12 % (10 to 14 %) were played under par and 3 % (2 to 4 %) in two over or worse.")
	said(t, "few", scoringWords(metrics.Scoring{N: 1, UnderParLo: 0, UnderParHi: 0.7, DoubleOrWorseShare: 1}), "Of 1 complete hole, 0 of 1 were played under par and 1 of 1 in two over or worse.")
	parts := func(e ...estimate) (all []part) {
		for i, gained := range e {
			all = append(all, part{name: []string{"Tee shots", "Approach play", "The short game", "Putting"}[i], gained: gained})
		}
		return all
	}
	loss, gain, open, few := estimate{-1, -2, -0.5}, estimate{1, 0.5, 2}, estimate{0, -1, 1}, estimate{-1, unknown, unknown}
	for _, c := range []struct {
		name  string
		parts []part
		want  string
	}{
		{"all kinds", parts(loss, loss, open, gain), "Against the benchmark strokes are lost in tee shots and approach play; strokes are gained in putting; in the short game neither a loss nor a gain is shown."},
		{"nothing shown", parts(open, open, open, open), "Against the benchmark no part of the game is shown to gain or to lose."},
		{"too few rounds", parts(few, few, few, few), ""},
	} {
		said(t, c.name, partsWords(c.parts), c.want)
	}
	bounce := func(n int64, difference, lo, hi float64) metrics.BounceBack {
		return metrics.BounceBack{N: n, OtherwiseN: 90, Share: 0.1, OtherwiseShare: 0.2, Difference: difference, DifferenceLo: lo, DifferenceHi: hi}
	}
	const both = "Straight after a hole over par 10 % of holes are under par, otherwise 20 %"
	said(t, "worse", bounceWords(bounce(90, -0.1, -0.2, -0.01)), both+": a hole over par is followed by worse ones.")
	said(t, "open", bounceWords(bounce(90, -0.1, -0.2, 0.01)), both+": no sign that one bad hole brings, or mends, the next.")
	said(t, "better", bounceWords(bounce(90, 0.1, 0.01, 0.2)), both+": a hole over par is followed by better ones.")
	said(t, "few", bounceWords(bounce(9, 0.1, 0.01, 0.2)), "")
	said(t, "length", scoringGroup(metrics.Scoring{GroupKind: metrics.ByLength, Group: "4, 350-400", LengthFromYd: 350, LengthToYd: 400}, plots.Metres), "Par 4 of 320–366 metres")
	said(t, "nine", scoringGroup(metrics.Scoring{GroupKind: metrics.ByNine, Group: "front"}, plots.Yards), "Front nine")
}

func TestTeeWords(t *testing.T) {
	club := metrics.TeeClub{Club: "driver", N: 615, MedianYd: 261.5, MedianLoYd: 259.8, MedianHiYd: 263, FairwayShare: 0.57, NSide: 615,
		LeftShare: 0.3, LeftLo: 0.27, LeftHi: 0.33, RightShare: 0.2, RightLo: 0.18, RightHi: 0.23}
	said(t, "left", teeClubWords(club, plots.Yards), "The driver, 615 tee shots, goes 262 yards at the median and hits 57 % of fairways. Misses of more than 15 yards go left (30 %) more often than right (20 %).")
	said(t, "metres", teeClubWords(club, plots.Metres), "The driver, 615 tee shots, goes 239 metres at the median and hits 57 % of fairways. Misses of more than 14 metres go left (30 %) more often than right (20 %).")
	club.RightHi = 0.28
	said(t, "both", sideWords(club, plots.Yards), " Misses of more than 15 yards go left (30 %) about as often as right (20 %), as far as the shots tell.")
	club.LeftLo, club.LeftHi = unknown, unknown
	said(t, "no intervals", sideWords(club, plots.Yards), "")
	club.NSide = 9
	said(t, "no sides", sideWords(club, plots.Yards), "")
	club.N = 9
	said(t, "few", teeClubWords(club, plots.Yards), "")
	difference := func(n int64, score, lo, hi float64) metrics.TeeClubDifference {
		return metrics.TeeClubDifference{LongerClub: "driver", ShorterClub: "3 wood", NLonger: 99, NShorter: n, Score: score, ScoreLo: lo, ScoreHi: hi}
	}
	const hole = "; part of that may be the holes on which each was chosen."
	said(t, "longer is better", teeDifferenceWords(difference(30, 0.3, 0.1, 0.5)), "On holes of like length the score is 0.3 strokes (0.1 to 0.5) lower with the driver than with the 3 wood"+hole)
	said(t, "shorter is better", teeDifferenceWords(difference(30, -0.3, -0.5, -0.1)), "On holes of like length the score is 0.3 strokes (0.1 to 0.5) lower with the 3 wood than with the driver"+hole)
	said(t, "open", teeDifferenceWords(difference(30, 0.1, -0.1, 0.3)), "Between driver and 3 wood on holes of like length no difference in score is shown: +0.1 strokes a hole with the 3 wood, with a 90 % interval of −0.1 to +0.3.")
	said(t, "few", teeDifferenceWords(difference(9, 0.3, 0.1, 0.5)), "")
}

func TestApproachWords(t *testing.T) {
	cell := func(from, gain, lo, hi float64) metrics.Priority {
		return metrics.Priority{Class: "approach", LieGroup: "fairway", FromYd: from, ToYd: from + 25, StrokesToGain: gain, StrokesLo: lo, StrokesHi: hi}
	}
	said(t, "alone", bandWords([]metrics.Priority{cell(150, 0.5, 0.4, 0.6), cell(175, 0.2, 0.1, 0.3)}, plots.Yards), "Approaches from the fairway, 150–175 yards, lose the most: 0.5 strokes (0.4 to 0.6) a round.")
	said(t, "not clear", bandWords([]metrics.Priority{cell(150, 0.5, 0.4, 0.6), cell(175, 0.4, 0.3, 0.5)}, plots.Yards),
		"Approaches from the fairway, 150–175 yards, lose 0.5 strokes (0.4 to 0.6) a round, the largest figure of any distance and lie, though not clear of the next.")
	said(t, "no loss", bandWords([]metrics.Priority{cell(150, 0.1, -0.1, 0.3)}, plots.Yards), "From no distance and lie is a loss shown.")
	said(t, "none", bandWords(nil, plots.Yards), "")
	step := func(n int64, from, miss, lo, hi float64) metrics.DistanceControl {
		return metrics.DistanceControl{N: n, FromYd: from, ToYd: from + 10, LongMeanYd: miss, LongLoYd: lo, LongHiYd: hi}
	}
	said(t, "short", controlWords([]metrics.DistanceControl{step(40, 110, -2, -3.8, -0.2), step(40, 100, -1, -2.6, 0.1)}, plots.Yards),
		"Inside 120 yards from clean lies shots finish short on average from 110–120 yards (2 yards); of 2 steps one may stand out by chance.")
	said(t, "long, metres", controlWords([]metrics.DistanceControl{step(40, 110, 4.4, 2.1, 6.6)}, plots.Metres), "Inside 110 metres from clean lies shots finish long on average from 101–110 metres (4 metres).")
	said(t, "open", controlWords([]metrics.DistanceControl{step(40, 110, -2, -3.8, 0.2)}, plots.Yards), "Inside 120 yards from clean lies shots are neither short nor long on average, as far as they tell.")
	said(t, "few", controlWords([]metrics.DistanceControl{step(9, 110, -2, -3.8, -0.2)}, plots.Yards), "")
	wind := func(pct, lo, hi float64) metrics.WindSlopeEffect {
		return metrics.WindSlopeEffect{IntoPct: pct, IntoLoPct: lo, IntoHiPct: hi, IntoRule: 1}
	}
	said(t, "as the rule", windWords(wind(1.1, 0.9, 1.3)), "Into the wind a shot plays 1.1 % longer per mph (0.9 to 1.3), which the rule of thumb of 1 % agrees with.")
	said(t, "more", windWords(wind(1.5, 1.3, 1.7)), "Into the wind a shot plays 1.5 % longer per mph (1.3 to 1.7), more than the 1 % of the rule of thumb.")
	said(t, "less", windWords(wind(0.5, 0.3, 0.7)), "Into the wind a shot plays 0.5 % longer per mph (0.3 to 0.7), less than the 1 % of the rule of thumb.")
	said(t, "no wind", windWords(wind(unknown, unknown, unknown)), "")
}

func TestShortGameWords(t *testing.T) {
	row := func(n, made int64, share, lo, hi, implied float64) metrics.ShortGame {
		return metrics.ShortGame{N: n, UpAndDowns: made, UpAndDown: share, UpAndDownLo: lo, UpAndDownHi: hi, BaselineShare: implied}
	}
	const places = "; from the same places the benchmark implies about "
	said(t, "level", upAndDownWords(row(329, 186, 0.57, 0.52, 0.61, 0.54)), "Up and down 57 % (52 to 61 %) of 329 times"+places+"54 %, which is no different as far as the figures tell.")
	said(t, "better", upAndDownWords(row(329, 186, 0.57, 0.52, 0.61, 0.5)), "Up and down 57 % (52 to 61 %) of 329 times"+places+"50 %, which is less.")
	said(t, "worse", upAndDownWords(row(329, 186, 0.57, 0.52, 0.61, 0.7)), "Up and down 57 % (52 to 61 %) of 329 times"+places+"70 %, which is more.")
	said(t, "few", upAndDownWords(row(1, 0, 0, 0, 0.7, 0.7)), "Up and down 0 of 1 time.")
	lie := func(lie string, lo, hi, expected float64) metrics.ShortGame {
		return metrics.ShortGame{Lie: lie, N: 20, StrokesLo: lo, StrokesHi: hi, BaselineStrokes: expected}
	}
	said(t, "both", lieWords([]metrics.ShortGame{lie("bunker", 2.6, 2.8, 2.5), lie("rough", 2.2, 2.4, 2.5), lie("fringe", 2.3, 2.6, 2.5)}),
		"It takes more strokes than the benchmark expects from bunker, fewer from rough; of 3 lies one may stand out by chance.")
	said(t, "fewer", lieWords([]metrics.ShortGame{lie("rough", 2.2, 2.4, 2.5)}), "It takes fewer strokes than the benchmark expects from rough.")
	said(t, "open", lieWords([]metrics.ShortGame{lie("rough", 2.4, 2.6, 2.5)}), "From no lie with ten shots or more are the strokes to hole out shown to differ from what the benchmark expects.")
	said(t, "none", lieWords(nil), "")
	sided := func(cost, lo, hi float64) string {
		return shortSidedWords(metrics.ShortSided{Cost: cost, CostLo: lo, CostHi: hi})
	}
	said(t, "costs", sided(0.3, 0.1, 0.5), "Short-sided, it takes 0.3 strokes more (0.1 to 0.5) to hole out than after other misses from like distance.")
	said(t, "costs less", sided(-0.3, -0.5, -0.1), "Short-sided, it takes 0.3 strokes fewer (0.1 to 0.5) to hole out than after other misses from like distance.")
	said(t, "open", sided(-0.1, -0.2, 0.1), "That being short-sided costs anything is not shown: −0.1 strokes at like distance, with a 90 % interval of −0.2 to +0.1.")
	said(t, "unknown", sided(0.1, unknown, unknown), "")
}

func TestPuttingWords(t *testing.T) {
	putts := func(n int64, from, to, lo, hi, benchmark float64) metrics.Putting {
		return metrics.Putting{N: n, FromFt: from, ToFt: to, MadeLo: lo, MadeHi: hi, BaselineMade: benchmark}
	}
	said(t, "both", madeWords([]metrics.Putting{putts(50, 4, 5, 0.6, 0.7, 0.8), putts(50, 50, unknown, 0.1, 0.2, 0.05)}, plots.Yards),
		"Putts holed are fewer than the benchmark from 4–5 feet, and more than the benchmark from 50 feet and more; of 2 distances one may stand out by chance.")
	said(t, "metres", madeWords([]metrics.Putting{putts(50, 4, 5, 0.6, 0.7, 0.8)}, plots.Metres), "Putts holed are fewer than the benchmark from 1.2–1.5 metres.")
	said(t, "open", madeWords([]metrics.Putting{putts(50, 4, 5, 0.6, 0.9, 0.8)}, plots.Yards), "At none of 1 distance are the putts holed shown to be more or fewer than the benchmark's.")
	said(t, "few", madeWords([]metrics.Putting{putts(9, 4, 5, 0.1, 0.2, 0.8)}, plots.Yards), "")
	said(t, "three putts", threePuttWords(metrics.Putting{NFirst: 823, ThreePutt: 0.052, ThreePuttLo: 0.04, ThreePuttHi: 0.066}), "Three putts or more on 5 % (4 to 7 %) of 823 greens.")
	said(t, "one green", threePuttWords(metrics.Putting{NFirst: 1, NThreePutt: 1, ThreePutt: 1}), "Three putts or more on 1 of 1 green.")
	slope := func(made, lo, hi float64) string {
		return slopeWords(metrics.PuttingGroundDifference{Made: made, MadeLo: lo, MadeHi: hi})
	}
	said(t, "downhill", slope(-0.086, -0.127, -0.046), "At like distance 9 of a hundred fewer putts go in downhill than uphill (5 to 13).")
	said(t, "uphill", slope(0.086, 0.044, 0.127), "At like distance 9 of a hundred more putts go in downhill than uphill (4 to 13).")
	said(t, "open", slope(0.01, -0.045, 0.127), "At like distance downhill and uphill putts are not shown to differ.")
	model := func(line, pace, both estimate) string {
		return lineOrPaceWords(metrics.PuttingModel{LineGain: line.value, LineGainLo: line.lo, LineGainHi: line.hi, PaceGain: pace.value, PaceGainLo: pace.lo, PaceGainHi: pace.hi, BothGain: both.value, BothGainLo: both.lo, BothGainHi: both.hi})
	}
	shown, open := estimate{0.5, 0.2, 0.8}, estimate{0.1, -0.2, 0.4}
	const by = "By a model of start line and pace, the benchmark's "
	said(t, "line", model(shown, open, shown), by+"start line would save 0.5 strokes (0.2 to 0.8) a round; that pace costs anything is not shown.")
	said(t, "pace", model(open, shown, shown), by+"pace would save 0.5 strokes (0.2 to 0.8) a round; that start line costs anything is not shown.")
	said(t, "each", model(shown, shown, shown), by+"start line would save 0.5 strokes (0.2 to 0.8) a round and its pace 0.5 (0.2 to 0.8).")
	said(t, "together", model(open, open, shown), by+"start line and pace together would save 0.5 strokes (0.2 to 0.8) a round, but the putts do not tell which of the two.")
	said(t, "neither", model(open, open, open), "Whether start line or pace costs strokes the putts of this season do not tell.")
}

func TestDecisionWords(t *testing.T) {
	aim := func(offset, saved, lo, hi float64) metrics.Aim {
		return metrics.Aim{BandFromYd: 100, BandToYd: 125, Side: metrics.RightSide, CutYd: 3, OffsetYd: offset, OffsetLoYd: offset - 1, OffsetHiYd: offset + 1, Saved: saved, SavedLo: lo, SavedHi: hi}
	}
	said(t, "yards", aimWords([]metrics.Aim{aim(3, 0.02, 0.01, 0.03), aim(6, 0.06, 0.04, 0.08)}, plots.Yards),
		"Aim matters most from 100–125 yards with the hole cut 3 yards from the right edge: a target 6 yards (5 to 7) towards the middle of the green saves 0.06 strokes (0.04 to 0.08) a shot, by a model of the player's own misses.")
	said(t, "metres", aimWords([]metrics.Aim{aim(6, 0.06, 0.04, 0.08)}, plots.Metres),
		"Aim matters most from 91–114 metres with the hole cut 3 metres from the right edge: a target 5.5 metres (4.6 to 6.4) towards the middle of the green saves 0.06 strokes (0.04 to 0.08) a shot, by a model of the player's own misses.")
	said(t, "open", aimWords([]metrics.Aim{aim(6, 0.01, -0.01, 0.03)}, plots.Yards), "From no distance is aiming away from the flag shown to save strokes.")
	said(t, "none", aimWords(nil, plots.Yards), "No distance has twenty logged misses in five rounds, which aim needs.")
	fault := func(group string, value, lo, hi float64) metrics.Verdict {
		return metrics.Verdict{Group: group, N: 9, PerRound: value, PerRoundLo: lo, PerRoundHi: hi}
	}
	const beside = " Faults are written beside bad strokes, so they split the loss and do not measure a skill."
	said(t, "faults", faultWords([]metrics.Verdict{fault("decision", -0.3, -0.4, -0.2), fault("execution", -1, unknown, unknown), fault(metrics.NotNoted, -3, -4, -2)}),
		"Of the strokes that the player put down to a fault: 0.3 strokes a round by decision (0.2 to 0.4) and 1.0 strokes a round by execution."+beside)
	said(t, "no faults", faultWords([]metrics.Verdict{fault(metrics.NotNoted, -3, -4, -2)}), "")
	cause := func(kind, group string, n, started int64, share, lo, hi float64) metrics.DoubleCause {
		return metrics.DoubleCause{GroupKind: kind, Group: group, N: n, Started: started, Doubles: started, StartedShare: share, StartedLo: lo, StartedHi: hi}
	}
	said(t, "clear", doubleWords([]metrics.DoubleCause{cause(metrics.ByClass, "approach", 50, 40, 0.8, 0.7, 0.9), cause(metrics.ByClass, "putt", 50, 10, 0.2, 0.1, 0.3), cause(metrics.ByPenalty, "penalty", 50, 8, 0.1, 0.1, 0.2)}),
		"Of 50 double bogeys or worse, 40 began with an approach; 8 had a penalty stroke in them.")
	said(t, "not clear", doubleWords([]metrics.DoubleCause{cause(metrics.ByClass, "approach", 1, 1, 1, 0.3, 1), cause(metrics.ByClass, "putt", 1, 0, 0, 0, 0.7)}),
		"Of 1 double bogey or worse, 1 began with an approach, which is too few to set it apart from the other parts.")
	said(t, "none", doubleWords(nil), "")
}

func TestTrendWordsAskBothTheIntervalAndChance(t *testing.T) {
	row := func(change, lo, hi, p float64) metrics.TrendChange {
		return metrics.TrendChange{Class: "putt", SplitBy: metrics.SplitHalves, BeforeRounds: 22, AfterRounds: 23, Change: change, ChangeLo: lo, ChangeHi: hi, P: p, PCorrected: p}
	}
	const halves = "In the second half of the rounds, 23 rounds against 22 rounds, "
	said(t, "better", changeWords(row(1.2, 0.2, 2.1, 0.02)), halves+"the play was better by 1.2 strokes (0.2 to 2.1) a round: rounds dealt at random would differ so much 2 % of the time.")
	said(t, "worse", changeWords(row(-1.2, -2.1, -0.2, 0.001)), halves+"the play was worse by 1.2 strokes (0.2 to 2.1) a round: rounds dealt at random would differ so much under 1 % of the time.")
	said(t, "spans zero", changeWords(row(0.5, -0.2, 1.2, 0.01)), halves+"no change is shown: +0.5 strokes a round, with a 90 % interval of −0.2 to +1.2.")
	said(t, "could be chance", changeWords(row(0.7, 0.1, 1.3, 0.2)), halves+"the play looks better by 0.7 strokes (0.1 to 1.3) a round, but rounds dealt at random would differ so much 20 % of the time, so a change is not shown.")
	byDate := row(unknown, unknown, unknown, unknown)
	byDate.SplitBy, byDate.SplitDate, byDate.AfterRounds = metrics.SplitByDate, "2026-05-01", 1
	said(t, "too few", changeWords(byDate), "Since 1 May 2026, 1 round against 22 rounds, the change is not known: too few rounds.")
	said(t, "parts", partChangeWords([]metrics.TrendChange{row(1, 0.5, 1.5, 0.01), row(-1, -1.5, -0.5, 0.5)}), "By part of the game the play was better in putting.")
	said(t, "no parts", partChangeWords([]metrics.TrendChange{row(1, 0.5, 1.5, 0.3)}), "Of the single parts of the game none is shown to have changed.")
	said(t, "parts not known", partChangeWords([]metrics.TrendChange{byDate}), "")
	said(t, "none", partChangeWords(nil), "")
}

func TestGoalAndHandicapWords(t *testing.T) {
	said(t, "par", goalWords([]metrics.GoalChance{{Goal: "par", Method: metrics.ByHoles, Chance: 0.25, ChanceLo: 0.18, ChanceHi: 0.32}, {Goal: "par", Method: metrics.ByRounds, Chance: 0, ChanceLo: 0, ChanceHi: 0.06}}),
		"The chance of par or better in one round now: 25 % (18 to 32 %) made of single holes, under 1 % (0 to 6 %) as rounds were played.")
	said(t, "score", goalWords([]metrics.GoalChance{{Goal: "72", Method: metrics.ByHoles, Chance: 0.25, ChanceLo: unknown, ChanceHi: unknown}}), "The chance of a round in 72 or better in one round now: 25 % made of single holes.")
	said(t, "shared", goalPartWords([]metrics.GoalClass{{Class: "tee shot", Gives: 0.9, GivesLo: 0.7, GivesHi: 1.1}, {Class: "putt", Gives: 0.01, GivesLo: 0, GivesHi: 0.9}}),
		"Shared by what each part loses, the strokes on the way there would come from: tee shots 0.9 (0.7 to 1.1).")
	round := func(scores, counted int64, index float64) metrics.Handicap {
		return metrics.Handicap{Date: "2026-10-24", Scores: scores, Counted: counted, IndexAfter: index}
	}
	said(t, "index", handicapWords([]metrics.Handicap{round(3, 1, 8.1), round(44, 8, 0.3), round(44, 0, unknown)}), "Estimated index after the round of 24 October 2026: 0.3, from the lowest 8 of the last 20 scores.")
	said(t, "plus", handicapWords([]metrics.Handicap{round(5, 1, -1.2)}), "Estimated index after the round of 24 October 2026: +1.2, from the lowest of the last 5 scores.")
	said(t, "one round", handicapWords([]metrics.Handicap{round(1, 0, unknown)}), "1 round with a rating is too few: an index takes three.")
	said(t, "two rounds", handicapWords([]metrics.Handicap{round(1, 0, unknown), round(2, 0, unknown)}), "2 rounds with a rating are too few: an index takes three.")
	said(t, "none", handicapWords(nil), "No complete round of 18 holes has a Course Rating and a Slope Rating in the log, so no index can be estimated.")
}

func TestSquadWordsRankNobodyThatTheRoundsDoNot(t *testing.T) {
	players := func(ranks ...metrics.Rank) (all []metrics.SquadPlayer) {
		for i := 0; i < len(ranks); i += 2 {
			all = append(all, metrics.SquadPlayer{Player: string(rune('A' + i/2)), RankFrom: ranks[i], RankTo: ranks[i+1]})
		}
		return all
	}
	said(t, "all settled", rankWords(players(1, 1, 2, 2)), "The rounds tell all players apart.")
	said(t, "one first", rankWords(players(2, 3, 2, 3, 1, 1)), "By strokes gained C is first; the others are told apart as far as their ranks say.")
	said(t, "nobody", rankWords(players(1, 3, 1, 3, 1, 3)), "The rounds do not tell the 3 players apart.")
	said(t, "two may be", rankWords(players(1, 2, 1, 2, 3, 3)), "Any of 2 players may be first by strokes gained: the rounds do not tell them apart.")
	said(t, "too few", rankWords(players(0, 0, 1, 1)), "There are too few rounds to set the players against each other.")
	said(t, "range", ranks(players(2, 4)[0]), "2 to 4")
	said(t, "single", ranks(players(2, 2)[0]), "2")
	said(t, "unranked", ranks(players(0, 0)[0]), "–")
}

func TestWordsOfTheFilesRead(t *testing.T) {
	reading := func(files int, records, kept, refused int64) plots.Reading {
		r := plots.Reading{Files: make([]ingest.FileInfo, files)}
		r.Total.Records, r.Total.Kept, r.Total.Refused = records, kept, refused
		return r
	}
	said(t, "all kept", readWords(reading(1, 3389, 3389, 0)), "3,389 records were read from 1 file, and 3,389 kept; none was refused.")
	said(t, "one refused", readWords(reading(2, 8, 7, 1)), "8 records were read from 2 files, and 7 kept; 1 was refused: rejects.csv says which, and what to do.")
	said(t, "one record", readWords(reading(1, 1, 1, 0)), "1 record was read from 1 file, and 1 kept; none was refused.")
}
